import type { Effort } from "./find-place.ts";
import { largestFirst, slideBack } from "./first-places.ts";
import { fits, type Layout, type Places, placesOf, put, putAll, reach, totalDepth } from "./layout.ts";
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
const GIVE_UP = 12;

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
    // Nothing is to be gained when a piece takes the whole length by itself.
    if (best.length <= longestPiece(layout)) yield null;
    best = yield* explore(layout, best, random);
    best = yield* compress(layout, best, random);
  }
}

function* explore(layout: Layout, best: Places, random: Random): Generator<Places | null, Places> {
  /** Layouts that could not be parted, those with less overlap first. */
  let pool: { readonly places: Places; readonly depth: number }[] = [];
  let failures = 0;
  const longest = longestPiece(layout);
  putAll(layout, best);
  shorten(layout, Math.max(longest, (1 - BOLD) * best.length), random);
  while (failures < GIVE_UP && best.length > longest) {
    if (yield* steps(separate(layout, EXPLORE, EFFORT, random))) {
      slideBack(layout);
      layout.length = usedLength(layout);
      best = placesOf(layout);
      yield best;
      shorten(layout, Math.max(longest, (1 - BOLD) * best.length), random);
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
  const longest = longestPiece(layout);
  for (let part = GENTLE, failures = 0; part > LEAST && best.length > longest; ) {
    putAll(layout, best);
    shorten(layout, Math.max(longest, (1 - part) * best.length), random);
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

/** The strip can be no shorter: the greatest of the lengths that the pieces take when each lies its shortest way. */
function longestPiece({ allowed, shapes, width }: Layout): number {
  const lengths = allowed.map((ways) => {
    const boxes = ways.map((v) => shapes.variants[v].box).filter(({ low, high }) => high - low <= width);
    return boxes.reduce((least, { left, right }) => Math.min(least, right - left), Infinity);
  });
  return lengths.reduce((most, length) => Math.max(most, length), 0);
}

/**
 * Takes a slice out of the strip at a place drawn at random, so that so much is left: what lies beyond it moves up, and what
 * is longer than the strip now is turned.
 */
function shorten(layout: Layout, length: number, random: Random): void {
  const { count, variant, x, y, allowed, shapes } = layout;
  const by = layout.length - length;
  const cut = random() * layout.length;
  layout.length = length;
  for (let p = 0; p < count; p++) {
    const v = fits(layout, variant[p]) ? variant[p] : allowed[p].find((way) => fits(layout, way));
    if (v === undefined) throw new Error(`piece ${p} does not fit on a strip of ${length}`);
    const { left, right } = shapes.variants[v].claim;
    const along = x[p] + (left + right) / 2 > cut ? x[p] - by : x[p];
    const place = [clamped(layout, v, 0, along), clamped(layout, v, 1, y[p])] as const;
    if (v !== variant[p] || place[0] !== x[p] || place[1] !== y[p]) put(layout, p, v, ...place);
  }
}

/** A place from which the variant lies within the strip, as near as can be. */
function clamped(layout: Layout, v: number, axis: 0 | 1, at: number): number {
  const [least, most] = reach(layout, v, axis);
  return Math.min(most, Math.max(least, at));
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
  const x = clamped(layout, v, 0, layout.x[p] + middle[0] - now[0]);
  const y = clamped(layout, v, 1, layout.y[p] + middle[1] - now[1]);
  put(layout, p, v, x, y);
}
