import { type Layout, lossAt, reach } from "./layout.ts";
import { pick, type Random } from "./random.ts";

/** Where a piece could lie, and its weighted overlap there. */
export interface Found {
  readonly variant: number;
  readonly x: number;
  readonly y: number;
  readonly loss: number;
}

/** How many places are tried anywhere on the strip and near the piece, and how many of the best are followed downhill. */
export interface Effort {
  readonly anywhere: number;
  readonly near: number;
  readonly followed: number;
}

/** Steps shrink to this part of the piece's smaller side at first, and for the best place in the end. */
const COARSE = 0.02;
const FINE = 0.0005;

/**
 * The place of least weighted overlap for piece p that some tries find: places drawn at random over the strip and round the
 * piece, the best of them followed downhill (Gardeyn, Vanden Berghe and Wauters, arXiv:2509.13329, section on searching a
 * place). Where it lies now counts too, so the answer is never worse. Deterministic for the same draws.
 */
export function findPlace(layout: Layout, p: number, effort: Effort, random: Random): Found {
  const v = layout.variant[p];
  const x = layout.x[p];
  const y = layout.y[p];
  const now = { variant: v, x, y, loss: lossAt(layout, p, v, x, y, Infinity) };
  const best: Found[] = [now];
  const { box } = layout.shapes.variants[v];
  const sizeX = box.right - box.left;
  const sizeY = box.high - box.low;
  const tries = effort.anywhere + effort.near;
  for (let i = 0; i < tries; i++) {
    const near = i >= effort.anywhere;
    const allowed = layout.allowed[p];
    const variant = allowed[pick(random, allowed.length)];
    const placeX = draw(reach(layout, variant, 0), near ? x : NaN, sizeX / 2, random);
    const placeY = draw(reach(layout, variant, 1), near ? y : NaN, sizeY / 2, random);
    if (Number.isNaN(placeX) || Number.isNaN(placeY)) continue;
    const most = best.length < effort.followed ? Infinity : best[best.length - 1].loss;
    const loss = lossAt(layout, p, variant, placeX, placeY, most);
    if (loss >= most) continue;
    keep(best, { variant, x: placeX, y: placeY, loss }, effort.followed);
    if (loss === 0) break;
  }
  let least = now as Found;
  for (const start of best) {
    const end = downhill(layout, p, start, 0.25, COARSE, random);
    if (end.loss < least.loss) least = end;
    if (least.loss === 0) return least;
  }
  return downhill(layout, p, least, COARSE, FINE, random);
}

function draw([least, most]: readonly [number, number], round: number, far: number, random: Random): number {
  if (most < least) return NaN;
  const from = Number.isNaN(round) ? least : Math.max(least, round - far);
  const to = Number.isNaN(round) ? most : Math.min(most, round + far);
  return to <= from ? Math.min(most, Math.max(least, from)) : from + random() * (to - from);
}

function keep(best: Found[], found: Found, most: number): void {
  let place = best.length;
  while (place > 0 && best[place - 1].loss > found.loss) place--;
  best.splice(place, 0, found);
  if (best.length > most) best.pop();
}

/** Coordinate descent along the axes and diagonals; steps grow when they help and are halved when not. */
function downhill(
  layout: Layout,
  p: number,
  start: Found,
  first: number,
  last: number,
  random: Random,
): Found {
  const { variant } = start;
  const { box } = layout.shapes.variants[variant];
  const size = Math.min(box.right - box.left, box.high - box.low);
  const [minX, maxX] = reach(layout, variant, 0);
  const [minY, maxY] = reach(layout, variant, 1);
  let { x, y, loss } = start;
  let stepX = first * size;
  let stepY = first * size;
  const end = last * size;
  while ((stepX > end || stepY > end) && loss > 0) {
    const axis = pick(random, 4);
    const dx = axis === 1 ? 0 : stepX;
    const dy = axis === 0 ? 0 : axis === 3 ? -stepY : stepY;
    const oneX = Math.min(maxX, Math.max(minX, x + dx));
    const oneY = Math.min(maxY, Math.max(minY, y + dy));
    const twoX = Math.min(maxX, Math.max(minX, x - dx));
    const twoY = Math.min(maxY, Math.max(minY, y - dy));
    const one = lossAt(layout, p, variant, oneX, oneY, loss);
    const two = lossAt(layout, p, variant, twoX, twoY, Math.min(one, loss));
    const better = Math.min(one, two) < loss;
    if (better) {
      x = two < one ? twoX : oneX;
      y = two < one ? twoY : oneY;
      loss = Math.min(one, two);
    }
    const factor = better ? 1.1 : 0.5;
    if (axis !== 1) stepX *= factor;
    if (axis !== 0) stepY *= factor;
  }
  return { variant, x, y, loss };
}
