import type { EdgeCut, Field } from "../surface/field.ts";

/**
 * The space around a surface, cut into cubic bricks. Each brick keeps the field reduced to what matters within it, so
 * that whoever asks for values near a point finds the cheap field at once. Bricks are filled when first asked for.
 */
export interface Space {
  readonly field: Field;
  /** Side of a brick, mm. */
  readonly side: number;
  /** Lowest corner of the first brick, mm. */
  readonly origin: readonly [number, number, number];
  /** Bricks along x, y and z. */
  readonly count: readonly [number, number, number];
  /** Radius of the ball round each brick in which its reduced field holds, mm. */
  readonly radius: number;
  /** Distance from the surface up to which the reduced field's values are the field's own; beyond it they are bounds, mm. */
  readonly band: number;
  /** The field to use at and near a point, mm. */
  fieldAt(x: number, y: number, z: number): Field;
  /** The edge cut to use at and near a point; null where it cannot run, by the point's brick, or where nothing is cut. */
  cutAt(x: number, y: number, z: number): EdgeCut | null;
  /** Largest cells that do not miss the thinnest sheet of ground, mm. */
  readonly largestCell: number;
  /** The bricks that the surface may touch, as index ix + nx·(iy + ny·iz). */
  readonly surfaceBricks: Int32Array;
  /** The reduced field of a brick of `surfaceBricks`. */
  brickField(index: number): Field;
}

/** Bricks are about this many of the largest cells along each side. */
const CELLS_A_BRICK = 2;
/** Largest cell, mm: of a field that tells how thin its ground gets, and of one that does not. */
const CELL_MM = { told: 100, untold: 90 } as const;
/** A cell this large for its thickness always has a corner inside a wall of ground, however the wall stands in plan. */
const THIN = 0.67;
/** Planes this near to a cube touch it, mm. */
const TOUCHING = 1e-3;
const HALF_DIAGONAL = Math.sqrt(3) / 2;
/** A field's Lipschitz constant is about 1; this much more is allowed for. */
export const LIPSCHITZ = 1.06;
/** Blocks of 8 × 8 × 8 bricks are where the descent begins. */
const TOP = 8;
/**
 * Where the rim (z = 0), a wall or the centre line falls within its brick: away from the lattice planes of every usual
 * division, so that plane faces at round figures do not run along a lattice plane.
 */
const SHIFT = 0.4217;

const known = new WeakMap<Field, Space>();

/** The space of a field, made once a field: finds by octree descent which bricks its surface may touch. */
export function spaceOf(field: Field): Space {
  let space = known.get(field);
  if (!space) {
    space = makeSpace(field);
    known.set(field, space);
  }
  return space;
}

