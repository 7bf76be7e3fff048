import type { SurfaceCurve } from "./curve.ts";
import { type Columns, columnsFor, type Ray, rayPoint, rayShooter } from "./fan.ts";
import type { Field } from "./field.ts";
import { measureSpans, type Spans, spanArea, spanEdge } from "./spans.ts";
import { spreadRays } from "./spread.ts";

/**
 * A strip: all points of a surface whose distance to a stretch of a curve, measured along the surface and reached square to the
 * curve, is within a half width on each side. Every point counts once, for the part of the stretch that is nearest: geodesics
 * shot square from the curve are ended where another part of the stretch becomes nearer, or at the surface's open edge.
 * Both ends of an open stretch are square.
 */
export interface Strip {
  /** The surface that it lies on is this field's zero set. */
  readonly field: Field;
  /** Stations of the curve at which the strip begins and ends, mm; `to` may pass the length of a closed curve. */
  readonly from: number;
  readonly to: number;
  /** Whether it runs the whole way round a closed curve; its last sample is then its first once more. */
  readonly closed: boolean;
  /** Station of each sample (n), from `from` to `to`; closer where the curve or the surface turns. */
  readonly stations: Float64Array;
  readonly left: StripSide;
  readonly right: StripSide;
  readonly areaMm2: number;
  /** Length of the stretch of curve, mm. */
  readonly midLengthMm: number;
  readonly cutShort: readonly CutShort[];
}

export interface StripSide {
  readonly halfWidth: number;
  /** Columns of the grid, the curve itself included: column c lies c·halfWidth/(columns − 1) from the curve. */
  readonly columns: number;
  /** Points of the grid for display, sample after sample (3 · n · columns); held at the cut where a ray is cut short. */
  readonly points: Float64Array;
  /** How far each sample's ray goes, mm (n): the half width or less. */
  readonly cut: Float64Array;
  /** Length of the parallel per length of curve at each grid point (n · columns): 1 on the curve. */
  readonly spread: Float64Array;
  readonly areaMm2: number;
  /** Length of the side's outer edge along the surface, mm, where cut short along the cut. */
  readonly edgeLengthMm: number;
  readonly spans: Spans;
}

/** A run of samples at which a side does not reach its half width. */
export interface CutShort {
  readonly side: "left" | "right";
  readonly from: number;
  readonly to: number;
  /** The least width reached, mm. */
  readonly leastMm: number;
  /** Another part of the stretch is nearer; the surface's open edge; or the field has no surface further on. */
  readonly why: "nearer elsewhere" | "open edge" | "surface lost";
}

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface StripSampling {
  /** Longest distance between samples along the curve, mm (90). */
  readonly alongMm?: number;
  /** Longest distance between columns, and longest geodesic step, mm (25). */
  readonly acrossMm?: number;
}

/** A sample is cut short if it misses its half width by more than this, mm. */
const SHORT_BY = 0.01;
/**
 * Lays a strip along a curve on the surface `field` = 0.
 *
 * `stretch` in stations of the curve (mm), or null for all of it; on a closed curve `to` may pass the curve's length, and a stretch
 * as long as the curve is closed. `halfWidths` left and right, mm, ≥ 0; left is normal × tangent.
 * Throws a RangeError for a stretch or width out of range, and an Error where the curve is not on the surface.
 */
