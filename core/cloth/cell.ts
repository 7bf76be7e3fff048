import { MET, type Met } from "./join-yarns.ts";
import type { Net } from "./net.ts";

/**
 * The surface within one cell of a net, as the cubic patch on its four corners and on how warp and weft run there (J. C. Ferguson, "Multivariable
 * curve interpolation", J. ACM 11 (1964) 221–228: no twist, as is right here, for in Chebyshev's net the twist of the parametrisation stands square to the
 * surface). One length of yarn along a side is one unit of length there: of the fourth order in the spacing where the surface bends
 * evenly. There is one cell at a time, so that nothing is allocated.
 */

/** The four corners, three numbers each: (i, j), (i + 1, j), (i, j + 1), (i + 1, j + 1). */
const corners = new Float64Array(12);
/** A spacing of warp and of weft from each of them, mm. */
const warps = new Float64Array(12);
const wefts = new Float64Array(12);

/** Takes up the cell between nodes (i, j) and (i + 1, j + 1), j ≥ 0, of a net; gives back why a corner is missing. */
export function enterCell(net: Net, i: number, j: number): Met {
  for (let corner = 0; corner < 4; corner++) {
    const met = net.ask(i + (corner & 1), j + (corner >> 1));
    if (met !== MET.yes) return met;
  }
  const { points, courses } = net;
  for (let corner = 0; corner < 4; corner++) {
    const x = i + (corner & 1);
    const y = j + (corner >> 1);
    const from = net.index(x, y);
    const course = 2 * from;
    if (courses[course] === 0 && courses[course + 1] === 0 && courses[course + 2] === 0) {
      findCourse(net, x, y, 1, 0, course);
      findCourse(net, x, y, 0, 1, course + 3);
    }
    const to = 3 * corner;
    for (let k = 0; k < 3; k++) {
      corners[to + k] = points[from + k];
      warps[to + k] = courses[course + k];
      wefts[to + k] = courses[course + 3 + k];
    }
  }
  return MET.yes;
}

/**
 * Writes how the warp (dx = 1) or weft (dy = 1) of a node runs to the net's courses: along its tangent plane, from its neighbours to both sides, or from
 * the next two to one.
 */
function findCourse(net: Net, x: number, y: number, dx: 0 | 1, dy: 0 | 1, at: number): void {
  const { points, normals, courses, spacing } = net;
  const here = net.index(x, y);
  const isAhead = isThere(net, x + dx, y + dy);
  const way = isAhead ? 1 : -1;
  const next = net.index(x + way * dx, y + way * dy);
  let other = here;
  let nearer = way;
  let further = 0;
  if (isAhead && isThere(net, x - dx, y - dy)) other = net.index(x - dx, y - dy);
  else if (isThere(net, x + 2 * way * dx, y + 2 * way * dy)) {
    // Of second order: twice the near difference less half of that over two spacings.
    other = net.index(x + 2 * way * dx, y + 2 * way * dy);
    nearer = 2 * way;
    further = -0.5 * way;
  }
  let out = 0;
  for (let k = 0; k < 3; k++) {
    const course =
      further === 0
        ? nearer * (points[next + k] - points[other + k])
        : nearer * (points[next + k] - points[here + k]) + further * (points[other + k] - points[here + k]);
    courses[at + k] = course;
    out += course * normals[here + k];
  }
  let square = 0;
  for (let k = 0; k < 3; k++) {
    courses[at + k] -= out * normals[here + k];
    square += courses[at + k] ** 2;
  }
  const scale = spacing / Math.sqrt(square);
  for (let k = 0; k < 3; k++) courses[at + k] *= scale;
}

const isThere = (net: Net, x: number, y: number): boolean => y >= 0 && net.ask(x, y) === MET.yes;

/** A place in the cell: parts of a spacing from its first corner along the warp and along the weft. */
export interface CellPlace {
  s: number;
  t: number;
}

/**
 * Moves a place in the cell towards that at which the cell comes nearest to a point of the surface (p[at…at + 2], mm): one step by Gauss and Newton. Gives
 * back its length, in parts of a spacing.
 */
export function stepInCell(place: CellPlace, p: Float64Array, at: number): number {
  const { s, t } = place;
  const r = 1 - s;
  const q = 1 - t;
  // Hermite's cubics of a value and of a slope at the beginning (0) and at the end (1), and their slopes.
  const f0 = (1 + 2 * s) * r * r;
  const f1 = s * s * (3 - 2 * s);
  const g0 = s * r * r;
  const g1 = -s * s * r;
  const df = 6 * s * r;
  const dg0 = r * (1 - 3 * s);
  const dg1 = s * (3 * s - 2);
  const F0 = (1 + 2 * t) * q * q;
  const F1 = t * t * (3 - 2 * t);
  const G0 = t * q * q;
  const G1 = -t * t * q;
  const dF = 6 * t * q;
  const dG0 = q * (1 - 3 * t);
  const dG1 = t * (3 * t - 2);
  let ss = 0;
  let st = 0;
  let tt = 0;
  let rs = 0;
  let rt = 0;
  for (let k = 0; k < 3; k++) {
    const a = corners[k];
    const b = corners[3 + k];
    const c = corners[6 + k];
    const d = corners[9 + k];
    const low = f0 * a + f1 * b + g0 * warps[k] + g1 * warps[3 + k];
    const high = f0 * c + f1 * d + g0 * warps[6 + k] + g1 * warps[9 + k];
    const lowWeft = f0 * wefts[k] + f1 * wefts[3 + k];
    const highWeft = f0 * wefts[6 + k] + f1 * wefts[9 + k];
    const lowSlope = df * (b - a) + dg0 * warps[k] + dg1 * warps[3 + k];
    const highSlope = df * (d - c) + dg0 * warps[6 + k] + dg1 * warps[9 + k];
    const weftSlope = G0 * (wefts[3 + k] - wefts[k]) + G1 * (wefts[9 + k] - wefts[6 + k]);
    const off = F0 * low + F1 * high + G0 * lowWeft + G1 * highWeft - p[at + k];
    const alongS = F0 * lowSlope + F1 * highSlope + df * weftSlope;
    const alongT = dF * (high - low) + dG0 * lowWeft + dG1 * highWeft;
    ss += alongS * alongS;
    st += alongS * alongT;
    tt += alongT * alongT;
    rs += off * alongS;
    rt += off * alongT;
  }
  const det = ss * tt - st * st;
  const ds = (rt * st - rs * tt) / det;
  const dt = (rs * st - rt * ss) / det;
  place.s += ds;
  place.t += dt;
  return Math.sqrt(ds * ds + dt * dt);
}
