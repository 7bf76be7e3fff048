import { type Layout, noFitOf, put, reach } from "./layout.ts";
import { pick, type Random } from "./random.ts";

/**
 * Lines along the strip that are tried for a piece: beside some of those that lie, and a few anywhere. The more pieces, the
 * fewer lines for each, so that a first answer is there soon; from a crowd on no fewer, as more do not lie near each other.
 */
const LINES_BESIDE = 24;
const LINES_ANYWHERE = 8;
const MANY = 60;
const CROWD = 120;

/** Pieces in the order in which they are laid down first: large and long ones before small ones. */
export function largestFirst({ allowed, shapes }: Layout): number[] {
  const size = allowed.map(([v]) => {
    const { left, right, low, high } = shapes.variants[v].claim;
    return (right - left) * (high - low) * Math.hypot(right - left, high - low);
  });
  return allowed.map((_, p) => p).sort((a, b) => size[b] - size[a] || a - b);
}

/**
 * Lays piece p where its right end comes to lie furthest left, beyond `from` and clear of the pieces in `lying`, which are all that
 * reach beyond it: on some lines along the strip the first free place. Returns whether there was one within the layout's length.
 */
export function layFirst(
  layout: Layout,
  p: number,
  lying: readonly number[],
  from: number,
  random: Random,
): boolean {
  let best: { readonly v: number; readonly x: number; readonly y: number; readonly end: number } | null =
    null;
  for (const v of layout.allowed[p]) {
    const [least, most] = reach(layout, v, 1);
    if (most < least) continue;
    const { box } = layout.shapes.variants[v];
    for (const y of linesFor(layout, v, lying, least, most, random)) {
      const x = firstFree(layout, v, y, lying, from);
      const end = x + box.right;
      if (
        x <= reach(layout, v, 0)[1] &&
        (best === null || end < best.end || (end === best.end && y < best.y))
      )
        best = { v, x, y, end };
    }
  }
  if (best === null) return false;
  put(layout, p, best.v, best.x, best.y);
  return true;
}

function linesFor(
  layout: Layout,
  v: number,
  lying: readonly number[],
  least: number,
  most: number,
  random: Random,
): number[] {
  const { claims, shapes } = layout;
  const { claim } = shapes.variants[v];
  const lines = [least, most];
  const part = Math.min(1, MANY / Math.min(layout.count, CROWD));
  const beside = Math.min(Math.ceil(LINES_BESIDE * part), lying.length);
  for (let i = 0; i < beside; i++) {
    const q = lying[lying.length === beside ? i : pick(random, lying.length)];
    lines.push(
      claims[4 * q + 3] - claim.low + shapes.clearance,
      claims[4 * q + 2] - claim.high - shapes.clearance,
    );
  }
  for (let i = 0; i < Math.ceil(LINES_ANYWHERE * part); i++) lines.push(least + random() * (most - least));
  return lines.filter((y) => y >= least && y <= most);
}

/** Slides each piece back along the strip to the first free place on its line, those that lie first going first. */
export function slideBack(layout: Layout): void {
  const { count, variant, x, y, claims } = layout;
  const all = Array.from({ length: count }, (_, p) => p);
  for (const p of all.toSorted((a, b) => claims[4 * a] - claims[4 * b])) {
    // What begins where this piece ends is not in its way back.
    const before = all.filter((q) => q !== p && claims[4 * q] < claims[4 * p + 1]);
    const free = firstFree(layout, variant[p], y[p], before, -Infinity);
    if (free < x[p]) put(layout, p, variant[p], free, y[p]);
  }
}

/** Places along a line that are taken, from and to in pairs: kept from one search to the next, as there are thousands of them. */
let taken = new Float64Array(1024);

/** The least x beyond `start` at which variant v is free on the line of this y, the strip's end not minded. */
function firstFree(layout: Layout, v: number, y: number, lying: readonly number[], start: number): number {
  const { claims, variant, shapes } = layout;
  const { box, claim } = shapes.variants[v];
  let x = Math.max(-box.left, start - claim.left);
  let count = 0;
  for (const q of lying) {
    if (claims[4 * q + 2] >= y + claim.high || claims[4 * q + 3] <= y + claim.low) continue;
    if (claims[4 * q + 1] <= x + claim.left) continue;
    const u = variant[q];
    // The table of the smaller variant's view; seen the other way round everything changes sign.
    const side = v <= u ? -1 : 1;
    const { boxes, starts, planes } = v <= u ? noFitOf(shapes, v, u) : noFitOf(shapes, u, v);
    const dy = side * (y - layout.y[q]);
    for (let k = 0; k + 1 < starts.length; k++) {
      if (dy <= boxes[4 * k + 2] || dy >= boxes[4 * k + 3]) continue;
      let from = boxes[4 * k];
      let to = boxes[4 * k + 1];
      for (let i = 3 * starts[k]; i < 3 * starts[k + 1]; i += 3) {
        const room = planes[i + 2] - planes[i + 1] * dy;
        if (planes[i] > 1e-12) to = Math.min(to, room / planes[i]);
        else if (planes[i] < -1e-12) from = Math.max(from, room / planes[i]);
        else if (room <= 0) to = -Infinity;
      }
      if (from >= to) continue;
      if (2 * count === taken.length) taken = grown(taken);
      taken[2 * count] = (side > 0 ? from : -to) + layout.x[q];
      taken[2 * count + 1] = (side > 0 ? to : -from) + layout.x[q];
      count++;
    }
  }
  // Again and again beyond what is taken there; what ends before is not looked at again.
  for (let moved = true; moved; ) {
    moved = false;
    let kept = 0;
    for (let i = 0; i < count; i++) {
      const from = taken[2 * i];
      const to = taken[2 * i + 1];
      if (to <= x) continue;
      if (from < x) {
        // A hair beyond, so that rounding leaves no overlap.
        x = to + 1e-9 * Math.max(1, Math.abs(to));
        moved = true;
      } else {
        taken[2 * kept] = from;
        taken[2 * kept + 1] = to;
        kept++;
      }
    }
    count = kept;
  }
  return x;
}

function grown(list: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(2 * list.length);
  larger.set(list);
  return larger;
}