export function layStrip(
  field: Field,
  curve: SurfaceCurve,
  stretch: Stretch | null,
  halfWidths: readonly [number, number],
  sampling: StripSampling = {},
): Strip {
  const { alongMm = 90, acrossMm = 25 } = sampling;
  const { from, to, closed } = checkStretch(curve, stretch);
  for (const width of halfWidths) {
    if (!(width >= 0 && width < Infinity))
      throw new RangeError(`Half width ${width} mm: a length of 0 mm or more is wanted.`);
  }
  const columns = [columnsFor(halfWidths[0], acrossMm), columnsFor(halfWidths[1], acrossMm)] as const;
  const shoot = rayShooter(field, curve, columns[0], columns[1]);
  const pairs = spreadRays(shoot, from, to, alongMm, columns, closed);
  const stations = Float64Array.from(pairs, (pair) => pair.station);
  const left = makeSide(
    pairs.map((pair) => pair.left),
    columns[0],
    stations,
  );
  const right = makeSide(
    pairs.map((pair) => pair.right),
    columns[1],
    stations,
  );
  return {
    field,
    from,
    to,
    closed,
    stations,
    left,
    right,
    areaMm2: left.areaMm2 + right.areaMm2,
    midLengthMm: to - from,
    cutShort: [...shortRuns("left", left, stations), ...shortRuns("right", right, stations)],
  };
}

/**
 * Area (mm²) of the part of a strip between two stations, `left` and `right` mm wide (at most the strip's half widths).
 * Cheap, and parts add up to the whole. On a closed strip `to` may pass its end by up to one turn.
 */
export function stripArea(strip: Strip, from: number, to: number, left: number, right: number): number {
  let area = 0;
  eachSpan(strip, from, to, (span, u0, u1) => {
    area += spanArea(strip.left.spans, span, u0, u1, Math.min(left, strip.left.halfWidth));
    area += spanArea(strip.right.spans, span, u0, u1, Math.min(right, strip.right.halfWidth));
  });
  return area;
}

/** A strip, or part of one, laid flat with its curve pulled straight. */
export interface FlatStrip {
  /** Distance from the part's beginning along the curve at each sample, mm (m). */
  readonly along: Float64Array;
  /** Width to each side at each sample, mm (m). */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** True lengths of the edges between samples, mm (m − 1), and of all of each edge. */
  readonly leftEdges: Float64Array;
  readonly rightEdges: Float64Array;
  readonly midLengthMm: number;
  readonly leftLengthMm: number;
  readonly rightLengthMm: number;
  /** Area on the surface, mm². Differs from the flat outline's wherever an edge is longer or shorter than the middle. */
  readonly areaMm2: number;
}

/**
 * Unrolls a strip, or the part of it between two stations out to `left` and `right` mm. Along the curve and square to it lengths
 * are true; the edges' true lengths are given beside.
 */
export function unrollStrip(
  strip: Strip,
  from = strip.from,
  to = strip.to,
  left = strip.left.halfWidth,
  right = strip.right.halfWidth,
): FlatStrip {
  const wide = [Math.min(left, strip.left.halfWidth), Math.min(right, strip.right.halfWidth)] as const;
  const along = [0];
  const widths: [number[], number[]] = [[], []];
  const edges: [number[], number[]] = [[], []];
  eachSpan(strip, from, to, (span, u0, u1) => {
    const length = (u1 - u0) * (strip.stations[span + 1] - strip.stations[span]);
    along.push(along[along.length - 1] + length);
    for (const side of [0, 1] as const) {
      const { ends } = (side === 0 ? strip.left : strip.right).spans;
      const widthAt = (u: number) => Math.min(wide[side], ends[span] + u * (ends[span + 1] - ends[span]));
      if (widths[side].length === 0) widths[side].push(widthAt(u0));
      widths[side].push(widthAt(u1));
      edges[side].push(spanEdge((side === 0 ? strip.left : strip.right).spans, span, u0, u1, wide[side]));
    }
  });
  const sum = (lengths: readonly number[]) => lengths.reduce((total, length) => total + length, 0);
  return {
    along: Float64Array.from(along),
    left: Float64Array.from(widths[0]),
    right: Float64Array.from(widths[1]),
    leftEdges: Float64Array.from(edges[0]),
    rightEdges: Float64Array.from(edges[1]),
    midLengthMm: along[along.length - 1],
    leftLengthMm: sum(edges[0]),
    rightLengthMm: sum(edges[1]),
    areaMm2: stripArea(strip, from, to, wide[0], wide[1]),
  };
}

