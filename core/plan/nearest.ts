import type { Arc, Chain } from "./chain.ts";
import { curvatureOf, segmentEnd, segmentStart, TURN } from "./segments.ts";

/** The point of a chain nearest to a given point. */
export interface Nearest {
  /** Signed distance, mm: negative on the left of the chain, which is the inside of a closed outline. */
  distance: number;
  /** Station of the foot: 0 ≤ station < length on a closed chain. */
  station: number;
  segment: number;
  /** The foot, mm. */
  x: number;
  y: number;
  /** Gradient of the signed distance: the unit vector from left to right across the chain. */
  nx: number;
  ny: number;
  /** Signed curvature of the segment that holds the foot, 1/mm, positive counter-clockwise. */
  curvature: number;
}

export const blankNearest = (): Nearest => ({
  distance: 0,
  station: 0,
  segment: 0,
  x: 0,
  y: 0,
  nx: 0,
  ny: 0,
  curvature: 0,
});

/** Closer to a joint than this (mm), the way across the chain is taken from its direction and not from the point. */
const ON_THE_JOINT = 1e-4;

/**
 * The nearest point of a chain to (x, y), in closed form: exact to rounding (1e-9 mm for radii up to a kilometre), at
 * joints too. At a joint that is not smooth the sign follows the mean direction, which is right for every point whose
 * nearest point is the joint. On a tie the segment first along the chain is taken, and at an arc's centre its middle.
 *
 * @param out filled and returned; give your own in hot loops, which then allocate nothing.
 * @param among segments to look at (all when absent); see `segmentsWithin`.
 */
export function nearest(
  chain: Chain,
  x: number,
  y: number,
  out: Nearest = blankNearest(),
  among?: ArrayLike<number>,
): Nearest {
  const { segments } = chain;
  const count = among ? among.length : segments.length;
  let best = Infinity;
  let owner = 0;
  /** Where the foot lies on its segment; its two ends are told apart from its inside, for there the sign differs. */
  let along = 0;
  let end: "start" | "inside" | "end" = "inside";

  for (let k = 0; k < count; k++) {
    const i = among ? among[k] : k;
    const segment = segments[i];
    if (segment.kind === "line") {
      const px = x - segment.ax;
      const py = y - segment.ay;
      const s = px * segment.ux + py * segment.uy;
      if (s > 0 && s < segment.length) {
        const across = Math.abs(px * segment.uy - py * segment.ux);
        if (across < best) {
          best = across;
          owner = i;
          along = s;
          end = "inside";
        }
      } else {
        const last = s > 0;
        const distance = last ? length(x - segment.bx, y - segment.by) : length(px, py);
        if (distance < best) {
          best = distance;
          owner = i;
          along = last ? segment.length : 0;
          end = last ? "end" : "start";
        }
      }
    } else {
      const px = x - segment.cx;
      const py = y - segment.cy;
      // The whole circle is never further than its arc: most arcs are done with here, without any trigonometry.
      const across = Math.abs(length(px, py) - segment.radius);
      if (across >= best) continue;
      const turn = Math.abs(segment.sweep);
      const angle = px === 0 && py === 0 ? turn / 2 : turnTo(segment, px, py);
      if (angle <= turn) {
        best = across;
        owner = i;
        along = angle * segment.radius;
        end = "inside";
      } else {
        const last = angle - turn < TURN - angle;
        const tip = last ? segment.start + segment.sweep : segment.start;
        const distance = length(px - segment.radius * Math.cos(tip), py - segment.radius * Math.sin(tip));
        if (distance < best) {
          best = distance;
          owner = i;
          along = last ? segment.length : 0;
          end = last ? "end" : "start";
        }
      }
    }
  }

  const segment = segments[owner];
  const station = chain.stations[owner] + along;
  out.segment = owner;
  out.station = chain.closed && station >= chain.length ? 0 : station;
  out.curvature = curvatureOf(segment);
  if (end !== "inside") atJoint(chain, owner, end, x, y, best, out);
  else if (segment.kind === "line") {
    out.nx = segment.uy;
    out.ny = -segment.ux;
    out.distance = (x - segment.ax) * out.nx + (y - segment.ay) * out.ny;
    out.x = segment.ax + along * segment.ux;
    out.y = segment.ay + along * segment.uy;
  } else {
    const way = Math.sign(segment.sweep);
    const px = x - segment.cx;
    const py = y - segment.cy;
    const reach = length(px, py);
    const middle = segment.start + segment.sweep / 2;
    const rx = reach > 0 ? px / reach : Math.cos(middle);
    const ry = reach > 0 ? py / reach : Math.sin(middle);
    out.distance = way * (reach - segment.radius);
    out.nx = way * rx;
    out.ny = way * ry;
    out.x = segment.cx + segment.radius * rx;
    out.y = segment.cy + segment.radius * ry;
  }
  return out;
}

/** The foot is an end of a segment: the sign is that of the mean direction of the two segments that meet there. */
function atJoint(
  chain: Chain,
  owner: number,
  end: "start" | "end",
  x: number,
  y: number,
  best: number,
  out: Nearest,
) {
  const { segments, closed } = chain;
  const count = segments.length;
  const before = end === "end" ? owner : owner > 0 ? owner - 1 : closed ? count - 1 : owner;
  const after = end === "start" ? owner : owner < count - 1 ? owner + 1 : closed ? 0 : owner;
  const into =
    end === "end" || before !== owner ? segmentEnd(segments[before]) : segmentStart(segments[owner]);
  const from =
    end === "start" || after !== owner ? segmentStart(segments[after]) : segmentEnd(segments[owner]);
  const foot = end === "end" ? into : from;
  const mx = into.tx + from.tx;
  const my = into.ty + from.ty;
  const px = x - foot.x;
  const py = y - foot.y;
  const side = px * my - py * mx < 0 ? -1 : 1;
  out.x = foot.x;
  out.y = foot.y;
  out.distance = side * best;
  if (best > ON_THE_JOINT) {
    out.nx = (side * px) / best;
    out.ny = (side * py) / best;
  } else {
    const m = length(mx, my);
    out.nx = m > 0 ? my / m : from.ty;
    out.ny = m > 0 ? -mx / m : -from.tx;
  }
}

/** How far an arc has turned when it points along (px, py) from its centre: 0 … 2π, counted the way it travels. */
export function turnTo(arc: Arc, px: number, py: number): number {
  const ahead = Math.sign(arc.sweep) * (Math.atan2(py, px) - arc.start);
  return ahead - Math.floor(ahead / TURN) * TURN;
}

/** Plain square root of the sum of squares: Math.hypot guards against overflow that no pool reaches, at ten times the cost. */
function length(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}
