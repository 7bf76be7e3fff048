import type { Drape } from "./drape.ts";
import type { Column, Cut } from "./lattice.ts";

/** Cloth that is whole may be drawn this far from itself, mm: what boundaries of sheared cloth may be off by. */
const TORN = 3;
/** A cut whose sides lie no further apart than this all along, mm, need not be made. */
const CLOSED = 1;

type Places = Pick<Drape, "columns" | "flat">;

/** Index of a column's place at its edge on a side. */
export const outer = ({ ws }: Column, side: Cut["side"]): number => (side === "left" ? ws.length - 1 : 0);

/**
 * Index of the place at which the cut before column c ends in flat cloth: its tip, or further in where yarns run so far askew that the cloth is parted there
 * too. Null where there is no cut before the column, or one that opens nowhere.
 */
export function tipOf(places: Places, c: number): number | null {
  const column = places.columns[c];
  const { after, ws } = column ?? {};
  if (!after) return null;
  const inwards = after.side === "left" ? -1 : 1;
  let tip = ws.indexOf(after.side === "left" ? after.tip : -after.tip);
  let widest = 0;
  for (let k = outer(column, after.side); k !== tip + inwards; k += inwards)
    widest = Math.max(widest, parted(places, c, k));
  if (widest <= CLOSED) return null;
  while (parted(places, c, tip) > TORN && tip + inwards in ws) tip += inwards;
  return tip;
}

/** Whether a cut ends nowhere: the cloth is parted from one edge of its zone to the other. */
export const isTorn = (places: Places): boolean =>
  places.columns.some((_, c) => {
    const tip = tipOf(places, c);
    return tip !== null && parted(places, c, tip) > TORN;
  });

/** How far the two places lie apart that a zone's place k at the cut before column c has in flat cloth, mm. */
function parted({ flat }: Places, c: number, k: number): number {
  return Math.hypot(flat[c][2 * k] - flat[c - 1][2 * k], flat[c][2 * k + 1] - flat[c - 1][2 * k + 1]);
}