function makeSpace(field: Field): Space {
  const { min, max } = field.bounds;
  const longest = Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  const largestCell =
    field.thinnest === undefined ? CELL_MM.untold : Math.min(CELL_MM.told, THIN * field.thinnest);
  // A whole number of the largest cells that see the thinnest sheet: none has to be smaller than that asks.
  const side = Math.min(
    Math.max(1, Math.round((CELLS_A_BRICK * CELL_MM.told) / largestCell)) * largestCell,
    longest / 5,
  );
  const origin: [number, number, number] = [0, 0, 0];
  const count: [number, number, number] = [0, 0, 0];
  for (let a = 0; a < 3; a++) {
    // A brick or more to spare on every side, so that the surface never meets the end of the lattice.
    origin[a] = (Math.floor(min[a] / side - 1.05 + SHIFT) - SHIFT) * side;
    count[a] = Math.ceil((max[a] - origin[a]) / side + 1.05);
  }
  const [nx, ny, nz] = count;
  const radius = side * HALF_DIAGONAL;
  const band = (radius * LIPSCHITZ) / 2;
  const fields: (Field | undefined)[] = new Array(nx * ny * nz);
  const found: number[] = [];
  /** The edge cut as it is in each brick, null in those that lie wholly on its near side. */
  const cuts: (EdgeCut | null | undefined)[] = new Array(nx * ny * nz);

  const descend = (
    ix: number,
    iy: number,
    iz: number,
    size: number,
    outer: Field,
    outerCut: EdgeCut | null,
  ): void => {
    if (ix >= nx || iy >= ny || iz >= nz) return;
    const x = origin[0] + (ix + size / 2) * side;
    const y = origin[1] + (iy + size / 2) * side;
    const z = origin[2] + (iz + size / 2) * side;
    const reach = size * radius;
    if (Math.abs(outer.scout?.(x, y, z) ?? outer.evaluate(x, y, z)) > reach * LIPSCHITZ) return;
    const beyond = outerCut ? beyondEdge(outerCut, x, y, z, reach) : -2;
    if (beyond > 2) return;
    const inner = outer.within(x, y, z, reach * LIPSCHITZ, (reach * LIPSCHITZ) / 2);
    const touched = !inner.flat || !clears(inner, x, y, z, (size * side) / 2);
    const cut =
      outerCut && beyond >= -LIPSCHITZ ? (outerCut.within?.(x, y, z, reach * LIPSCHITZ) ?? outerCut) : null;
    if (size === 1) {
      const index = ix + nx * (iy + ny * iz);
      fields[index] = inner;
      cuts[index] = cut;
      if (touched) found.push(index);
      return;
    }
    if (!touched) return;
    const half = size / 2;
    for (let c = 0; c < 8; c++)
      descend(ix + (c & 1) * half, iy + ((c >> 1) & 1) * half, iz + (c >> 2) * half, half, inner, cut);
  };
  for (let iz = 0; iz < nz; iz += TOP)
    for (let iy = 0; iy < ny; iy += TOP)
      for (let ix = 0; ix < nx; ix += TOP) descend(ix, iy, iz, TOP, field, field.edge);

  const perMm = 1 / side;
  const brickAt = (x: number, y: number, z: number): number => {
    const ix = Math.floor((x - origin[0]) * perMm);
    const iy = Math.floor((y - origin[1]) * perMm);
    const iz = Math.floor((z - origin[2]) * perMm);
    if (!(ix >= 0 && iy >= 0 && iz >= 0 && ix < nx && iy < ny && iz < nz)) return -1;
    return ix + nx * (iy + ny * iz);
  };
  const fieldAt = (x: number, y: number, z: number): Field => {
    const index = brickAt(x, y, z);
    return index < 0 ? field : (fields[index] ?? fill(index));
  };
  const cutAt = (x: number, y: number, z: number): EdgeCut | null => {
    const index = brickAt(x, y, z);
    const cut = index < 0 ? undefined : cuts[index];
    return cut === undefined ? field.edge : cut;
  };
  const fill = (index: number): Field => {
    const ix = index % nx;
    const iy = Math.floor(index / nx) % ny;
    const iz = Math.floor(index / (nx * ny));
    const inner = field.within(
      origin[0] + (ix + 0.5) * side,
      origin[1] + (iy + 0.5) * side,
      origin[2] + (iz + 0.5) * side,
      radius * LIPSCHITZ,
      band,
    );
    fields[index] = inner;
    return inner;
  };
  return {
    field,
    side,
    origin,
    count,
    radius,
    band,
    largestCell,
    fieldAt,
    cutAt,
    surfaceBricks: Int32Array.from(found),
    brickField: (index) => fields[index] as Field,
  };
}

/** Whether a plane passes by the cube of half side `half` about a point: it may touch the ball round the cube and not the cube. */
function clears(plane: Field, x: number, y: number, z: number, half: number): boolean {
  const value = plane.evaluate(x, y, z);
  const [gx, gy, gz] = plane.gradient;
  return Math.abs(value) > half * (Math.abs(gx) + Math.abs(gy) + Math.abs(gz)) + TOUCHING;
}

/**
 * How far beyond the edge cut the centre of a ball lies, in radii: more than 2 is nothing to mesh, less than −1 is not
 * touched by the cut. The cut's slope is taken to be about 1, or what it says at the centre if that is more.
 */
function beyondEdge(edge: EdgeCut, x: number, y: number, z: number, radius: number): number {
  const value = edge.evaluate(x, y, z);
  const g = edge.gradient;
  return value / (radius * Math.max(1, Math.sqrt(g[0] * g[0] + g[1] * g[1] + g[2] * g[2])));
}
