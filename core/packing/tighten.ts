import type { Effort } from "./find-place.ts";
import { largestFirst, slideBack } from "./first-places.ts";
import { type Layout, type Places, placesOf, put, putAll, reach, totalDepth } from "./layout.ts";
import { pick, type Random } from "./random.ts";
import { type Patience, separate } from "./separate.ts";

export const EFFORT: Effort = { anywhere: 40, near: 20, followed: 3 };
const EXPLORE: Patience = { rounds: 100, strikes: 3 };
const COMPRESS: Patience = { rounds: 60, strikes: 3 };

/** The strip is shortened by this part while exploring. */
const BOLD = 0.01;
/** While compressing by this part at first, by half of it after so many failures, until it is less than the last. */
const [GENTLE, FAILURES, LEAST] = [0.004, 4, 0.00002];
/** Exploring ends after so many failures in a row. */
const GIVE_UP = 6;

/** Shortest length at which the pieces lie now. */
export function usedLength({ count, variant, shapes, x }: Layout): number {
  let end = 0;
  for (let p = 0; p < count; p++) end = Math.max(end, x[p] + shapes.variants[variant[p]].box.right);
  return end;
}

/**
 * Shortens the strip under pieces that lie without overlap, for ever: again and again it is made shorter and the pieces
 * moved apart, boldly from any layout that came near (exploring), then gently from the best (compressing), as in Gardeyn,
 * Vanden Berghe and Wauters, arXiv:2509.13329. Every
 * `next` is a bounded piece of work and gives the best places so far when they are new.
 */
export function* tighten(layout: Layout, start: Places, random: Random): Generator<Places | null, never> {
  let best = start;
  for (;;) {
    best = yield* explore(layout, best, random);
    best = yield* compress(layout, best, random);
  }
}

function* explore(layout: Layout, best: Places, random: Random): Generator<Places | null, Places> {
  /** Layouts that could not be parted, those with less overlap first. */
  let pool: { readonly places: Places; readonly depth: number }[] = [];
  let failures = 0;
  putAll(layout, best);
  shorten(layout, BOLD * best.length, random);
  while (failures < GIVE_UP) {
    if (yield* steps(separate(layout, EXPLORE, EFFORT, random))) {
      slideBack(layout);
      layout.length = usedLength(layout);
      best = placesOf(layout);
      yield best;
      shorten(layout, BOLD * best.length, random);
      pool = [];
      failures = 0;
      continue;
    }
    failures++;
    pool.push({ places: placesOf(layout), depth: totalDepth(layout) });
    pool.sort((a, b) => a.depth - b.depth);
    // The better ones are likelier: the square of an even draw.
    putAll(layout, pool[Math.floor(random() ** 2 * pool.length)].places);
    swapTwoLarge(layout, random);
  }
  return best;
}

function* compress(layout: Layout, best: Places, random: Random): Generator<Places | null, Places> {
  for (let part = GENTLE, failures = 0; part > LEAST; ) {
    putAll(layout, best);
    shorten(layout, part * best.length, random);
    if (yield* steps(separate(layout, COMPRESS, EFFORT, random))) {
      slideBack(layout);
      layout.length = usedLength(layout);
      best = placesOf(layout);
      failures = 0;
      yield best;
    } else if (++failures === FAILURES) {
      part /= 2;
      failures = 0;
    }
  }
  return best;
}

function* steps(work: Generator<void, boolean>): Generator<null, boolean> {
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
    yield null;
  }
}

/** Takes a slice out of the strip at a place drawn at random: what lies beyond it moves up. */
function shorten(layout: Layout, by: number, random: Random): void {
  const { count, variant, x, y } = layout;
  const cut = random() * layout.length;
  layout.length -= by;
  for (let p = 0; p < count; p++) {
    const [least, most] = reach(layout, variant[p], 0);
    const claim = layout.shapes.variants[variant[p]].claim;
    const middle = x[p] + (claim.left + claim.right) / 2;
    const place = Math.min(most, Math.max(least, middle > cut ? x[p] - by : x[p]));
    if (place !== x[p]) put(layout, p, variant[p], place, y[p]);
  }
}

/** Lets two large pieces of different shapes change places: the way out of a layout that leads nowhere. */
function swapTwoLarge(layout: Layout, random: Random): void {
  const order = largestFirst(layout);
  const large = order.slice(0, Math.max(2, Math.ceil(order.length / 2)));
  const one = large[pick(random, large.length)];
  const others = large.filter((p) => layout.allowed[p] !== layout.allowed[one]);
  if (others.length === 0) return;
  const other = others[pick(random, others.length)];
  const places = [one, other].map((p) => middleOf(layout, p));
  moveMiddle(layout, one, places[1]);
  moveMiddle(layout, other, places[0]);
}

function middleOf({ claims }: Layout, p: number): readonly [number, number] {
  return [(claims[4 * p] + claims[4 * p + 1]) / 2, (claims[4 * p + 2] + claims[4 * p + 3]) / 2];
}

function moveMiddle(layout: Layout, p: number, middle: readonly [number, number]): void {
  const v = layout.variant[p];
  const now = middleOf(layout, p);
  const place = ([layout.x, layout.y] as const).map((list, axis) => {
    const [least, most] = reach(layout, v, axis as 0 | 1);
    return Math.min(most, Math.max(least, list[p] + middle[axis] - now[axis]));
  });
  put(layout, p, v, place[0], place[1]);
}
