import type { Lattice } from "./lattice.ts";
import { LIPSCHITZ, type Space } from "./space.ts";

/**
 * A bulge that reaches less far over a lattice edge is no sheet of its own, but a round corner that pokes through the
 * side of a cell: half the thinnest sheet looked for, mm, or this part of a small cell.
 */
const LEAST_REACH_MM = 9;
const LEAST_REACH = 0.15;

/**
 * Lattice edges whose two ends lie on the same side although the surface runs between them, twice: a sheet of ground (or
 * of air) that is thinner than the cells and that the net does not see. Looked for where both ends are near the surface
 * and the field rises (or falls) from both towards the middle.
 */
export function missedSheets(space: Space, lattice: Lattice): number {
  const { nx, ny, value, lean, cells, step } = lattice;
  const up = nx * ny;
  const along = [1, nx, up];
  const { origin, count } = space;
  const [bx, by] = count;
  const { edge } = space.field;
  const reach = Math.min(LEAST_REACH_MM, LEAST_REACH * step);
  let missed = 0;
  for (const brick of space.surfaceBricks) {
    const field = space.brickField(brick);
    const i0 = (brick % bx) * cells;
    const j0 = (Math.floor(brick / bx) % by) * cells;
    const k0 = Math.floor(brick / (bx * by)) * cells;
    for (let k = k0; k < k0 + cells; k++)
      for (let j = j0; j < j0 + cells; j++)
        for (let i = i0, at = i0 + nx * (j + ny * k); i < i0 + cells; i++, at++) {
          if (!(Math.abs(value[at]) < step)) continue;
          for (let axis = 0; axis < 3; axis++) {
            const other = at + along[axis];
            // The product is positive for ends on the same side.
            if (!(value[at] * value[other] > 0)) continue;
            if (Math.abs(value[at]) + Math.abs(value[other]) > step * LIPSCHITZ) continue;
            const f = value[at];
            const g = value[other];
            const side = f < 0 ? 1 : -1;
            const rise = (side * lean[3 * at + axis]) / 127;
            const fall = (side * lean[3 * other + axis]) / 127;
            if (!(rise > 0 && fall < 0)) continue;
            // Where the two tangents meet, and how high there.
            const t = Math.min(Math.max((side * (g - f) - fall * step) / (rise - fall), 0), step);
            if (side * f + rise * t < reach) continue;
            const x = origin[0] + i * step + (axis === 0 ? t : 0);
            const y = origin[1] + j * step + (axis === 1 ? t : 0);
            const z = origin[2] + k * step + (axis === 2 ? t : 0);
            if (side * field.evaluate(x, y, z) < reach) continue;
            if (edge && edge.evaluate(x, y, z) > 0) continue;
            missed++;
          }
        }
  }
  return missed;
}
