import type { Field } from "../../core/surface/field.ts";

/** Fields with closed forms for the mesh tests. Air (negative) inside, ground outside; signed distances unless said so. */

type Point = readonly [number, number, number];
type Distance = (x: number, y: number, z: number, gradient: Float64Array) => number;

function oneFace(distance: Distance, min: Point, max: Point): Field {
  const gradient = new Float64Array(3);
  const shares = new Float64Array([1]);
  const field: Field = {
    evaluate: (x, y, z) => distance(x, y, z, gradient),
    gradient,
    shares: () => shares,
    faces: ["skin"],
    owner: () => 0,
    within: () => field,
    bounds: { min, max },
    edge: null,
  };
  return field;
}

export function sphere(radius: number, [cx, cy, cz]: Point = [0, 0, 0]): Field {
  return oneFace(
    (x, y, z, g) => {
      const r = Math.hypot(x - cx, y - cy, z - cz);
      const s = r > 0 ? 1 / r : 0;
      g[0] = (x - cx) * s;
      g[1] = (y - cy) * s;
      g[2] = (z - cz) * s;
      return r - radius;
    },
    [cx - radius, cy - radius, cz - radius],
    [cx + radius, cy + radius, cz + radius],
  );
}

/** Tube of radius `tube` round a circle of radius `ring` about the z axis. */
export function torus(ring: number, tube: number): Field {
  return oneFace(
    (x, y, z, g) => {
      const rho = Math.hypot(x, y);
      const a = rho - ring;
      const r = Math.hypot(a, z);
      g[0] = rho > 0 && r > 0 ? ((a / r) * x) / rho : 0;
      g[1] = rho > 0 && r > 0 ? ((a / r) * y) / rho : 0;
      g[2] = r > 0 ? z / r : 1;
      return r - tube;
    },
    [-ring - tube, -ring - tube, -tube],
    [ring + tube, ring + tube, tube],
  );
}

/** Closed cylinder about the z axis between z = ±half, its edges rounded by `round` (0: sharp edges, a crease). */
export function cappedCylinder(radius: number, half: number, round: number): Field {
  const gradient = new Float64Array(3);
  const shares = new Float64Array(2);
  const parts = (x: number, y: number, z: number): number => {
    const rho = Math.hypot(x, y);
    const u = rho - radius + round;
    const v = Math.abs(z) - half + round;
    const ux = rho > 0 ? x / rho : 0;
    const uy = rho > 0 ? y / rho : 0;
    const vz = z < 0 ? -1 : 1;
    if (round > 0 && u > 0 && v > 0) {
      const d = Math.hypot(u, v);
      gradient[0] = (ux * u) / d;
      gradient[1] = (uy * u) / d;
      gradient[2] = (vz * v) / d;
      shares[0] = u / (u + v);
      shares[1] = v / (u + v);
      return d - round;
    }
    const side = u >= v;
    gradient[0] = side ? ux : 0;
    gradient[1] = side ? uy : 0;
    gradient[2] = side ? 0 : vz;
    shares[0] = side ? 1 : 0;
    shares[1] = side ? 0 : 1;
    return Math.max(u, v) - round;
  };
  const field: Field = {
    evaluate: parts,
    gradient,
    shares: (x, y, z) => {
      parts(x, y, z);
      return shares;
    },
    faces: ["side", "cap"],
    owner: (s) => (s[0] >= s[1] ? 0 : 1),
    within: () => field,
    bounds: { min: [-radius, -radius, -half], max: [radius, radius, half] },
    edge: null,
  };
  return field;
}

export interface Basin {
  /** Of the rim's outline in plan, mm. */
  readonly length: number;
  readonly width: number;
  readonly corner: number;
  readonly depth: number;
  /** Radius between wall and floor. */
  readonly cove: number;
  /** Radius between wall and coping. */
  readonly rim: number;
  /** From the outline to the plumb lip. */
  readonly flange: number;
  /** Radius between coping and lip; the lip ends `drop` below the rim. */
  readonly roll: number;
  readonly drop: number;
}

export const FULL_SIZE: Basin = {
  length: 9100,
  width: 3800,
  corner: 400,
  depth: 2000,
  cove: 200,
  rim: 25,
  flange: 150,
  roll: 20,
  drop: 45,
};

const WALL = 0;
const FLOOR = 1;
const COPING = 2;
const LIP = 3;

/**
 * A level basin with plumb walls, a flat coping and a plumb lip: the outline is a rectangle with round corners, x from 0
 * to length, y about 0, rim at z = 0. Every round is a rolling ball's.
 */
