import type { SurfaceCurve } from "../../core/surface/curve.ts";

/** Straight and curved pieces of a plane curve, tangent to each other: a length, and a signed turn (0 = straight). */
export interface Piece {
  readonly length: number;
  /** Radians, positive to the left. */
  readonly turn: number;
}

interface Placed extends Piece {
  readonly x: number;
  readonly y: number;
  readonly heading: number;
  readonly station: number;
}

/** A plane curve of lines and arcs with exact points, and the exact distance to it: the oracle for strips. */
export class PlanarChain {
  readonly pieces: Placed[] = [];
  readonly length: number;

  constructor(pieces: readonly Piece[], x = 0, y = 0, heading = 0) {
    let station = 0;
    for (const piece of pieces) {
      const placed = { ...piece, x, y, heading, station };
      this.pieces.push(placed);
      ({ x, y, heading } = at(placed, piece.length));
      station += piece.length;
    }
    this.length = station;
  }

  pointAt(station: number): { x: number; y: number; heading: number } {
    const piece = this.pieces.findLast((p) => p.station <= station) ?? this.pieces[0];
    return at(piece, station - piece.station);
  }

  /** Stations at most `step` apart, every joint among them. */
  stations(step: number): number[] {
    const out = [0];
    for (const p of this.pieces) {
      const spans = Math.max(1, Math.ceil(p.length / step));
      for (let i = 1; i <= spans; i++) out.push(p.station + (p.length * i) / spans);
    }
    return out;
  }

  /** Least distance from (x, y) to the curve reached square to it; Infinity if none. Its ends do not count. */
  distance(x: number, y: number): number {
    let best = Infinity;
    for (const p of this.pieces) best = Math.min(best, footDistance(p, x, y));
    return best;
  }

  private endDistance(x: number, y: number): number {
    const end = this.pointAt(this.length);
    return Math.min(Math.hypot(x - this.pieces[0].x, y - this.pieces[0].y), Math.hypot(x - end.x, y - end.y));
  }

  /**
   * Area within `h` of the curve, by cutting the plane into small squares: no geodesic has a part in it. A band ends square,
   * which leaves it open whether points count that lie square to some part of the curve but nearer to one of its ends: two
   * areas, without and with them.
   */
  areaWithin(h: number, step: number): { without: number; with: number } {
    const outline = this.stations(50).map((s) => this.pointAt(s));
    const low = [
      Math.min(...outline.map((p) => p.x)) - h - step,
      Math.min(...outline.map((p) => p.y)) - h - step,
    ];
    const high = [
      Math.max(...outline.map((p) => p.x)) + h + step,
      Math.max(...outline.map((p) => p.y)) + h + step,
    ];
    const area = { without: 0, with: 0 };
    for (let x = low[0]; x < high[0]; x += step) {
      for (let y = low[1]; y < high[1]; y += step) this.addSquare(x, y, step, h, 4, area);
    }
    return area;
  }

  /** Adds what lies inside of a square, quartered where its middle is not clearly in or out. */
  private addSquare(
    x: number,
    y: number,
    size: number,
    h: number,
    depth: number,
    area: { without: number; with: number },
  ): void {
    const [mx, my] = [x + size / 2, y + size / 2];
    const d = this.distance(mx, my);
    const end = this.endDistance(mx, my);
    // Distances change by no more than the way gone; only a foot that appears or vanishes jumps, and those lie on known lines.
    const reach = size * Math.SQRT1_2;
    const clear =
      Math.abs(d - h) > reach && Math.abs(d - end) > 2 * reach && !this.nearSquareEnd(mx, my, reach);
    if (!clear && depth > 0) {
      const half = size / 2;
      for (const [i, j] of [
        [0, 0],
        [1, 0],
        [0, 1],
        [1, 1],
      ])
        this.addSquare(x + i * half, y + j * half, half, h, depth - 1, area);
      return;
    }
    if (d > h) return;
    area.with += size * size;
    if (d <= end) area.without += size * size;
  }

  /** Whether a point lies near one of the lines square to a piece at its two ends, where its foot on that piece comes or goes. */
  private nearSquareEnd(x: number, y: number, reach: number): boolean {
    return this.pieces.some((p) =>
      [0, p.length].some((s) => {
        const q = at(p, s);
        return Math.abs((x - q.x) * Math.cos(q.heading) + (y - q.y) * Math.sin(q.heading)) < reach;
      }),
    );
  }
}

function at(p: Placed, s: number): { x: number; y: number; heading: number } {
  if (p.turn === 0) {
    return { x: p.x + s * Math.cos(p.heading), y: p.y + s * Math.sin(p.heading), heading: p.heading };
  }
  const radius = p.length / p.turn;
  const heading = p.heading + s / radius;
  return {
    x: p.x + radius * (Math.sin(heading) - Math.sin(p.heading)),
    y: p.y - radius * (Math.cos(heading) - Math.cos(p.heading)),
    heading,
  };
}

