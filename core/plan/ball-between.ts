import { type Carrier, carrierNormal } from "./carrier.ts";

/**
 * The centres of the circles that lie inside two carriers and touch both: the medial line of the two, as a function of
 * the circle's radius. The centre c(r) solves d₁(c) = −r, d₂(c) = −r: a point of two lines or circles moved inwards by r.
 */
export interface BallBetween {
  /** Centre of the circle of radius r, or null where no such circle exists. */
  centre(r: number): [number, number] | null;
  /**
   * Change of the centre for each mm of radius, from ∇d₁·c′ = ∇d₂·c′ = −1. Infinite where the two normals oppose each
   * other, which is where r has its extremes.
   */
  rate(x: number, y: number): [number, number];
  /** The largest radius on this branch, where the circle spans between the carriers: Infinity when there is none. */
  readonly widest: number;
}

/** The branch of the medial line of two carriers that passes by the point (x, y). */
export function ballBetween(first: Carrier, second: Carrier, x: number, y: number): BallBetween {
  return {
    ...(first.kind === "line"
      ? second.kind === "line"
        ? betweenLines(first, second)
        : betweenLineAndCircle(first, second, x, y)
      : second.kind === "line"
        ? betweenLineAndCircle(second, first, x, y)
        : betweenCircles(first, second, x, y)),
    rate(cx, cy) {
      const [ax, ay] = carrierNormal(first, cx, cy);
      const [bx, by] = carrierNormal(second, cx, cy);
      const cross = ax * by - ay * bx;
      return [(ay - by) / cross, (bx - ax) / cross];
    },
  };
}

type Line = Extract<Carrier, { kind: "line" }>;
type Circle = Extract<Carrier, { kind: "circle" }>;
type Branch = Pick<BallBetween, "centre" | "widest">;

/** Two lines moved inwards by r meet in one point. */
function betweenLines(a: Line, b: Line): Branch {
  const cross = a.nx * b.ny - a.ny * b.nx;
  return {
    widest: Infinity,
    centre: (r) => {
      if (cross === 0) return null;
      const ka = a.at - r;
      const kb = b.at - r;
      return [(ka * b.ny - kb * a.ny) / cross, (kb * a.nx - ka * b.nx) / cross];
    },
  };
}

/**
 * The line moved inwards by r meets the circle of radius |ρ − r| about the circle's centre, ρ the signed radius. With D the
 * depth of the circle's centre inside the line, the two only touch where ρ − r = −(D − r), thus at r = (ρ + D)/2: the
 * widest circle when the arc turns inwards. Beside an arc that turns outwards the circle may grow without end.
 */
function betweenLineAndCircle(line: Line, circle: Circle, x: number, y: number): Branch {
  const { nx, ny } = line;
  const { cx, cy, signedRadius } = circle;
  const depth = line.at - (nx * cx + ny * cy);
  const side = Math.sign(ny * (x - cx) - nx * (y - cy)) || 1;
  return {
    widest: signedRadius > 0 ? (signedRadius + depth) / 2 : Infinity,
    centre: (r) => {
      const h = depth - r;
      // (ρ − r)² − (D − r)², written so that it does not lose figures near the widest circle.
      const square = (signedRadius - depth) * (signedRadius + depth - 2 * r);
      if (square < 0) return null;
      const s = side * Math.sqrt(square);
      return [cx + h * nx + s * ny, cy + h * ny - s * nx];
    },
  };
}

/**
 * Circles of radius |ρ₁ − r| and |ρ₂ − r| about the two centres, D apart, meet in two points on opposite sides of the line
 * of centres. They only touch where the radii differ by D or add up to D.
 */
function betweenCircles(a: Circle, b: Circle, x: number, y: number): Branch {
  const apart = Math.hypot(b.cx - a.cx, b.cy - a.cy);
  const ux = (b.cx - a.cx) / apart;
  const uy = (b.cy - a.cy) / apart;
  const side = Math.sign(ux * (y - a.cy) - uy * (x - a.cx)) || 1;
  const sum = a.signedRadius + b.signedRadius;
  const bothTurnIn = a.signedRadius > 0 && b.signedRadius > 0;
  const opposed = a.signedRadius * b.signedRadius < 0;
  return {
    widest: bothTurnIn ? (sum - apart) / 2 : opposed ? (sum + apart) / 2 : Infinity,
    centre: (r) => {
      if (apart === 0) return null;
      const ra = a.signedRadius - r;
      const rb = b.signedRadius - r;
      const along = (apart + ((ra - rb) * (ra + rb)) / apart) / 2;
      const square = (ra - along) * (ra + along);
      if (square < 0) return null;
      const s = side * Math.sqrt(square);
      return [a.cx + along * ux - s * uy, a.cy + along * uy + s * ux];
    },
  };
}