export function basin(b: Basin): Field {
  const gradient = new Float64Array(3);
  const shares = new Float64Array(4);
  const hx = b.length / 2 - b.corner;
  const hy = b.width / 2 - b.corner;
  let gx = 0;
  let gy = 0;
  /** Distance from the outline in plan; direction left in gx, gy. */
  const plan = (x: number, y: number): number => {
    const px = Math.abs(x - b.length / 2) - hx;
    const py = Math.abs(y) - hy;
    const sx = x < b.length / 2 ? -1 : 1;
    const sy = y < 0 ? -1 : 1;
    if (px > 0 && py > 0) {
      const d = Math.sqrt(px * px + py * py);
      gx = (sx * px) / d;
      gy = (sy * py) / d;
      return d - b.corner;
    }
    gx = px > py ? sx : 0;
    gy = px > py ? 0 : sy;
    return Math.max(px, py) - b.corner;
  };
  /** Both operands' gradients are square to each other or meet nowhere near: the square-corner ball is exact. */
  const ball = (u: number, v: number, r: number): number =>
    u > -r && v > -r ? Math.sqrt((u + r) ** 2 + (v + r) ** 2) - r : Math.max(u, v);

  const evaluate = (x: number, y: number, z: number): number => {
    const d = plan(x, y);
    const floor = -z - b.depth;
    const pool = ball(d, floor, b.cove);
    const ground = ball(-pool, z, b.rim);
    const lip = d - b.flange;
    const f = -ball(ground, lip, b.roll);
    // Weights of plan direction (w) and of z in the gradient, from the outermost ball inwards.
    const [wg, wl] = split(ground, lip, b.roll);
    const [wp, wt] = split(-pool, z, b.rim);
    const [wd, wf] = split(d, floor, b.cove);
    const p = wg * wp;
    const w = p * wd - wl;
    gradient[0] = w * gx;
    gradient[1] = w * gy;
    gradient[2] = -p * wf - wg * wt;
    shares[WALL] = share(wg, wl) * share(wp, wt) * share(wd, wf);
    shares[FLOOR] = share(wg, wl) * share(wp, wt) * share(wf, wd);
    shares[COPING] = share(wg, wl) * share(wt, wp);
    shares[LIP] = share(wl, wg);
    return f;
  };
  const pair: [number, number] = [0, 0];
  const split = (u: number, v: number, r: number): readonly [number, number] => {
    if (u > -r && v > -r) {
      const d = Math.sqrt((u + r) ** 2 + (v + r) ** 2);
      return [(u + r) / d, (v + r) / d];
    }
    pair[0] = u >= v ? 1 : 0;
    pair[1] = 1 - pair[0];
    return [pair[0], pair[1]];
  };
  const share = (mine: number, other: number): number => mine / (mine + other);

  const field: Field = {
    evaluate,
    gradient,
    shares: (x, y, z) => {
      evaluate(x, y, z);
      return shares;
    },
    faces: ["wall", "floor", "coping", "lip"],
    owner: (s) => {
      let most = 0;
      for (let i = 1; i < 4; i++) if (s[i] > s[most]) most = i;
      return most;
    },
    within: () => field,
    bounds: {
      min: [-b.flange, -b.width / 2 - b.flange, -b.depth],
      max: [b.length + b.flange, b.width / 2 + b.flange, 0],
    },
    edge: {
      gradient: new Float64Array(3),
      evaluate(x, y, z) {
        const outward = plan(x, y) - b.flange / 2;
        const down = -z - b.drop;
        const outside = down > outward;
        this.gradient[0] = outside ? gx : 0;
        this.gradient[1] = outside ? gy : 0;
        this.gradient[2] = outside ? 0 : -1;
        return Math.min(outward, down);
      },
    },
  };
  return field;
}

/** Areas and volumes of `basin` by Pappus, mm² and mm³. */
export function basinFigures(b: Basin) {
  const straight = 2 * (b.length + b.width) - 8 * b.corner;
  const turn = 2 * Math.PI;
  /** Plan area and length of the outline moved outwards by `o`. */
  const planArea = (o: number) =>
    (b.length + 2 * o) * (b.width + 2 * o) - (4 - Math.PI) * (b.corner + o) * (b.corner + o);
  const round = (o: number) => straight + turn * (b.corner + o);
  /** Half a quarter round of radius r: about the plan offset o of its axis, from t0 to t1 (0: outwards, π/2: up or down). */
  const arc = (o: number, r: number, t0: number, t1: number) =>
    r * (t1 - t0) * round(o) + turn * r * r * (Math.sin(t1) - Math.sin(t0));
  const q = Math.PI / 4;
  const cove = (t0: number, t1: number) => arc(-b.cove, b.cove, t0, t1);
  const rim = (t0: number, t1: number) => arc(b.rim, b.rim, t0, t1);
  const roll = (t0: number, t1: number) => arc(b.flange - b.roll, b.roll, t0, t1);
  const area = [
    round(0) * (b.depth - b.cove - b.rim) + cove(0, q) + rim(3 * q, 4 * q),
    planArea(-b.cove) + cove(q, 2 * q),
    planArea(b.flange - b.roll) - planArea(b.rim) + rim(2 * q, 3 * q) + roll(q, 2 * q),
    round(b.flange) * (b.drop - b.roll) + roll(0, q),
  ];
  /** Plan area swept under a quarter round, integrated over depth: ∫ planArea(o + r cos t) r cos t dt. */
  const under = (o: number, r: number, sense: 1 | -1): number => {
    const n = 2000;
    let sum = 0;
    for (let i = 0; i <= n; i++) {
      const t = ((Math.PI / 2) * i) / n;
      const weight = i === 0 || i === n ? 1 : i % 2 ? 4 : 2;
      sum += weight * planArea(o + sense * r * Math.cos(t)) * r * Math.cos(t);
    }
    return (sum * Math.PI) / 2 / n / 3;
  };
  /** Volume of water to a level (≤ 0) below the rim's round, or 0 for the rim itself. */
  const volume = (level: number): number => {
    const coves = under(-b.cove, b.cove, 1);
    const low = -b.depth + b.cove;
    if (level === 0) return coves + planArea(0) * (-b.rim - low) + under(b.rim, b.rim, -1);
    return coves + planArea(0) * (level - low);
  };
  return { area, total: area.reduce((a, c) => a + c, 0), volume, planArea, cutLength: round(b.flange) };
}