/** Calls `visit` with every span, or part u₀…u₁ of a span, between two stations, in order; wraps round a closed strip. */
function eachSpan(
  strip: Strip,
  from: number,
  to: number,
  visit: (span: number, u0: number, u1: number) => void,
): void {
  const { stations } = strip;
  const length = strip.to - strip.from;
  const turns = strip.closed ? Math.floor((from - strip.from) / length) : 0;
  for (let turn = turns; turn === turns || (strip.closed && strip.from + turn * length < to); turn++) {
    const low = from - turn * length;
    const high = to - turn * length;
    for (let i = 0; i + 1 < stations.length; i++) {
      const a = stations[i];
      const b = stations[i + 1];
      if (b <= low || a >= high) continue;
      visit(i, Math.max(0, (low - a) / (b - a)), Math.min(1, (high - a) / (b - a)));
    }
  }
}

function checkStretch(
  curve: SurfaceCurve,
  stretch: Stretch | null,
): { from: number; to: number; closed: boolean } {
  const { from, to } = stretch ?? { from: 0, to: curve.length };
  const most = curve.closed ? from + curve.length : curve.length;
  if (!(from >= 0 && from < to && to <= most + 1e-6)) {
    throw new RangeError(
      `Stretch from ${from} to ${to} mm: wanted 0 ≤ from < to ≤ ${most.toFixed(1)} mm (the curve is ${curve.length.toFixed(1)} mm long).`,
    );
  }
  return { from, to: Math.min(to, most), closed: curve.closed && to - from >= curve.length - 1e-6 };
}

function makeSide(rays: readonly Ray[], columns: Columns, stations: Float64Array): StripSide {
  const spans = measureSpans(rays, columns);
  const shown = Math.max(1, columns.count - 1);
  const n = rays.length;
  const cut = Float64Array.from(spans.ends, (end) => Math.min(columns.halfWidth, end));
  const points = new Float64Array(3 * n * shown);
  const spread = new Float64Array(n * shown);
  const p = new Float64Array(3);
  for (let i = 0; i < n; i++) {
    for (let c = 0; c < shown; c++) {
      rayPoint(rays[i], columns, Math.min(c * columns.spacing, cut[i]), p);
      points.set(p, 3 * (i * shown + c));
      const before = i > 0 ? spans.lengths[(i - 1) * columns.count + c] : 0;
      const after = i + 1 < n ? spans.lengths[i * columns.count + c] : 0;
      const length = stations[Math.min(n - 1, i + 1)] - stations[Math.max(0, i - 1)];
      spread[i * shown + c] = (before + after) / length;
    }
  }
  let areaMm2 = 0;
  let edgeLengthMm = 0;
  for (let i = 0; i + 1 < n; i++) {
    areaMm2 += spanArea(spans, i, 0, 1, columns.halfWidth);
    edgeLengthMm += spanEdge(spans, i, 0, 1, columns.halfWidth);
  }
  return { halfWidth: columns.halfWidth, columns: shown, points, cut, spread, areaMm2, edgeLengthMm, spans };
}

function shortRuns(
  side: "left" | "right",
  { cut, halfWidth, spans }: StripSide,
  stations: Float64Array,
): CutShort[] {
  const runs: CutShort[] = [];
  const whyOf = (i: number): CutShort["why"] => {
    const { edge, lost } = spans.rays[i];
    if (cut[i] < Math.min(edge, lost)) return "nearer elsewhere";
    return edge <= lost ? "open edge" : "surface lost";
  };
  for (let i = 0; i < cut.length; i++) {
    if (cut[i] > halfWidth - SHORT_BY) continue;
    const why = whyOf(i);
    const from = stations[Math.max(0, i - 1)];
    let leastMm = cut[i];
    while (i + 1 < cut.length && cut[i + 1] <= halfWidth - SHORT_BY && whyOf(i + 1) === why) {
      i++;
      leastMm = Math.min(leastMm, cut[i]);
    }
    runs.push({ side, from, to: stations[Math.min(cut.length - 1, i + 1)], leastMm, why });
  }
  return runs;
}
