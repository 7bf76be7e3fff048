import type { FieldNear } from "./bricks.ts";
import { RAY_STRIDE, rayPoint } from "./fan.ts";
import { lastUpTo } from "./last-up-to.ts";
import { projectOnto } from "./project.ts";
import { spanLength } from "./spans.ts";
import type { Strip, StripSide } from "./strip.ts";

/** Where a place of a strip lies among its rays: between ray `span` and the next, at the part `u` (0…1) of the way. */
export interface SpanPlace {
  readonly span: number;
  readonly u: number;
}

/** As near as this is on the surface, mm. */
const ON = 0.01;
/** From no further than this, mm, one step along the gradient ends on the surface, and the normal there is the one before. */
const NEAR = 0.5;

const here = new Float64Array(3);
const there = new Float64Array(3);

/** The span that holds a station (mm, as the strip counts them). Stations of a closed strip wrap round, others are held to its ends. */
export function spanPlace(strip: Strip, station: number): SpanPlace {
  const { stations, from, to, closed } = strip;
  const length = to - from;
  const at = closed
    ? station - Math.floor((station - from) / length) * length
    : Math.min(to, Math.max(from, station));
  const span = lastUpTo(stations, at, stations.length - 2);
  return { span, u: (at - stations[span]) / (stations[span + 1] - stations[span]) };
}

/** How far a strip reaches to one side at a place, mm: `width`, or to where its rays end. */
export function reachAt({ spans }: StripSide, { span, u }: SpanPlace, width: number): number {
  return Math.min(width, spans.ends[span] + u * (spans.ends[span + 1] - spans.ends[span]));
}

/**
 * The point of a strip's side `w` mm from the curve at a place, by the cubic along the parallel between two rays: a fraction of a millimetre off the
 * surface. Writes the point (mm) and the direction in which the curve's parallel runs there to out[0…2] and out[6…8].
 */
export function pointBetweenRays(
  { spans }: StripSide,
  { span, u }: SpanPlace,
  w: number,
  out: Float64Array,
): void {
  const { columns, rays } = spans;
  const column =
    columns.count === 1 ? 0 : Math.max(0, Math.min(columns.count - 2, Math.floor(w / columns.spacing)));
  const part = columns.count === 1 ? 0 : w / columns.spacing - column;
  const a = rays[span].data;
  const b = rays[span + 1].data;
  rayPoint(rays[span], columns, w, here);
  rayPoint(rays[span + 1], columns, w, there);
  const length = spanLength(spans, span, w);
  const v = 1 - u;
  for (let k = 0; k < 3; k++) {
    const at = RAY_STRIDE * column + 6 + k;
    const next = columns.count === 1 ? at : at + RAY_STRIDE;
    const s = a[at] + part * (a[next] - a[at]);
    const t = b[at] + part * (b[next] - b[at]);
    out[k] =
      v * v * (1 + 2 * u) * here[k] + u * u * (3 - 2 * u) * there[k] + u * v * length * (v * s - u * t);
    out[6 + k] = v * s + u * t;
  }
}

/**
 * The point of a strip's side `w` mm from the curve at a place: point (mm), unit normal and the unit direction in which the curve's
 * parallel runs there, nine numbers in `out`. That between the rays, put onto the surface of `near`. False where there is no surface.
 */
export function stripPoint(
  near: FieldNear,
  side: StripSide,
  place: SpanPlace,
  w: number,
  out: Float64Array,
): boolean {
  pointBetweenRays(side, place, w, out);
  const field = near(out[0], out[1], out[2]);
  const off = field.evaluate(out[0], out[1], out[2]);
  const g = field.gradient;
  const square = g[0] * g[0] + g[1] * g[1] + g[2] * g[2];
  if (square > 0.25 && Math.abs(off) < NEAR) {
    const step = off / square;
    out[0] -= step * g[0];
    out[1] -= step * g[1];
    out[2] -= step * g[2];
  } else if (!projectOnto(field, out, 0, ON)) return false;
  // The gradient left by `projectOnto` is that of the projected point.
  const size = Math.sqrt(g[0] * g[0] + g[1] * g[1] + g[2] * g[2]);
  out[3] = g[0] / size;
  out[4] = g[1] / size;
  out[5] = g[2] / size;
  return true;
}
