import type { Fit } from "./fit.ts";
import type { Cut } from "./lattice.ts";
import { outer } from "./tip.ts";

/** A place that was found on an edge lies no further than this from the outline drawn, mm. */
const ON_OUTLINE = 0.3;

/**
 * The columns of a draped zone whose place at the edge on a side is one of its outline's, in order along it. The others lie in a fold or a seam: the zone's lines of
 * sight meet there, and its edge, seen from the line, runs to and fro over cloth that is whole.
 */
export function columnsOnEdge({ drape: { columns, flat }, outline }: Fit, side: Cut["side"]): number[] {
  const way = side === "right" ? 1 : -1;
  const places = columns.map((column, c) => {
    const k = 2 * outer(column, side);
    return placeOn(outline, flat[c][k], flat[c][k + 1]);
  });
  const { length } = placeOn(outline, 0, 0);
  const round = (s: number) => s - Math.floor(s / length) * length;
  const last = columns.length - 1;
  // The outline is walked along the right edge and back along the left one; what is nearer to its beginning from behind lies before it.
  const from = places[0].along;
  const end = round(way * (places[last].along - from));
  const along = places.map((place) => {
    const s = round(way * (place.along - from));
    return s > (end + length) / 2 ? s - length : s;
  });
  return longestRising(
    along,
    places.map(({ distance }) => distance < ON_OUTLINE),
  );
}

/** Where a ring (x y pairs, mm) is nearest to a point: how far along it from its first corner, and how far away; and the ring's length, mm. */
function placeOn(
  ring: Float64Array,
  x: number,
  y: number,
): { along: number; distance: number; length: number } {
  let [along, distance, length] = [0, Infinity, 0];
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    const [dx, dy] = [ring[j] - ring[i], ring[j + 1] - ring[i + 1]];
    const side = Math.hypot(dx, dy);
    const part = ((x - ring[i]) * dx + (y - ring[i + 1]) * dy) / (side * side || 1);
    const u = Math.min(1, Math.max(0, part));
    const apart = Math.hypot(ring[i] + u * dx - x, ring[i + 1] + u * dy - y);
    if (apart < distance) [along, distance] = [length + u * side, apart];
    length += side;
  }
  return { along, distance, length };
}

/** Indices of the longest row of values, of those allowed, that nowhere falls. */
function longestRising(values: readonly number[], allowed: readonly boolean[]): number[] {
  const rows: number[][] = [];
  values.forEach((value, i) => {
    let best: number[] = [];
    if (allowed[i])
      for (let j = 0; j < i; j++)
        if (allowed[j] && values[j] <= value + 1e-6 && rows[j].length > best.length) best = rows[j];
    rows.push(allowed[i] ? [...best, i] : []);
  });
  return rows.reduce((longest, row) => (row.length > longest.length ? row : longest), []);
}
