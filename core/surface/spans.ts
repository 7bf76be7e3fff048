import { type Columns, endOf, RAY_STRIDE, type Ray, rayPoint } from "./fan.ts";

/**
 * One side of a strip as spans between neighbouring rays, ready to be integrated: ℓ(w), the length of the parallel at distance
 * w from the curve between the two rays, at every column with its derivative; and its integral up to every column.
 */
export interface Spans {
  readonly columns: Columns;
  /** Rays, one more than spans. */
  readonly rays: readonly Ray[];
  /** ℓ at each column (mm), span after span; negative past a focal point. */
  readonly lengths: Float64Array;
  /** dℓ/dw at each column. */
  readonly slopes: Float64Array;
  /** ∫₀ʷ ℓ dw up to each column, mm². */
  readonly areas: Float64Array;
  /** Where each ray ends, mm: at its crossing or focal point, the open edge or the end of the surface; else at the last column. */
  readonly ends: Float64Array;
}

/** Chords shorter than this have no direction worth trusting, mm. */
const ALL_BUT_MET = 0.2;

/**
 * Measures the spans of one side. ℓ is the length of the cubic between the two points of a column that leaves both rays
 * square (Gauss's lemma: parallels are square to geodesics), good to fourth order in their turn; dℓ/dw follows from the first
 * variation of the chord.
 */
export function measureSpans(rays: readonly Ray[], columns: Columns): Spans {
  const spans = rays.length - 1;
  const count = columns.count;
  const lengths = new Float64Array(spans * count);
  const slopes = new Float64Array(spans * count);
  const areas = new Float64Array(spans * count);
  const ends = new Float64Array(rays.length);
  const last = (count - 1) * columns.spacing;
  for (let i = 0; i < rays.length; i++)
    ends[i] = Math.min(last, rays[i].crossing, rays[i].edge, rays[i].lost);
  const h = columns.spacing;
  for (let i = 0; i < spans; i++) {
    const a = rays[i].data;
    const b = rays[i + 1].data;
    for (let column = 0; column < count; column++) {
      const k = i * count + column;
      measureParallel(a, b, RAY_STRIDE * column, k, lengths, slopes);
      if (column > 0) {
        areas[k] =
          areas[k - 1] + h * (0.5 * (lengths[k - 1] + lengths[k]) + (h * (slopes[k - 1] - slopes[k])) / 12);
      }
    }
  }
  for (let i = 0; i < rays.length; i++) {
    ends[i] = Math.min(endOf(rays[i], last), focalDistance(lengths, columns, i, spans));
  }
  return { columns, rays, lengths, slopes, areas, ends };
}

/**
 * Distance at which ray i meets its neighbours, on the mean of the spans to both sides: past it the curve's end would be nearer, and
 * near the end of an open curve nothing else says so.
 */
function focalDistance(lengths: Float64Array, columns: Columns, i: number, spans: number): number {
  const before = Math.max(0, i - 1) * columns.count;
  const after = Math.min(spans - 1, i) * columns.count;
  let last = lengths[before] + lengths[after];
  for (let column = 1; column < columns.count; column++) {
    const now = lengths[before + column] + lengths[after + column];
    // Where a torn or cut line runs back on itself its spans are turned from the start.
    if (now < 0) return (column - 1 + (last > 0 ? last / (last - now) : 0)) * columns.spacing;
    last = now;
  }
  return Infinity;
}

function measureParallel(
  a: Float64Array,
  b: Float64Array,
  at: number,
  k: number,
  lengths: Float64Array,
  slopes: Float64Array,
): void {
  const cx = b[at] - a[at];
  const cy = b[at + 1] - a[at + 1];
  const cz = b[at + 2] - a[at + 2];
  const chord = Math.sqrt(cx * cx + cy * cy + cz * cz);
  if (chord < ALL_BUT_MET) {
    // Rays that all but meet: the chord's direction says nothing, the mean of the two alongs does.
    const mx = a[at + 6] + b[at + 6];
    const my = a[at + 7] + b[at + 7];
    const mz = a[at + 8] + b[at + 8];
    const size = Math.sqrt(mx * mx + my * my + mz * mz) || 1;
    lengths[k] = (cx * mx + cy * my + cz * mz) / size;
    slopes[k] =
      ((b[at + 3] - a[at + 3]) * mx + (b[at + 4] - a[at + 4]) * my + (b[at + 5] - a[at + 5]) * mz) / size;
    return;
  }
  const ahead =
    (cx * (a[at + 6] + b[at + 6]) + cy * (a[at + 7] + b[at + 7]) + cz * (a[at + 8] + b[at + 8])) / chord;
  const sign = ahead < 0 ? -1 : 1;
  const ca = (sign * (cx * a[at + 6] + cy * a[at + 7] + cz * a[at + 8])) / chord;
  const cb = (sign * (cx * b[at + 6] + cy * b[at + 7] + cz * b[at + 8])) / chord;
  const both = a[at + 6] * b[at + 6] + a[at + 7] * b[at + 7] + a[at + 8] * b[at + 8];
  // Parts of the two end tangents square to the chord: 2|p|² − p·q + 2|q|², over 30; exact for an arc by the second term.
  const bend = Math.max(0, 2 * (1 - ca * ca) + 2 * (1 - cb * cb) - (both - ca * cb)) / 30;
  const excess = bend + 2.7 * bend * bend;
  lengths[k] = sign * chord * (1 + excess);
  slopes[k] =
    ((sign * (1 + excess)) / chord) *
    (cx * (b[at + 3] - a[at + 3]) + cy * (b[at + 4] - a[at + 4]) + cz * (b[at + 5] - a[at + 5]));
}

