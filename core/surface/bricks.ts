import type { Field } from "./field.ts";

/** The field to use near a point (mm): within MARGIN of it, wherever |f| ≤ BAND, it has the field's values. */
export type FieldNear = (x: number, y: number, z: number) => Field;

/** Side of a brick and of the blocks from which bricks are cut, mm. */
const BRICK = 160;
const BLOCK = 8 * BRICK;
/** How far around its brick each reduced field holds, mm: a geodesic's step, a Newton step. */
export const MARGIN = 45;
/** How far from the surface its values count, mm. */
export const BAND = 60;
const HALF_DIAGONAL = Math.sqrt(3) / 2;
/** Bricks on each side of the origin that a key can tell apart. */
const REACH = 2048;

const known = new WeakMap<Field, FieldNear>();

/**
 * Cuts space into bricks and keeps the field reduced to each, made when first asked for, so that marches all over a shell pay for a
 * reduction only once a brick. Kept as long as the field itself: everything laid on one field object shares its bricks.
 */
export function fieldNear(field: Field): FieldNear {
  let near = known.get(field);
  if (!near) {
    near = makeBricks(field);
    known.set(field, near);
  }
  return near;
}

function makeBricks(field: Field): FieldNear {
  const blocks = new Map<number, Field>();
  const bricks = new Map<number, Field>();
  let key = -1;
  let last = field;
  return (x, y, z) => {
    const now = keyOf(x, y, z, BRICK);
    if (now === key) return last;
    let brick = bricks.get(now);
    if (!brick) {
      const block = reduced(blocks, field, x, y, z, BLOCK);
      brick = reduced(bricks, block, x, y, z, BRICK, BAND);
    }
    key = now;
    last = brick;
    return brick;
  };
}

/** The reduced field of the cube of `side` that holds a point. */
function reduced(
  cubes: Map<number, Field>,
  field: Field,
  x: number,
  y: number,
  z: number,
  side: number,
  band?: number,
): Field {
  const key = keyOf(x, y, z, side);
  let cube = cubes.get(key);
  if (!cube) {
    const middle = (v: number) => (Math.floor(v / side) + 0.5) * side;
    cube = field.within(middle(x), middle(y), middle(z), HALF_DIAGONAL * side + MARGIN, band);
    cubes.set(key, cube);
  }
  return cube;
}

function keyOf(x: number, y: number, z: number, side: number): number {
  const i = Math.floor(x / side) + REACH;
  const j = Math.floor(y / side) + REACH;
  const k = Math.floor(z / side) + REACH;
  return i + 2 * REACH * (j + 2 * REACH * k);
}
