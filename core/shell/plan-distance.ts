/**
 * Signed distance to a chain of lines and arcs in its own plane: positive on the right of the chain (outside a
 * counter-clockwise outline), negative on the left. Corners of a closed outline may grow with depth: see `GrowingCorner`.
 */
import type { Arc, Chain } from "../plan/chain.ts";
import { GrowingCorner, type Growth } from "./growing-corner.ts";
import {
  type ArcEdge,
  aside,
  type Edge,
  edgeOf,
  type LineEdge,
  leastDistance,
  trimmed,
} from "./plan-edges.ts";

/** What the last distance found: read it at once. */
export const found = {
  distance: 0,
  /** Gradient in the plane: of unit length but where a corner grows. */
  gx: 0,
  gy: 0,
  /** Change of distance per mm of depth (only where a corner grows). */
  perDepth: 0,
  /** Curvature of the level line there, signed so that the Hessian is bend·t·tᵀ with t = (−gy, gx). */
  bend: 0,
};

/** Slack on the ends of segments, mm: joints overlap by this much rather than gape. */
const SLACK = 1e-7;

export class PlanDistance {
  /** Parts made so far, by the set of their edges. */
  private readonly parts = new Map<number, PlanDistance>();

  private readonly edges: readonly Edge[];
  private readonly grows: boolean;
  /** Of the draft of the wall that stands on the chain; only growing corners ask for it. */
  private readonly sin: number;
  private readonly cos: number;

  private constructor(edges: readonly Edge[], sin: number, cos: number) {
    this.edges = edges;
    this.grows = edges.some((e) => e.kind === "corner" || e.before !== null || e.after !== null);
    this.sin = sin;
    this.cos = cos;
  }

  /** `draft`, radians: of the wall whose corners grow. */
  static of(chain: Chain, growths: readonly Growth[] = [], draft = 0): PlanDistance {
    const n = chain.segments.length;
    const plain = chain.segments.map((s, i) =>
      edgeOf(s, [!chain.closed && i === 0, !chain.closed && i === n - 1]),
    );
    const corners = new Map(
      growths.map((g) => {
        const { cx, cy } = chain.segments[g.segment] as Arc;
        const [prev, next] = [plain[(g.segment + n - 1) % n], plain[(g.segment + 1) % n]];
        return [g.segment, new GrowingCorner(g, prev, next, cx, cy, draft)];
      }),
    );
    const edges = plain.map((e, i): Edge => {
      const corner = corners.get(i);
      if (corner) return { kind: "corner", corner };
      return trimmed(e, corners.get((i + n - 1) % n) ?? null, corners.get((i + 1) % n) ?? null);
    });
    return new PlanDistance(edges, Math.sin(draft), Math.cos(draft));
  }

  /**
   * Distance at (x, y) at a depth below the rim, mm; gradient and curvature in `found`. A drafted wall is
   * f = cos δ·d + sin δ·depth; on a growing corner d is what makes f the true distance.
   */
  at(x: number, y: number, depth: number): number {
    this.find(x, y, depth);
    return found.distance;
  }

  /** Apart from `at`, which is short enough to be taken into its callers: else each distance would be put on the heap. */
  private find(x: number, y: number, depth: number): void {
    let best = Infinity;
    for (const e of this.edges) {
      if (e.kind === "line") {
        const px = x - e.ax;
        const py = y - e.ay;
        const d = px * e.uy - py * e.ux;
        const size = Math.abs(d);
        if (size >= best) continue;
        const t = px * e.ux + py * e.uy;
        if (t < e.sure[0] - SLACK) {
          if (!e.before) continue;
          e.before.at(this.footDepth(d, depth));
          if ((x - e.before.x) * e.ux + (y - e.before.y) * e.uy < -SLACK) continue;
        }
        if (t > e.sure[1] + SLACK) {
          if (!e.after) continue;
          e.after.at(this.footDepth(d, depth));
          if ((x - e.after.x) * e.ux + (y - e.after.y) * e.uy > SLACK) continue;
        }
        best = size;
        note(d, e.uy, -e.ux, 0, 0);
      } else if (e.kind === "arc") {
        const px = x - e.cx;
        const py = y - e.cy;
        const l = Math.sqrt(px * px + py * py);
        const d = e.sense * (l - e.radius);
        const size = Math.abs(d);
        if (size >= best || px * e.mx + py * e.my < l * e.half - SLACK) continue;
        if (e.before) {
          e.before.at(this.footDepth(d, depth));
          if (beyond(e, e.before, px, py) < -SLACK * l) continue;
        }
        if (e.after) {
          e.after.at(this.footDepth(d, depth));
          if (beyond(e, e.after, px, py) > SLACK * l) continue;
        }
        best = size;
        const q = l > 1e-9 ? e.sense / l : 0;
        note(d, px * q, py * q, q, 0);
      } else {
        const c = e.corner;
        if (aside(e, x, y) > SLACK || !c.nearest(x, y, depth)) continue;
        const d = (c.distance - this.sin * depth) / this.cos;
        const size = Math.abs(d);
        if (size >= best) continue;
        best = size;
        note(d, c.gx / this.cos, c.gy / this.cos, c.bend / this.cos, (c.gDepth - this.sin) / this.cos);
      }
    }
    if (best === Infinity) this.unclaimed(x, y, depth);
  }

