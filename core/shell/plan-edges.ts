import type { Segment } from "../plan/chain.ts";
import type { GrowingCorner } from "./growing-corner.ts";

/** A straight piece of a chain, as its distance needs it. */
export interface LineEdge {
  readonly kind: "line";
  readonly ax: number;
  readonly ay: number;
  readonly ux: number;
  readonly uy: number;
  readonly length: number;
  /** An end of an open chain runs on for ever. */
  readonly endless: readonly [boolean, boolean];
  /** Growing corners that trim it before and after. */
  readonly before: GrowingCorner | null;
  readonly after: GrowingCorner | null;
  /** The part of it that no corner reaches at any depth, in distances from its beginning, mm. */
  readonly sure: readonly [number, number];
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
  readonly before: GrowingCorner | null;
  readonly after: GrowingCorner | null;
}

export interface CornerEdge {
  readonly kind: "corner";
  readonly corner: GrowingCorner;
}

export type Edge = LineEdge | ArcEdge | CornerEdge;

/** The edge of a segment, not trimmed by any corner yet. */
export function edgeOf(s: Segment, endless: readonly [boolean, boolean]): LineEdge | ArcEdge {
  if (s.kind === "line")
    return lineEdge({ ...s, endless }, null, null, [
      endless[0] ? -Infinity : 0,
      endless[1] ? Infinity : s.length,
    ]);
  const { cx, cy, radius } = s;
  const middle = s.start + s.sweep / 2;
  const half = Math.cos(Math.min(Math.PI, Math.abs(s.sweep) / 2));
  const sense = s.sweep > 0 ? 1 : -1;
  return arcEdge({ cx, cy, radius, sense, mx: Math.cos(middle), my: Math.sin(middle), half }, null, null);
}

/** The edge between the corners that grow at its ends. */
export function trimmed(
  e: LineEdge | ArcEdge,
  before: GrowingCorner | null,
  after: GrowingCorner | null,
): LineEdge | ArcEdge {
  if (e.kind === "arc") return arcEdge(e, before, after);
  const along = (x: number, y: number) => (x - e.ax) * e.ux + (y - e.ay) * e.uy;
  return lineEdge(e, before, after, [
    before ? along(before.widest[2], before.widest[3]) : e.sure[0],
    after ? along(after.widest[0], after.widest[1]) : e.sure[1],
  ]);
}

// Every line and every arc is made in one place each: objects made alike are read several times as fast as a mixture.

type Trim = GrowingCorner | null;

function lineEdge(
  { ax, ay, ux, uy, length, endless }: Omit<LineEdge, "kind" | "before" | "after" | "sure">,
  before: Trim,
  after: Trim,
  sure: readonly [number, number],
): LineEdge {
  return { kind: "line", ax, ay, ux, uy, length, endless, before, after, sure };
}

function arcEdge(
  { cx, cy, radius, sense, mx, my, half }: Omit<ArcEdge, "kind" | "before" | "after">,
  before: Trim,
  after: Trim,
): ArcEdge {
  return { kind: "arc", cx, cy, radius, sense, mx, my, half, before, after };
}

/** No point of the edge is nearer than this to (x, y). */
export function leastDistance(e: Edge, x: number, y: number): number {
  if (e.kind === "corner") return length(x - e.corner.reachX, y - e.corner.reachY) - e.corner.reach;
  if (e.kind === "arc") return Math.abs(length(x - e.cx, y - e.cy) - e.radius);
  const px = x - e.ax;
  const py = y - e.ay;
  const t = px * e.ux + py * e.uy;
  const over = t < 0 && !e.endless[0] ? -t : t > e.length && !e.endless[1] ? t - e.length : 0;
  return length(over, px * e.uy - py * e.ux);
}

/** Math.hypot is several times as slow. */
const length = (x: number, y: number): number => Math.sqrt(x * x + y * y);

/** How far a point lies from the region whose nearest points can be on this edge: a slab for a line, a wedge for an arc. */
export function aside(e: Edge, x: number, y: number): number {
  if (e.kind === "line") {
    const t = (x - e.ax) * e.ux + (y - e.ay) * e.uy;
    if (t < 0) return e.endless[0] ? 0 : -t;
    return t > e.length && !e.endless[1] ? t - e.length : 0;
  }
  if (e.kind === "arc") return asideWedge(x - e.cx, y - e.cy, e.mx, e.my, e.half);
  const c = e.corner;
  return asideWedge(x - c.wedgeX, y - c.wedgeY, c.wedgeMx, c.wedgeMy, c.wedgeHalf);
}

/** Distance of a point (from the apex) to the wedge about direction (mx, my) whose half angle has this cosine. */
function asideWedge(x: number, y: number, mx: number, my: number, half: number): number {
  const along = x * mx + y * my;
  const across = Math.abs(x * my - y * mx);
  const sine = Math.sqrt(Math.max(0, 1 - half * half));
  // Left of the wedge's edge ray (half, sine) is outside; behind its apex the apex is nearest.
  const out = across * half - along * sine;
  if (out <= 0) return 0;
  return along * half + across * sine > 0 ? out : length(x, y);
}