/** ∫₀ʷ ℓ dw of a span, mm²: the integral of the cubic through the columns' lengths and slopes. */
function areaWithin(spans: Spans, span: number, w: number): number {
  const { columns, lengths, slopes, areas } = spans;
  if (columns.count === 1) return 0;
  const h = columns.spacing;
  const column = Math.max(0, Math.min(columns.count - 2, Math.floor(w / h)));
  const k = span * columns.count + column;
  const x = w / h - column;
  const x2 = x * x;
  const x3 = x2 * x;
  const x4 = x2 * x2;
  return (
    areas[k] +
    h *
      (lengths[k] * (x - x3 + x4 / 2) +
        lengths[k + 1] * (x3 - x4 / 2) +
        h * (slopes[k] * (x2 / 2 - (2 * x3) / 3 + x4 / 4) + slopes[k + 1] * (x4 / 4 - x3 / 3)))
  );
}

/** ℓ(w) of a span, mm: the length of the parallel at w mm from the curve between its two rays. */
export function spanLength(spans: Spans, span: number, w: number): number {
  const { columns, lengths, slopes } = spans;
  const k0 = span * columns.count;
  if (columns.count === 1) return lengths[k0];
  const h = columns.spacing;
  const column = Math.max(0, Math.min(columns.count - 2, Math.floor(w / h)));
  const k = k0 + column;
  const u = w / h - column;
  const v = 1 - u;
  return (
    v * v * (1 + 2 * u) * lengths[k] +
    u * u * (3 - 2 * u) * lengths[k + 1] +
    u * v * h * (v * slopes[k] - u * slopes[k + 1])
  );
}

/** Gauss–Legendre with three points on 0…1: exact for the quartics that `areaWithin` is made of. */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/**
 * Area (mm²) of the part u₀…u₁ (0…1) of a span out to w mm or to where its rays end, whichever is less; the end is taken
 * to run straight from ray to ray. Parts of a span add up to the whole of it.
 */
export function spanArea(spans: Spans, span: number, u0: number, u1: number, w: number): number {
  const a = spans.ends[span];
  const b = spans.ends[span + 1];
  if (a >= w && b >= w) return (u1 - u0) * areaWithin(spans, span, w);
  // Split where the line of ends passes w or a column, past which lies another polynomial: each piece is exact.
  const h = spans.columns.spacing;
  const stops: number[] = [];
  const far = Math.min(w, Math.max(a, b));
  for (let column = Math.floor(Math.min(a, b) / h) + 1; column * h < far; column++)
    stops.push((column * h - a) / (b - a));
  if (a < w !== b < w) stops.push((w - a) / (b - a));
  if (a > b) stops.reverse();
  let sum = 0;
  let from = u0;
  for (const stop of [...stops, 1]) {
    const to = Math.max(from, Math.min(u1, stop));
    sum += endedArea(spans, span, from, to, w);
    from = to;
  }
  return sum;
}

function endedArea(spans: Spans, span: number, u0: number, u1: number, w: number): number {
  if (!(u1 > u0)) return 0;
  const a = spans.ends[span];
  const b = spans.ends[span + 1];
  let sum = 0;
  for (const [x, weight] of GAUSS) {
    const u = u0 + (u1 - u0) * x;
    sum += weight * areaWithin(spans, span, Math.min(w, a + (b - a) * u));
  }
  return sum * (u1 - u0);
}

const here = new Float64Array(3);
const there = new Float64Array(3);

/** Length (mm) along the surface of the outer edge of the part u₀…u₁ of a span, at w mm from the curve or where its rays end. */
export function spanEdge(spans: Spans, span: number, u0: number, u1: number, w: number): number {
  const a = spans.ends[span];
  const b = spans.ends[span + 1];
  if (a >= w && b >= w) return (u1 - u0) * Math.abs(spanLength(spans, span, w));
  if (a < w && b < w) {
    rayPoint(spans.rays[span], spans.columns, a, here);
    rayPoint(spans.rays[span + 1], spans.columns, b, there);
    return (u1 - u0) * Math.hypot(there[0] - here[0], there[1] - here[1], there[2] - here[2]);
  }
  // The edge follows the parallel at w up to where the ends' line passes it, then that line.
  const kink = (w - a) / (b - a);
  const parallel = Math.abs(spanLength(spans, span, w));
  const free = a < w ? 1 - kink : kink;
  const ended = a < w ? a : b;
  const sloped = Math.hypot((1 - free) * Math.abs(spanLength(spans, span, 0.5 * (w + ended))), w - ended);
  const freePart = a < w ? overlap(u0, u1, kink, 1) : overlap(u0, u1, 0, kink);
  const endedPart = u1 - u0 - freePart;
  return parallel * freePart + (free < 1 ? (sloped * endedPart) / (1 - free) : 0);
}

const overlap = (a: number, b: number, low: number, high: number) =>
  Math.max(0, Math.min(b, high) - Math.max(a, low));
