/** The whole line or circle that a neighbour of the corner lies on; the ground on its right. */
export type Carrier =
  | {
      readonly kind: "line";
      readonly ax: number;
      readonly ay: number;
      readonly ux: number;
      readonly uy: number;
    }
  | {
      readonly kind: "arc";
      readonly cx: number;
      readonly cy: number;
      readonly radius: number;
      readonly sense: 1 | -1;
    };

/** A plan corner whose radius grows from `from` at depth `top` and above to `to` at depth `bottom` and below. */
export interface Growth {
  /** Index of the corner's arc in the chain. */
  readonly segment: number;
  readonly from: number;
  readonly to: number;
  readonly top: number;
  readonly bottom: number;
}

/** The plan radius of a growing corner at a depth before the draft takes its part, mm. */
export function radiusAt({ from, to, top, bottom }: Growth, depth: number): number {
  const t = Math.min(1, Math.max(0, (depth - top) / (bottom - top)));
  return from + (to - from) * t * t * (3 - 2 * t);
}

/** Slack on the ends of the arc, mm: it overlaps its neighbours by this much rather than gape. */
const SLACK = 1e-7;
/** Steps of Newton's to the foot of a perpendicular; three or four are the rule. */
const MOST_STEPS = 16;
/** Where a corner leans by more than this beyond the draft, a first guess at a point's own depth can be too far from its foot. */
const STEEP = 0.25;
/** Other guesses then, evenly spread over the corner's growth. */
const GUESSES = 6;
/** The foot's depth is found to this, mm: the distance then to its square. */
const SETTLED = 1e-6;

/**
 * The face that a growing corner's arc sweeps with depth: at depth h a circle about c(h) with the radius
 * ρ(h) = R(h) − h·tan δ that the draft has left of R(h). The distance is taken along the true normal: a ball that rolls
 * along the face and along a level touches both where it should. (The distance to the circle at the point's own depth,
 * scaled to a unit gradient, is right on the face only: half a millimetre off a ball's radius away, which tears
 * the blend wherever one face takes over from two.)
 */
export class GrowingCorner {
  /** Centre and radius of the plan arc at the depth last asked for, and the outward normals at its two ends. */
  x = 0;
  y = 0;
  radius = 0;
  private n0x = 0;
  private n0y = 0;
  private n1x = 0;
  private n1y = 0;
  /** Way of the centre per mm of radius. */
  private wx = 0;
  private wy = 0;
  /** First and second derivative of the radius by depth. */
  private rate = 0;
  private curl = 0;

  /** Left by `nearest`: distance, mm, its gradient by x, y and depth, and curvature of the level line. */
  distance = 0;
  gx = 0;
  gy = 0;
  gDepth = 0;
  bend = 0;

  /** Where the arc, fully grown, begins and ends: x0 y0 x1 y1. No radius brings it further along its neighbours. */
  readonly widest: readonly [number, number, number, number];
  /** A disc that holds the arc at every radius. */
  readonly reachX: number;
  readonly reachY: number;
  readonly reach: number;
  /** The wedge of the arc when fully grown, which is widest then and its apex furthest in: apex, middle direction, cosine of half its angle. */
  readonly wedgeX: number;
  readonly wedgeY: number;
  readonly wedgeMx: number;
  readonly wedgeMy: number;
  readonly wedgeHalf: number;

  private readonly growth: Growth;
  private readonly prev: Carrier;
  private readonly next: Carrier;
  private readonly straight: boolean;
  private readonly steep: boolean;
  /** Longest step on the way to a foot, mm of depth. */
  private readonly stride: number;
  private readonly x0: number;
  private readonly y0: number;
  private readonly tan: number;

  /** `x`, `y`: the arc's centre at radius `from`; `prev` and `next`: what the arc runs into; `draft` in radians. */
  constructor(growth: Growth, prev: Carrier, next: Carrier, x: number, y: number, draft: number) {
    this.growth = growth;
    this.prev = prev;
    this.next = next;
    this.straight = prev.kind === "line" && next.kind === "line";
    this.tan = Math.tan(draft);
    this.x0 = x;
    this.y0 = y;
    this.x = x;
    this.y = y;
    this.radius = growth.from;
    const { to } = growth;
    this.place(to);
    // The arc's two ends when fully grown.
    const ax = this.x + to * this.n0x;
    const ay = this.y + to * this.n0y;
    const bx = this.x + to * this.n1x;
    const by = this.y + to * this.n1y;
    this.widest = [ax, ay, bx, by];
    this.reachX = (ax + bx) / 2;
    this.reachY = (ay + by) / 2;
    this.reach = 1.5 * Math.hypot(ax - bx, ay - by);
    const mx = this.n0x + this.n1x;
    const my = this.n0y + this.n1y;
    const m = Math.hypot(mx, my);
    const fastest = (1.5 * (to - growth.from)) / (growth.bottom - growth.top);
    this.stride = (growth.bottom - growth.top) / 4;
    this.steep = fastest * (Math.hypot(this.wx, this.wy) - 1) > STEEP;
    this.wedgeX = this.x;
    this.wedgeY = this.y;
    this.wedgeMx = mx / m;
    this.wedgeMy = my / m;
    this.wedgeHalf = m / 2;
  }

