import { columnsOnEdge } from "../cloth/edges.ts";
import { outer } from "../cloth/tip.ts";
import { unrollStrip } from "../surface/strip.ts";
import type { FlatPart } from "./cut-ply.ts";

/**
 * How long a part's edge on a side is along the shell, mm, from corner to corner of its outline: what of the band's edge lies in a fold, where the line's square rays meet, is
 * no edge of the piece.
 */
export function edgeLength({ zone, fit, flat }: FlatPart, side: "left" | "right"): number {
  const lengthOf = side === "left" ? "leftLengthMm" : "rightLengthMm";
  if (!fit) return flat[lengthOf];
  const { strip, left, right } = zone;
  const { columns } = fit.drape;
  const on = columnsOnEdge(fit, side);
  if (on.length === columns.length) return flat[lengthOf];
  const pointOf = (c: number) => {
    const k = 3 * outer(columns[c], side);
    return columns[c].points.subarray(k, k + 3);
  };
  let length = 0;
  for (let i = 1; i < on.length; i++) {
    const [a, b] = [on[i - 1], on[i]];
    if (b === a + 1)
      length += unrollStrip(strip, columns[a].station, columns[b].station, left, right)[lengthOf];
    else {
      const [p, q] = [pointOf(a), pointOf(b)];
      length += Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]);
    }
  }
  return length;
}
