import type { Chain, Segment } from "./chain.ts";

/** The endless line or the full circle that a segment lies on, with the side that is inside (its left). */
export type Carrier =
  | {
      readonly kind: "line";
      /** Unit normal to the right (outside); the line is nx·x + ny·y = at. */
      readonly nx: number;
      readonly ny: number;
      readonly at: number;
    }
  | {
      readonly kind: "circle";
      readonly cx: number;
      readonly cy: number;
      /** Radius with the sign of the turn: positive counter-clockwise, when the inside of the circle is inside. */
      readonly signedRadius: number;
    };

export function carrierOf(segment: Segment): Carrier {
  if (segment.kind === "line") {
    const { ax, ay, ux, uy } = segment;
    return { kind: "line", nx: uy, ny: -ux, at: ax * uy - ay * ux };
  }
  const { cx, cy, radius, sweep } = segment;
  return { kind: "circle", cx, cy, signedRadius: Math.sign(sweep) * radius };
}

/** Signed distance (mm) from a carrier, negative inside. */
export function carrierDistance(carrier: Carrier, x: number, y: number): number {
  if (carrier.kind === "line") return carrier.nx * x + carrier.ny * y - carrier.at;
  const { cx, cy, signedRadius } = carrier;
  return Math.sign(signedRadius) * (Math.hypot(x - cx, y - cy) - Math.abs(signedRadius));
}

/** Unit gradient of `carrierDistance`: the way out of the inside. Undefined at a circle's centre. */
export function carrierNormal(carrier: Carrier, x: number, y: number): [number, number] {
  if (carrier.kind === "line") return [carrier.nx, carrier.ny];
  const dx = x - carrier.cx;
  const dy = y - carrier.cy;
  const reach = Math.sign(carrier.signedRadius) * Math.hypot(dx, dy);
  return [dx / reach, dy / reach];
}

/**
 * Circles whose centres are this near (mm) and that touch are the same circle: the way from one centre to the other is noise,
 * and whichever way is taken, the touching point is no further than this from both.
 */
const CONCENTRIC = 3e-7;

/** The unit vector from a circle's centre to where it touches the carrier; at the centre of a round carrier, to the joint. */
export function carrierTouch(
  carrier: Carrier,
  x: number,
  y: number,
  joint: { tx: number; ty: number },
): [number, number] {
  const concentric = carrier.kind === "circle" && Math.hypot(x - carrier.cx, y - carrier.cy) < CONCENTRIC;
  return concentric ? [joint.ty, -joint.tx] : carrierNormal(carrier, x, y);
}

/** Distance along a carrier, in its direction of travel, from one point on it to another (the short way round a circle). */
export function carrierTravel(carrier: Carrier, ax: number, ay: number, bx: number, by: number): number {
  if (carrier.kind === "line") return (by - ay) * carrier.nx - (bx - ax) * carrier.ny;
  const px = ax - carrier.cx;
  const py = ay - carrier.cy;
  const qx = bx - carrier.cx;
  const qy = by - carrier.cy;
  return carrier.signedRadius * Math.atan2(px * qy - py * qx, px * qx + py * qy);
}

/** Two segments lie on one carrier, as after a split. Compares to 1e-7 mm and 1e-9 of direction. */
function sameCarrier(a: Segment, b: Segment): boolean {
  if (a.kind === "line" && b.kind === "line") {
    const along = a.ux * b.ux + a.uy * b.uy;
    const apart = (b.ax - a.ax) * a.uy - (b.ay - a.ay) * a.ux;
    return along > 0 && Math.abs(a.ux * b.uy - a.uy * b.ux) < 1e-9 && Math.abs(apart) < 1e-7;
  }
  if (a.kind === "arc" && b.kind === "arc") {
    const off = Math.abs(a.cx - b.cx) + Math.abs(a.cy - b.cy) + Math.abs(a.radius - b.radius);
    return off < 1e-7 && a.sweep * b.sweep > 0;
  }
  return false;
}

/**
 * The segments about `index` that lie on one carrier with it, in order along the chain. On a closed chain they may run
 * past the last segment; a chain that is a single circle gives all its segments, from the first.
 */
export function onOneCarrier(chain: Chain, index: number): number[] {
  const { segments, closed } = chain;
  const count = segments.length;
  const goesOn = (from: number, to: number) =>
    (closed || (from >= 0 && to < count)) &&
    sameCarrier(segments[(from + count) % count], segments[(to + count) % count]);
  let first = index;
  while (first > index - count && goesOn(first - 1, first)) first--;
  if (first === index - count) return segments.map((_, i) => i);
  let last = index;
  while (goesOn(last, last + 1)) last++;
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i + count) % count);
}