  /** Places the corner at a depth, mm. Smoothstep, so that the wall has no kink where growth begins or ends. */
  at(depth: number): void {
    const { from, to, top, bottom } = this.growth;
    const span = bottom - top;
    const t = Math.min(1, Math.max(0, (depth - top) / span));
    this.rate = ((to - from) * 6 * t * (1 - t)) / span;
    this.curl = t > 0 && t < 1 ? ((to - from) * (6 - 12 * t)) / (span * span) : 0;
    const radius = radiusAt(this.growth, depth);
    if (radius !== this.radius) this.place(radius);
  }

  /**
   * Distance of (x, y) at a depth from the face, with its gradient: the foot's depth h solves e·e′ + h − depth = 0,
   * e(h) the distance to the circle at h (Newton). False when the foot is not on the arc.
   */
  nearest(x: number, y: number, depth: number): boolean {
    const foot = this.footFrom(x, y, depth, depth);
    if (foot !== null || !this.steep) return foot ?? false;
    const { top, bottom } = this.growth;
    for (let k = GUESSES; k >= 0; k--)
      if (this.footFrom(x, y, depth, top + ((bottom - top) * k) / GUESSES)) return true;
    return false;
  }

  /** As `nearest`, from a first guess of the foot's depth; null when it leads to no foot: the last step is no answer then. */
  private footFrom(x: number, y: number, depth: number, guess: number): boolean | null {
    let h = guess;
    let px = 0;
    let py = 0;
    let l = 0;
    let e = 0;
    let slope = 0;
    for (let step = 0; ; step++) {
      this.at(h);
      px = x - this.x;
      py = y - this.y;
      l = Math.sqrt(px * px + py * py);
      if (l < 1e-9 || step === MOST_STEPS) return null;
      const along = (px * this.wx + py * this.wy) / l;
      const { rate } = this;
      e = l - this.radius + h * this.tan;
      slope = this.tan - rate * (1 + along);
      const w2 = this.wx * this.wx + this.wy * this.wy;
      const turn = (rate * rate * (w2 - along * along)) / l - this.curl * (1 + along);
      const stiff = 1 + slope * slope;
      const move = (e * slope + h - depth) / Math.max(stiff + e * turn, 0.3 * stiff);
      if (Math.abs(move) < SETTLED) break;
      h -= Math.max(-this.stride, Math.min(this.stride, move));
    }
    if (this.n0x * py - this.n0y * px < -SLACK || px * this.n1y - py * this.n1x < -SLACK) return false;
    const size = 1 / Math.sqrt(1 + slope * slope);
    this.distance = (e + slope * (depth - h)) * size;
    this.gx = (px / l) * size;
    this.gy = (py / l) * size;
    this.gDepth = slope * size;
    this.bend = size / l;
    return true;
  }

  /**
   * The circle of this radius inside both neighbours: its centre lies at distance −radius from each carrier (Newton;
   * exact in one step between straight sides).
   */
  private place(radius: number): void {
    const { prev, next } = this;
    let x = this.x0;
    let y = this.y0;
    for (let i = this.straight ? 1 : 6; i > 0; i--) {
      carrier(prev, x, y, p);
      carrier(next, x, y, q);
      const det = p[1] * q[2] - p[2] * q[1];
      const a = p[0] + radius;
      const b = q[0] + radius;
      x -= (a * q[2] - b * p[2]) / det;
      y -= (b * p[1] - a * q[1]) / det;
      if (Math.abs(a) + Math.abs(b) < 1e-11) break;
    }
    if (!this.straight) {
      carrier(prev, x, y, p);
      carrier(next, x, y, q);
    }
    const det = p[1] * q[2] - p[2] * q[1];
    this.x = x;
    this.y = y;
    this.radius = radius;
    this.wx = (p[2] - q[2]) / det;
    this.wy = (q[1] - p[1]) / det;
    this.n0x = p[1];
    this.n0y = p[2];
    this.n1x = q[1];
    this.n1y = q[2];
  }
}

const p = new Float64Array(3);
const q = new Float64Array(3);

/** Signed distance to an edge's carrier (the whole line or circle): value, then its gradient. */
function carrier(e: Carrier, x: number, y: number, out: Float64Array): void {
  if (e.kind === "line") {
    out[0] = (x - e.ax) * e.uy - (y - e.ay) * e.ux;
    out[1] = e.uy;
    out[2] = -e.ux;
    return;
  }
  const l = Math.hypot(x - e.cx, y - e.cy);
  out[0] = e.sense * (l - e.radius);
  out[1] = (e.sense * (x - e.cx)) / l;
  out[2] = (e.sense * (y - e.cy)) / l;
}
