/**
 * Signed distance to a chain of lines and arcs in its own plane: positive on the right of the chain (outside a
 * counter-clockwise outline), negative on the left. Corners of a closed outline may grow with depth: see `Growth`.
 */
import type { Arc, Chain, Segment } from "../plan/chain.ts";

/** What the last distance found: read it at once. */
export const found = {
  distance: 0,
  /** Unit gradient in the plane. */
  gx: 0,
  gy: 0,
  /** Change of distance per mm of depth (only where a corner grows). */
  perDepth: 0,
  /** Curvature of the level line there, signed so that the Hessian is bend·t·tᵀ with t = (−gy, gx). */
  bend: 0,
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

/** Slack on the ends of segments, mm: joints overlap by this much rather than gape. */
const SLACK = 1e-7;

export interface LineEdge {
  readonly kind: "line";
  readonly ax: number;
  readonly ay: number;
  readonly ux: number;
  readonly uy: number;
  readonly length: number;
  /** An end of an open chain runs on for ever. */
  readonly endless: readonly [boolean, boolean];
  /** Growing corners that trim it before and after; −1 for none. */
  readonly before: number;
  readonly after: number;
}

export interface ArcEdge {
  readonly kind: "arc";
  readonly cx: number;
  readonly cy: number;
  readonly radius: number;
  /** +1 turns left (its centre is inside), −1 right. */
  readonly sense: 1 | -1;
  /** Direction of its middle and cosine of half its turn. */
  readonly mx: number;
  readonly my: number;
  readonly half: number;
  readonly before: number;
  readonly after: number;
}

interface CornerEdge {
  readonly kind: "corner";
  readonly corner: number;
}

type Edge = LineEdge | ArcEdge | CornerEdge;

interface Corner extends Growth {
  readonly prev: LineEdge | ArcEdge;
  readonly next: LineEdge | ArcEdge;
  /** Centre at radius `from`. */
  readonly x0: number;
  readonly y0: number;
  /** A disc that holds the corner's arc at every radius. */
  readonly reachX: number;
  readonly reachY: number;
  readonly reach: number;
  /** The wedge of its arc when fully grown: apex, middle direction, cosine of half its angle. */
  readonly wedgeX: number;
  readonly wedgeY: number;
  readonly wedgeMx: number;
  readonly wedgeMy: number;
  readonly wedgeHalf: number;
}

/** A corner before its bounds are known. */
type BareCorner = Omit<
  Corner,
  "reachX" | "reachY" | "reach" | "wedgeX" | "wedgeY" | "wedgeMx" | "wedgeMy" | "wedgeHalf"
>;

/** Stride of the growing corners' present state: centre, radius, radius per depth, centre per radius, end normals. */
const STATE = 10;

export class PlanDistance {
  private readonly now: Float64Array;
  private depth = Number.NaN;
  /** Parts made so far, by the set of their edges. */
  private readonly parts = new Map<number, PlanDistance>();

  private readonly edges: readonly Edge[];
  private readonly corners: readonly Corner[];

  private constructor(edges: readonly Edge[], corners: readonly Corner[]) {
    this.edges = edges;
    this.corners = corners;
    this.now = new Float64Array(corners.length * STATE);
  }

  static of(chain: Chain, growths: readonly Growth[] = []): PlanDistance {
    const n = chain.segments.length;
    const cornerAt = (i: number) => {
      if (!chain.closed && (i < 0 || i >= n)) return -1;
      return growths.findIndex((g) => g.segment === (i + n) % n);
    };
    const plain = chain.segments.map((s, i) =>
      edgeOf(s, cornerAt(i - 1), cornerAt(i + 1), [!chain.closed && i === 0, !chain.closed && i === n - 1]),
    );
    const edges = plain.map((e, i): Edge => (cornerAt(i) >= 0 ? { kind: "corner", corner: cornerAt(i) } : e));
    const corners = growths.map((g) => {
      const arc = chain.segments[g.segment] as Arc;
      const corner = {
        ...g,
        prev: plain[(g.segment + n - 1) % n],
        next: plain[(g.segment + 1) % n],
        x0: arc.cx,
        y0: arc.cy,
      };
      return { ...corner, ...boundsOf(corner) };
    });
    return new PlanDistance(edges, corners);
  }

  /** Distance at (x, y) at a depth below the rim, mm; gradient and curvature in `found`. */
  at(x: number, y: number, depth: number): number {
    if (this.corners.length > 0 && depth !== this.depth) this.grow(depth);
    const now = this.now;
    let best = Infinity;
    for (const e of this.edges) {
      if (e.kind === "line") {
        const px = x - e.ax;
        const py = y - e.ay;
        const d = px * e.uy - py * e.ux;
        const size = Math.abs(d);
        if (size >= best) continue;
        const t = px * e.ux + py * e.uy;
        const b = e.before * STATE;
        const a = e.after * STATE;
        if (b >= 0) {
          if ((x - now[b]) * e.ux + (y - now[b + 1]) * e.uy < -SLACK) continue;
        } else if (t < -SLACK && !e.endless[0]) continue;
        if (a >= 0) {
          if ((x - now[a]) * e.ux + (y - now[a + 1]) * e.uy > SLACK) continue;
        } else if (t > e.length + SLACK && !e.endless[1]) continue;
        best = size;
        note(d, e.uy, -e.ux, 0, 0);
      } else if (e.kind === "arc") {
        const px = x - e.cx;
        const py = y - e.cy;
        const l = Math.sqrt(px * px + py * py);
        const size = Math.abs(l - e.radius);
        if (size >= best || px * e.mx + py * e.my < l * e.half - SLACK) continue;
        if (e.before >= 0) {
          const b = e.before * STATE;
          if (e.sense * cross(now[b] - e.cx, now[b + 1] - e.cy, px, py) * facing(e, now[b + 2]) < -SLACK * l)
            continue;
        }
        if (e.after >= 0) {
          const a = e.after * STATE;
          if (e.sense * cross(now[a] - e.cx, now[a + 1] - e.cy, px, py) * facing(e, now[a + 2]) > SLACK * l)
            continue;
        }
        best = size;
        const q = l > 1e-9 ? e.sense / l : 0;
        note(e.sense * (l - e.radius), px * q, py * q, q, 0);
      } else {
        const c = e.corner * STATE;
        const px = x - now[c];
        const py = y - now[c + 1];
        const l = Math.sqrt(px * px + py * py);
        const d = l - now[c + 2];
        const size = Math.abs(d);
        if (size >= best) continue;
        if (cross(now[c + 6], now[c + 7], px, py) < -SLACK || cross(px, py, now[c + 8], now[c + 9]) < -SLACK)
          continue;
        best = size;
        const q = l > 1e-9 ? 1 / l : 0;
        note(d, px * q, py * q, q, -now[c + 3] * ((px * now[c + 4] + py * now[c + 5]) * q + 1));
      }
    }
    return found.distance;
  }

  /** The one straight line left, or null. */
  onlyLine(): LineEdge | null {
    return this.edges.length === 1 && this.edges[0].kind === "line" ? this.edges[0] : null;
  }

  /** The same distances within `radius` of a point, from fewer segments. */
  within(x: number, y: number, depth: number, radius: number): PlanDistance {
    // Moving by the radius changes the distance by as much, and a growing corner by no more again.
    const bound = Math.abs(this.at(x, y, depth)) + (this.corners.length > 0 ? 3 : 2) * radius + 1;
    let mask = 0;
    let kept = 0;
    for (let i = 0; i < this.edges.length; i++) {
      const e = this.edges[i];
      if (this.leastDistance(e, x, y) > bound || this.aside(e, x, y) > radius + SLACK) continue;
      kept++;
      // Beyond 50 edges a number is no set any more; those are not remembered.
      mask += i < 50 ? 2 ** i : Number.NaN;
    }
    if (kept === this.edges.length || kept === 0) return this;
    const known = this.parts.get(mask);
    if (known) return known;
    const part = this.part(
      this.edges.filter((e) => this.leastDistance(e, x, y) <= bound && this.aside(e, x, y) <= radius + SLACK),
    );
    if (!Number.isNaN(mask)) this.parts.set(mask, part);
    return part;
  }

  private part(kept: readonly Edge[]): PlanDistance {
    const used = this.corners.map((c, i) =>
      kept.some((e) => (e.kind === "corner" ? e.corner === i : e.before === i || e.after === i)) ? c : null,
    );
    const corners = used.filter((c) => c !== null);
    const renumber = (i: number) => (i < 0 || used[i] === null ? -1 : corners.indexOf(used[i]));
    return new PlanDistance(
      kept.map((e) =>
        e.kind === "corner"
          ? { kind: "corner", corner: renumber(e.corner) }
          : { ...e, before: renumber(e.before), after: renumber(e.after) },
      ),
      corners,
    );
  }

  /** No point of the edge is nearer than this. */
  private leastDistance(e: Edge, x: number, y: number): number {
    if (e.kind === "corner") {
      const c = this.corners[e.corner];
      return Math.hypot(x - c.reachX, y - c.reachY) - c.reach;
    }
    if (e.kind === "arc") return Math.abs(Math.hypot(x - e.cx, y - e.cy) - e.radius);
    const px = x - e.ax;
    const py = y - e.ay;
    const t = px * e.ux + py * e.uy;
    const over = t < 0 && !e.endless[0] ? -t : t > e.length && !e.endless[1] ? t - e.length : 0;
    return Math.hypot(over, px * e.uy - py * e.ux);
  }

  /** How far a point lies from the region whose nearest points can be on this edge: a slab for a line, a wedge for an arc. */
  private aside(e: Edge, x: number, y: number): number {
    if (e.kind === "line") {
      const t = (x - e.ax) * e.ux + (y - e.ay) * e.uy;
      if (t < 0) return e.endless[0] ? 0 : -t;
      return t > e.length && !e.endless[1] ? t - e.length : 0;
    }
    if (e.kind === "arc") return asideWedge(x - e.cx, y - e.cy, e.mx, e.my, e.half);
    // A growing corner's wedge is widest when it is fully grown and its centre furthest in.
    const c = this.corners[e.corner];
    return asideWedge(x - c.wedgeX, y - c.wedgeY, c.wedgeMx, c.wedgeMy, c.wedgeHalf);
  }

  /** Places the growing corners at a depth. Smoothstep, so that the wall has no kink where growth begins or ends. */
  private grow(depth: number): void {
    this.depth = depth;
    for (let i = 0; i < this.corners.length; i++) {
      const c = this.corners[i];
      const t = Math.min(1, Math.max(0, (depth - c.top) / (c.bottom - c.top)));
      const radius = c.from + (c.to - c.from) * t * t * (3 - 2 * t);
      const rate = ((c.to - c.from) * 6 * t * (1 - t)) / (c.bottom - c.top);
      placeCorner(c, radius, rate, this.now, i * STATE);
    }
  }
}

function note(distance: number, gx: number, gy: number, bend: number, perDepth: number): void {
  found.distance = distance;
  found.gx = gx;
  found.gy = gy;
  found.bend = bend;
  found.perDepth = perDepth;
}

const cross = (ax: number, ay: number, bx: number, by: number): number => ax * by - ay * bx;

/** +1 where the tangent point of a corner of this radius lies on the same side of the arc's centre as the corner's. */
const facing = (e: ArcEdge, radius: number): number => (e.sense < 0 || radius < e.radius ? 1 : -1);

function edgeOf(s: Segment, before: number, after: number, endless: [boolean, boolean]): LineEdge | ArcEdge {
  if (s.kind === "line") {
    return { kind: "line", ax: s.ax, ay: s.ay, ux: s.ux, uy: s.uy, length: s.length, endless, before, after };
  }
  const middle = s.start + s.sweep / 2;
  return {
    kind: "arc",
    cx: s.cx,
    cy: s.cy,
    radius: s.radius,
    sense: s.sweep > 0 ? 1 : -1,
    mx: Math.cos(middle),
    my: Math.sin(middle),
    half: Math.cos(Math.min(Math.PI, Math.abs(s.sweep) / 2)),
    before,
    after,
  };
}

/** Signed distance to an edge's carrier (the whole line or circle): value, then its gradient. */
function carrier(e: LineEdge | ArcEdge, x: number, y: number, out: Float64Array): void {
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

const p = new Float64Array(3);
const q = new Float64Array(3);
/**
 * The circle of `radius` inside both neighbours: its centre is at distance −radius from each carrier (Newton; exact in
 * one step between straight sides). Writes centre, radius, rate, dcentre/dradius, and the normals at its two ends.
 */
function placeCorner(c: BareCorner, radius: number, rate: number, out: Float64Array, at: number): void {
  let x = c.x0;
  let y = c.y0;
  const steps = c.prev.kind === "line" && c.next.kind === "line" ? 1 : 6;
  for (let i = 0; i < steps; i++) {
    carrier(c.prev, x, y, p);
    carrier(c.next, x, y, q);
    const det = p[1] * q[2] - p[2] * q[1];
    const a = p[0] + radius;
    const b = q[0] + radius;
    x -= (a * q[2] - b * p[2]) / det;
    y -= (b * p[1] - a * q[1]) / det;
    if (Math.abs(a) + Math.abs(b) < 1e-11) break;
  }
  carrier(c.prev, x, y, p);
  carrier(c.next, x, y, q);
  const det = p[1] * q[2] - p[2] * q[1];
  out[at] = x;
  out[at + 1] = y;
  out[at + 2] = radius;
  out[at + 3] = rate;
  out[at + 4] = -(q[2] - p[2]) / det;
  out[at + 5] = -(p[1] - q[1]) / det;
  out[at + 6] = p[1];
  out[at + 7] = p[2];
  out[at + 8] = q[1];
  out[at + 9] = q[2];
}

function boundsOf(c: BareCorner): Omit<Corner, keyof BareCorner> {
  const s = new Float64Array(STATE);
  placeCorner(c, c.to, 0, s, 0);
  const ends = [s[0] + c.to * s[6], s[1] + c.to * s[7], s[0] + c.to * s[8], s[1] + c.to * s[9]];
  const mx = s[6] + s[8];
  const my = s[7] + s[9];
  const m = Math.hypot(mx, my);
  return {
    reachX: (ends[0] + ends[2]) / 2,
    reachY: (ends[1] + ends[3]) / 2,
    reach: 1.5 * Math.hypot(ends[0] - ends[2], ends[1] - ends[3]),
    wedgeX: s[0],
    wedgeY: s[1],
    wedgeMx: mx / m,
    wedgeMy: my / m,
    wedgeHalf: m / 2,
  };
}

/** Distance of a point (from the apex) to the wedge about direction (mx, my) whose half angle has this cosine. */
function asideWedge(x: number, y: number, mx: number, my: number, half: number): number {
  const along = x * mx + y * my;
  const across = Math.abs(x * my - y * mx);
  const sine = Math.sqrt(Math.max(0, 1 - half * half));
  // Left of the wedge's edge ray (half, sine) is outside; behind its apex the apex is nearest.
  const out = across * half - along * sine;
  if (out <= 0) return 0;
  return along * half + across * sine > 0 ? out : Math.hypot(x, y);
}