function footDistance(p: Placed, x: number, y: number): number {
  if (p.turn === 0) {
    const dx = x - p.x;
    const dy = y - p.y;
    const along = dx * Math.cos(p.heading) + dy * Math.sin(p.heading);
    return along < 0 || along > p.length
      ? Infinity
      : Math.abs(dy * Math.cos(p.heading) - dx * Math.sin(p.heading));
  }
  const radius = p.length / p.turn;
  const cx = p.x - radius * Math.sin(p.heading);
  const cy = p.y + radius * Math.cos(p.heading);
  const rho = Math.hypot(x - cx, y - cy);
  const r = Math.abs(radius);
  // Angle of the point about the centre, counted from the start in the sense of the turn.
  const angle = Math.atan2(y - cy, x - cx);
  const start = p.heading - (Math.sign(p.turn) * Math.PI) / 2;
  const turned = (a: number) => {
    const full = 2 * Math.PI;
    return ((((a - start) * Math.sign(p.turn)) % full) + full) % full;
  };
  // Past the centre the ends of the arc are nearer than its far side.
  return turned(angle) <= Math.abs(p.turn) ? Math.abs(rho - r) : Infinity;
}

/** A point and unit normal (into the ground) of a surface, and its two directions for the plane's x and y: an isometry. */
export interface Wrapped {
  readonly p: readonly number[];
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly n: readonly number[];
}

/** The chain laid on a surface that unrolls to the plane; x × y = n keeps left as left. */
export function wrapChain(
  chain: PlanarChain,
  step: number,
  wrap: (x: number, y: number) => Wrapped,
): SurfaceCurve {
  const stations = chain.stations(step);
  const points: number[] = [];
  const tangents: number[] = [];
  const normals: number[] = [];
  for (const s of stations) {
    const { x, y, heading } = chain.pointAt(s);
    const w = wrap(x, y);
    for (let k = 0; k < 3; k++) {
      points.push(w.p[k]);
      tangents.push(Math.cos(heading) * w.x[k] + Math.sin(heading) * w.y[k]);
      normals.push(w.n[k]);
    }
  }
  return {
    points: Float64Array.from(points),
    tangents: Float64Array.from(tangents),
    normals: Float64Array.from(normals),
    stations: Float64Array.from(stations),
    length: chain.length,
    closed: false,
  };
}

export const flat = (x: number, y: number): Wrapped => ({
  p: [x, y, 0],
  x: [1, 0, 0],
  y: [0, 1, 0],
  n: [0, 0, 1],
});

/** Cylinder about the x axis, ground outside: y runs round it. */
export const roundCylinder =
  (radius: number) =>
  (x: number, y: number): Wrapped => {
    const a = -y / radius;
    return {
      p: [x, radius * Math.sin(a), -radius * Math.cos(a)],
      x: [1, 0, 0],
      y: [0, -Math.cos(a), -Math.sin(a)],
      n: [0, Math.sin(a), -Math.cos(a)],
    };
  };

/** Cone of `cone(half)`: the plane's origin lies `reach` from the apex, y towards it turned away. */
export const roundCone =
  (half: number, reach: number) =>
  (x: number, y: number): Wrapped => {
    const r = Math.hypot(x, y + reach);
    const flatAngle = Math.atan2(x, y + reach);
    const a = flatAngle / Math.sin(half);
    const [s, c] = [Math.sin(half), Math.cos(half)];
    const away = [s * Math.cos(a), s * Math.sin(a), c];
    const round = [-Math.sin(a), Math.cos(a), 0];
    const mix = (u: number, v: number) => away.map((w, k) => u * w + v * round[k]);
    return {
      p: away.map((w) => r * w),
      x: mix(Math.sin(flatAngle), Math.cos(flatAngle)),
      y: mix(Math.cos(flatAngle), -Math.sin(flatAngle)),
      n: [c * Math.cos(a), c * Math.sin(a), -s],
    };
  };

/** Floor and plumb wall joined by a cove of `dihedral(radius)`: the plane's y = 0 is the middle of the cove. */
export const roundCove =
  (radius: number) =>
  (x: number, y: number): Wrapped => {
    const s = (radius * Math.PI) / 4 - y;
    const a = Math.max(0, Math.min(Math.PI / 2, s / radius));
    const over = s - radius * a;
    const [c, d] = [Math.cos(a), Math.sin(a)];
    return {
      p: [x, -radius + radius * d + over * c, radius - radius * c + over * d],
      x: [1, 0, 0],
      y: [0, -c, -d],
      n: [0, d, -c],
    };
  };