/** A slab of ground `thick` mm thick with rounded edges, 1 m square, hanging in the air. */
export function slab(thick: number): Field {
  const r = thick / 2;
  return oneFace(
    (x, y, z, g) => {
      const px = Math.max(Math.abs(x) - 500, 0) * Math.sign(x);
      const py = Math.max(Math.abs(y) - 500, 0) * Math.sign(y);
      const d = Math.hypot(px, py, z);
      const s = d > 0 ? -1 / d : 0;
      g[0] = px * s;
      g[1] = py * s;
      g[2] = d > 0 ? z * s : -1;
      return r - d;
    },
    [-500 - r, -500 - r, -r],
    [500 + r, 500 + r, r],
  );
}

/**
 * Air between two upright walls that meet at `openingDeg`, 900 mm deep and 400 mm high, with `radius` mm all round: a ball rolled
 * over a three-sided prism, so that the distance is that to the prism.
 */
export function wedge(openingDeg: number, radius: number): Field {
  const half = (openingDeg * Math.PI) / 360;
  const [sine, cosine] = [Math.sin(half), Math.cos(half)];
  const mouth = 900 * Math.tan(half);
  return oneFace(
    (x, y, z, g) => {
      // The upper half in plan: how far out of the side from (0, 0) to (900, mouth), and where along it.
      const u = Math.abs(y);
      const out = u * cosine - x * sine;
      const along = Math.min(Math.max(x * cosine + u * sine, 0), 900 / cosine);
      const inside = Math.max(out, x - 900, Math.abs(z) - 200);
      if (inside <= 0) {
        const upright = inside === Math.abs(z) - 200;
        g[0] = upright ? 0 : inside === out ? -sine : 1;
        g[1] = !upright && inside === out ? Math.sign(y) * cosine : 0;
        g[2] = upright ? Math.sign(z) : 0;
        return inside - radius;
      }
      const within = out <= 0 && x <= 900;
      const ahead = x > 900 && u < mouth;
      const dx = within ? 0 : ahead ? x - 900 : x - along * cosine;
      const dy = within || ahead ? 0 : u - along * sine;
      const dz = Math.max(Math.abs(z) - 200, 0);
      const d = Math.hypot(dx, dy, dz);
      g[0] = dx / d;
      g[1] = (Math.sign(y) * dy) / d;
      g[2] = (Math.sign(z) * dz) / d;
      return d - radius;
    },
    [-radius, -mouth - radius, -200 - radius],
    [900 + radius, mouth + radius, 200 + radius],
  );
}

/** A sphere of 400 mm whose upper half is `step` mm larger: torn all round. */
export function torn(step: number): Field {
  return oneFace(
    (x, y, z, g) => {
      const r = Math.hypot(x, y, z);
      const s = r > 0 ? 1 / r : 0;
      g[0] = x * s;
      g[1] = y * s;
      g[2] = z * s;
      return r - 400 - (z > 13 ? step : 0);
    },
    [-460, -460, -460],
    [460, 460, 460],
  );
}

/** Air in two spheres beside each other along x, `gap` mm of ground between them. */
export function twoSpheres(radius: number, gap: number): Field {
  const away = radius + gap / 2;
  return oneFace(
    (x, y, z, g) => {
      const dx = x < 0 ? x + away : x - away;
      const r = Math.hypot(dx, y, z);
      const s = r > 0 ? 1 / r : 0;
      g[0] = dx * s;
      g[1] = y * s;
      g[2] = z * s;
      return r - radius;
    },
    [-away - radius, -radius, -radius],
    [away + radius, radius, radius],
  );
}
