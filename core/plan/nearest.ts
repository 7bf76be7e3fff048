import type { Arc, Chain, Segment } from "./chain.ts";
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
 */
export function nearest(chain: Chain, x: number, y: number, out: Nearest = blankNearest()): Nearest {
  const { segments } = chain;
  const edges = edgesOf(chain);
  /** Square of the least distance so far, whose it is, and whether it is at an end: there the sign is found differently. */
  let best = Infinity;
  let owner = 0;
  let end: "start" | "inside" | "end" = "inside";

  for (let i = 0, e = 0; i < segments.length; i++, e += STRIDE) {
    let square: number;
    let beyondStart: boolean;
    let beyondEnd: boolean;
    if (edges[e] === 0) {
      const px = x - edges[e + 1];
      const py = y - edges[e + 2];
      const s = px * edges[e + 5] + py * edges[e + 6];
      const across = px * edges[e + 6] - py * edges[e + 5];
      square = across * across;
      beyondStart = s <= 0;
      beyondEnd = s >= edges[e + 7];
    } else {
      const cx = edges[e + 5];
      const cy = edges[e + 6];
      const px = x - cx;
      const py = y - cy;
      const across = length(px, py) - edges[e + 7];
      square = across * across;
      const fromStart = edges[e] * ((edges[e + 1] - cx) * py - (edges[e + 2] - cy) * px);
      const fromEnd = edges[e] * ((edges[e + 3] - cx) * py - (edges[e + 4] - cy) * px);
      // Past a half turn the arc holds all directions but those that are both behind its start and ahead of its end.
      const width = edges[e + 8];
      const holds =
        width === NARROW ? fromStart >= 0 && fromEnd <= 0 : width === FULL || fromStart >= 0 || fromEnd <= 0;
      beyondStart = !holds;
      beyondEnd = !holds;
    }
    // Beyond its ends a segment is further away than its whole line or circle.
    if (square >= best) continue;
    if (!beyondStart && !beyondEnd) {
      best = square;
      owner = i;
      end = "inside";
      continue;
    }
    const toStart = beyondStart ? squareOf(x - edges[e + 1], y - edges[e + 2]) : Infinity;
    const toEnd = beyondEnd ? squareOf(x - edges[e + 3], y - edges[e + 4]) : Infinity;
    if (Math.min(toStart, toEnd) >= best) continue;
    best = Math.min(toStart, toEnd);
    owner = i;
    end = toStart <= toEnd ? "start" : "end";
  }

  const segment = segments[owner];
  const along = end === "start" ? 0 : end === "end" ? segment.length : footAlong(segment, x, y);
  const station = chain.stations[owner] + along;
  out.segment = owner;
  out.station = chain.closed && station >= chain.length ? 0 : station;
  out.curvature = curvatureOf(segment);
  if (end !== "inside") atJoint(chain, owner, end, x, y, Math.sqrt(best), out);
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

/** How far along a segment the foot of a point lies that is beside it; in the middle of an arc for its centre. */
function footAlong(segment: Segment, x: number, y: number): number {
  if (segment.kind === "line") return (x - segment.ax) * segment.ux + (y - segment.ay) * segment.uy;
  const px = x - segment.cx;
  const py = y - segment.cy;
  const turn = Math.abs(segment.sweep);
  if (px === 0 && py === 0) return segment.length / 2;
  const angle = turnTo(segment, px, py);
  // A foot on the very start may come out a full turn ahead of it, one on the end a rounding error past it.
  if (angle <= turn) return angle * segment.radius;
  return angle - turn < TURN - angle ? segment.length : 0;
}

/** How far an arc has turned when it points along (px, py) from its centre: 0 … 2π, counted the way it travels. */
export function turnTo(arc: Arc, px: number, py: number): number {
  const ahead = Math.sign(arc.sweep) * (Math.atan2(py, px) - arc.start);
  return ahead - Math.floor(ahead / TURN) * TURN;
}

/**
 * A chain's segments as plain numbers, worked out once for each chain. A line: 0, its ends, direction, length. An arc: the sense
 * of its turn (1 or −1), its ends, centre, radius, and width.
 */
function edgesOf(chain: Chain): Float64Array {
  const known = edgesOfChain.get(chain);
  if (known) return known;
  const edges = new Float64Array(chain.segments.length * STRIDE);
  chain.segments.forEach((segment, i) => {
    const [a, b] = [segmentStart(segment), segmentEnd(segment)];
    const shape =
      segment.kind === "line"
        ? [segment.ux, segment.uy, segment.length, 0]
        : [segment.cx, segment.cy, segment.radius, widthOf(segment)];
    const sense = segment.kind === "line" ? 0 : Math.sign(segment.sweep);
    edges.set([sense, a.x, a.y, b.x, b.y, ...shape], i * STRIDE);
  });
  edgesOfChain.set(chain, edges);
  return edges;
}

const STRIDE = 9;
/** Widths of an arc: up to half a turn, more, or a full turn. */
const NARROW = 0;
const WIDE = 1;
const FULL = 2;

function widthOf({ sweep }: Arc): number {
  const turn = Math.abs(sweep);
  return turn <= Math.PI ? NARROW : turn < TURN - 1e-9 ? WIDE : FULL;
}

const edgesOfChain = new WeakMap<Chain, Float64Array>();

function squareOf(x: number, y: number): number {
  return x * x + y * y;
}

/** Plain square root of the sum of squares: Math.hypot guards against overflow that no pool reaches, at ten times the cost. */
function length(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}
