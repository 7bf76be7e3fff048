import { flatShape } from "../layup/flat-shape.ts";
import type { FlatShape } from "../layup/laid.ts";

/** A shape smaller than this is the dust of a corner that the line just touches, mm². */
const SLIVER = 0.01;

/**
 * Cuts a flat shape along the line x = `at` (axis 0) or y = `at` (axis 1), mm: the shapes below the line and those above
 * it, each counter-clockwise; a hollow shape may fall into many. Together they have the shape's area, but for slivers. A
 * corner on the line counts as above, so that every crossing is a true change of side.
 */
export function cutAcross(shape: FlatShape, axis: 0 | 1, at: number): readonly [FlatShape[], FlatShape[]] {
  const { points } = shape;
  const count = points.length / 2;
  const isAbove = (i: number) => points[2 * i + axis] >= at;
  const crossings: Crossing[] = [];
  const ring: (number | Crossing)[] = [];
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    ring.push(i);
    if (isAbove(i) === isAbove(j)) continue;
    const part = (at - points[2 * i + axis]) / (points[2 * j + axis] - points[2 * i + axis]);
    const other = points[2 * i + 1 - axis] + part * (points[2 * j + 1 - axis] - points[2 * i + 1 - axis]);
    const crossing: Crossing = { other, place: ring.length, partner: null, goesUp: isAbove(j) };
    ring.push(crossing);
    crossings.push(crossing);
  }
  if (crossings.length === 0) return isAbove(0) ? [[], [shape]] : [[shape], []];
  // Along the line the shape lies between each second pair of neighbouring crossings.
  crossings.sort((a, b) => a.other - b.other || Number(a.goesUp) - Number(b.goesUp));
  for (let k = 0; k < crossings.length; k += 2) {
    crossings[k].partner = crossings[k + 1];
    crossings[k + 1].partner = crossings[k];
  }
  const side = (above: boolean) => {
    const open = new Set(crossings.filter((crossing) => crossing.goesUp === above));
    const shapes: FlatShape[] = [];
    for (const first of open) shapes.push(walk(first, ring, points, axis, at, open));
    return shapes.filter((each) => each.areaMm2 > SLIVER);
  };
  return [side(false), side(true)];
}

interface Crossing {
  /** Coordinate along the line. */
  readonly other: number;
  /** Index in the ring of corners and crossings. */
  readonly place: number;
  /** The crossing at the other end of the stretch of line inside the shape. */
  partner: Crossing | null;
  readonly goesUp: boolean;
}

/** Follows the outline from a crossing into its side, and over the line from each crossing out of it, back to the start. */
function walk(
  first: Crossing,
  ring: readonly (number | Crossing)[],
  points: Float64Array,
  axis: 0 | 1,
  at: number,
  open: Set<Crossing>,
): FlatShape {
  const corners: number[] = [];
  const add = (crossing: Crossing) =>
    corners.push(...(axis === 0 ? [at, crossing.other] : [crossing.other, at]));
  let entry = first;
  do {
    open.delete(entry);
    add(entry);
    let place = entry.place;
    for (;;) {
      place = (place + 1) % ring.length;
      const next = ring[place];
      if (typeof next !== "number") {
        add(next);
        entry = next.partner as Crossing;
        break;
      }
      corners.push(points[2 * next], points[2 * next + 1]);
    }
  } while (entry !== first);
  return flatShape(corners);
}
