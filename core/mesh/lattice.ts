import type { Field } from "../surface/field.ts";
import type { Space } from "./space.ts";

/**
 * Values of the field on the corners of a cubic lattice, known only in the bricks that the surface may touch. Shared
 * corners are worked out once, so that neighbouring bricks always agree.
 */
export interface Lattice {
  /** Side of a cell, mm. */
  readonly step: number;
  /** Cells along the side of a brick. */
  readonly cells: number;
  /** Corners along x, y, z. Corner (i, j, k) has index i + nx·(j + ny·k). */
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  /** 0: unknown; else the field's value up to the space's band, and no less than that beyond it. */
  readonly value: Float32Array;
  /** Gradient at the known corners, each part times 127 (a coarse direction is enough), three to a corner. */
  readonly lean: Int8Array;
}

/** Most corners of a lattice: 4 million, about 40 MB of tables. */
const MOST_CORNERS = 4e6;
/** Values closer to zero than this count as ground: a plane face along a lattice plane stays on one side of it. */
const ON_THE_PLANE = 1e-7;

/** Cells to divide a brick's side into for cells of about `step` mm, within the room there is for the tables. */
export function cellsFor(space: Space, step: number): number {
  const [bx, by, bz] = space.count;
  const most = Math.floor(Math.cbrt(MOST_CORNERS / (bx * by * bz)));
  return Math.max(1, Math.min(Math.round(space.side / step), most));
}

/** Asks the field at every lattice corner in the bricks that the surface may touch. */
export function sampleLattice(space: Space, cells: number): Lattice {
  const [bx, by, bz] = space.count;
  const nx = bx * cells + 1;
  const ny = by * cells + 1;
  const nz = bz * cells + 1;
  const lattice: Lattice = {
    step: space.side / cells,
    cells,
    nx,
    ny,
    nz,
    value: new Float32Array(nx * ny * nz),
    lean: new Int8Array(3 * nx * ny * nz),
  };
  for (const index of space.surfaceBricks) {
    const ix = index % bx;
    const iy = Math.floor(index / bx) % by;
    const iz = Math.floor(index / (bx * by));
    sampleBrick(space, lattice, space.brickField(index), ix * cells, iy * cells, iz * cells);
  }
  return lattice;
}

function sampleBrick(space: Space, lattice: Lattice, field: Field, i0: number, j0: number, k0: number): void {
  const { value, lean, nx, ny, cells, step } = lattice;
  const { origin, band } = space;
  for (let k = k0; k <= k0 + cells; k++) {
    const z = origin[2] + k * step;
    for (let j = j0; j <= j0 + cells; j++) {
      const y = origin[1] + j * step;
      for (let i = i0, at = i0 + nx * (j + ny * k); i <= i0 + cells; i++, at++) {
        if (value[at] !== 0) continue;
        const f = field.evaluate(origin[0] + i * step, y, z);
        // Beyond the band a reduced field's value is a bound only.
        const v = Math.min(Math.max(f, -band), band);
        value[at] = v < -ON_THE_PLANE ? v : Math.max(v, ON_THE_PLANE);
        const { gradient } = field;
        for (let c = 0; c < 3; c++)
          lean[3 * at + c] = Math.min(Math.max(Math.round(127 * gradient[c]), -127), 127);
      }
    }
  }
}