  /**
   * Past the centre of a growing corner, far from the wall, there are points whose foot neither the arc nor its neighbours
   * have: each sees another depth of the corner. The nearest neighbour runs on for them, or else the circle at their own depth.
   */
  private unclaimed(x: number, y: number, depth: number): void {
    let best = Infinity;
    for (const e of this.edges) {
      // An arc that is no neighbour, taken for its whole circle, may pass close by where there is no wall at all.
      if (e.kind === "corner" || (this.grows && !e.before && !e.after)) continue;
      const line = e.kind === "line";
      const px = x - (line ? e.ax : e.cx);
      const py = y - (line ? e.ay : e.cy);
      const l = Math.sqrt(px * px + py * py);
      const d = line ? px * e.uy - py * e.ux : e.sense * (l - e.radius);
      if (Math.abs(d) >= best) continue;
      best = Math.abs(d);
      const q = line || l < 1e-9 ? 0 : e.sense / l;
      note(d, line ? e.uy : px * q, line ? -e.ux : py * q, q, 0);
    }
    if (best < Infinity) return;
    for (const e of this.edges) {
      if (e.kind !== "corner") continue;
      e.corner.at(depth);
      const px = x - e.corner.x;
      const py = y - e.corner.y;
      const l = Math.max(Math.sqrt(px * px + py * py), 1e-9);
      const d = l - e.corner.radius;
      if (Math.abs(d) >= best) continue;
      best = Math.abs(d);
      note(d, px / l, py / l, 1 / l, 0);
    }
  }

  /** Depth of the foot of a perpendicular from a point at a depth to a drafted face at plan distance d. */
  private footDepth(d: number, depth: number): number {
    return this.cos * (this.cos * depth - this.sin * d);
  }

  /** The one straight line left, or null. */
  onlyLine(): LineEdge | null {
    return this.edges.length === 1 && this.edges[0].kind === "line" ? this.edges[0] : null;
  }

  /** The same distances within `radius` of a point, from fewer segments. */
  within(x: number, y: number, depth: number, radius: number): PlanDistance {
    if (this.edges.length === 1) return this;
    // Moving by the radius changes the distance by as much, and a growing corner by no more again.
    const bound = Math.abs(this.at(x, y, depth)) + (this.grows ? 3 : 2) * radius + 1;
    let mask = 0;
    let kept = 0;
    for (let i = 0; i < this.edges.length; i++) {
      const e = this.edges[i];
      if (leastDistance(e, x, y) > bound || aside(e, x, y) > radius + SLACK) continue;
      kept++;
      // Beyond 50 edges a number is no set any more; those are not remembered.
      mask += i < 50 ? 2 ** i : Number.NaN;
    }
    if (kept === this.edges.length || kept === 0) return this;
    const known = this.parts.get(mask);
    if (known) return known;
    const part = new PlanDistance(
      this.edges.filter((e) => leastDistance(e, x, y) <= bound && aside(e, x, y) <= radius + SLACK),
      this.sin,
      this.cos,
    );
    if (!Number.isNaN(mask)) this.parts.set(mask, part);
    return part;
  }
}

function note(distance: number, gx: number, gy: number, bend: number, perDepth: number): void {
  found.distance = distance;
  found.gx = gx;
  found.gy = gy;
  found.bend = bend;
  found.perDepth = perDepth;
}

/** Positive beyond the tangent point of a corner next to an arc, in the arc's direction; (px, py) from its centre. */
function beyond(e: ArcEdge, c: GrowingCorner, px: number, py: number): number {
  const side = e.sense < 0 || c.radius < e.radius ? e.sense : -e.sense;
  return side * ((c.x - e.cx) * py - (c.y - e.cy) * px);
}
