import { depthOf, type NoFit, noFit } from "./no-fit.ts";
import type { Variant } from "./variant.ts";

/** Pieces lying on a strip, overlapping or not. Places are those of the reference points; x runs along the strip. */
export interface Layout {
  /** All ways in which a shape may lie, and what is known of each two of them. */
  readonly shapes: Shapes;
  /** For each piece the variants it may take. */
  readonly allowed: readonly (readonly number[])[];
  readonly count: number;
  readonly width: number;
  /** The strip ends here. */
  length: number;
  readonly variant: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Depth of overlap of each two pieces, count × count, symmetric. */
  readonly depth: Float64Array;
  /** How much a unit of depth of each two pieces weighs, count × count, symmetric. */
  readonly weight: Float64Array;
  /** Left, right, low, high of what each piece claims, at its place. */
  readonly claims: Float64Array;
}

/** Shapes in all the ways they may lie, with the no-fit polygons of each two, which are made when first asked for. */
export interface Shapes {
  readonly variants: readonly Variant[];
  /** By how much shapes are kept apart: enough for the places to be rounded afterwards. */
  readonly clearance: number;
  /** [smaller × variants + larger] */
  readonly noFits: (NoFit | undefined)[];
}

export function shapesOf(variants: readonly Variant[], clearance: number): Shapes {
  return { variants, clearance, noFits: new Array(variants.length ** 2) };
}

/** Pieces on a strip, all at the origin until `put` puts them elsewhere. */
export function makeLayout(
  shapes: Shapes,
  allowed: readonly (readonly number[])[],
  width: number,
  length: number,
): Layout {
  const count = allowed.length;
  return {
    shapes,
    allowed,
    count,
    width,
    length,
    variant: Int32Array.from(allowed, (list) => list[0]),
    x: new Float64Array(count),
    y: new Float64Array(count),
    depth: new Float64Array(count * count),
    weight: new Float64Array(count * count).fill(1),
    claims: new Float64Array(count * 4),
  };
}

/** The no-fit polygons of b seen from a, a ≤ b. */
export function noFitOf({ variants, noFits, clearance }: Shapes, a: number, b: number): NoFit {
  const place = a * variants.length + b;
  noFits[place] ??= noFit(variants[a].parts, variants[b].parts, clearance);
  return noFits[place];
}

/**
 * Sum of weight × depth of overlap that piece p would have with all others if it lay as variant v at (x, y), or some number
 * not below `most` as soon as it is known to reach it.
 */
export function lossAt(layout: Layout, p: number, v: number, x: number, y: number, most: number): number {
  const { count, claims, weight, variant, shapes, x: xs, y: ys } = layout;
  const { claim } = shapes.variants[v];
  const left = x + claim.left;
  const right = x + claim.right;
  const low = y + claim.low;
  const high = y + claim.high;
  const row = p * count;
  let sum = 0;
  for (let q = 0, at = 0; q < count; q++, at += 4) {
    if (claims[at] >= right || claims[at + 1] <= left || claims[at + 2] >= high || claims[at + 3] <= low)
      continue;
    if (q === p) continue;
    const u = variant[q];
    const dx = xs[q] - x;
    const dy = ys[q] - y;
    const depth = v <= u ? depthOf(noFitOf(shapes, v, u), dx, dy) : depthOf(noFitOf(shapes, u, v), -dx, -dy);
    sum += depth * weight[row + q];
    if (sum >= most) return sum;
  }
  return sum;
}

/** Lays piece p down and measures its overlaps anew. */
export function put(layout: Layout, p: number, v: number, x: number, y: number): void {
  const { count, claims, depth } = layout;
  const { claim } = layout.shapes.variants[v];
  layout.variant[p] = v;
  layout.x[p] = x;
  layout.y[p] = y;
  claims[4 * p] = x + claim.left;
  claims[4 * p + 1] = x + claim.right;
  claims[4 * p + 2] = y + claim.low;
  claims[4 * p + 3] = y + claim.high;
  for (let q = 0; q < count; q++) {
    if (q === p) continue;
    depth[p * count + q] = depth[q * count + p] = depthBetween(layout, p, q);
  }
}

function depthBetween(layout: Layout, p: number, q: number): number {
  const { claims, variant, x, y } = layout;
  const a = 4 * p;
  const b = 4 * q;
  if (claims[a] >= claims[b + 1] || claims[a + 1] <= claims[b]) return 0;
  if (claims[a + 2] >= claims[b + 3] || claims[a + 3] <= claims[b + 2]) return 0;
  const [first, second] = variant[p] <= variant[q] ? [p, q] : [q, p];
  const table = noFitOf(layout.shapes, variant[first], variant[second]);
  return depthOf(table, x[second] - x[first], y[second] - y[first]);
}

/** Weighted overlap of piece p as it lies. */
export function lossOf({ count, depth, weight }: Layout, p: number): number {
  let sum = 0;
  for (let i = p * count; i < (p + 1) * count; i++) sum += depth[i] * weight[i];
  return sum;
}

/** Sum of the depths of all overlaps. */
export function totalDepth({ count, depth }: Layout): number {
  let sum = 0;
  for (let p = 0; p < count; p++) for (let q = 0; q < p; q++) sum += depth[p * count + q];
  return sum;
}

/** Places x (or y, axis 1) at which a variant lies within the strip: least and greatest; less than none when it is too big. */
export function reach({ shapes, length, width }: Layout, v: number, axis: 0 | 1): readonly [number, number] {
  const { box } = shapes.variants[v];
  return axis === 0 ? [-box.left, length - box.right] : [-box.low, width - box.high];
}

/** Whether a variant lies within the strip somewhere. */
export function fits(layout: Layout, v: number): boolean {
  return ([0, 1] as const).every((axis) => reach(layout, v, axis)[0] <= reach(layout, v, axis)[1]);
}

/** Variant and place of each piece, to come back to. */
export interface Places {
  readonly length: number;
  readonly variant: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export function placesOf({ length, variant, x, y }: Layout): Places {
  return { length, variant: variant.slice(), x: x.slice(), y: y.slice() };
}

/** Lays all pieces as they lay then, and measures all overlaps anew. */
export function putAll(layout: Layout, places: Places): void {
  layout.length = places.length;
  layout.variant.set(places.variant);
  layout.x.set(places.x);
  layout.y.set(places.y);
  for (let p = 0; p < layout.count; p++) put(layout, p, places.variant[p], places.x[p], places.y[p]);
}
