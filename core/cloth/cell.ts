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
  for (let corner = 0; corner < 4; corner++) {
    const x = i + (corner & 1);
    const y = j + (corner >> 1);
    const from = net.index(x, y);
    for (let k = 0; k < 3; k++) corners[3 * corner + k] = net.points[from + k];
    yarnAt(net, x, y, 1, 0, warps, 3 * corner);
    yarnAt(net, x, y, 0, 1, wefts, 3 * corner);
  }
  return MET.yes;
}

/** How the warp (dx = 1) or weft (dy = 1) of a node runs: along its tangent plane, from its neighbours to both sides, or from the next two to one. */
function yarnAt(net: Net, x: number, y: number, dx: 0 | 1, dy: 0 | 1, out: Float64Array, at: number): void {
  const isAhead = net.ask(x + dx, y + dy) === MET.yes;
  const isBehind = y >= dy && net.ask(x - dx, y - dy) === MET.yes;
  if (isAhead && isBehind) {
    difference(net, net.index(x + dx, y + dy), net.index(x - dx, y - dy), 1, out, at);
  } else {
    const way = isAhead ? 1 : -1;
    const [next, nextButOne] = [way, 2 * way];
    difference(net, net.index(x + next * dx, y + next * dy), net.index(x, y), way, out, at);
    const isFar = y + nextButOne * dy >= 0 && net.ask(x + nextButOne * dx, y + nextButOne * dy) === MET.yes;
    if (isFar) {
      // Twice the near difference less half of the far one: of second order.
      const far = net.index(x + nextButOne * dx, y + nextButOne * dy);
      const here = net.index(x, y);
      for (let k = 0; k < 3; k++)
        out[at + k] = 2 * out[at + k] - 0.5 * way * (net.points[far + k] - net.points[here + k]);
    }
  }
  const n = net.index(x, y);
  const [nx, ny, nz] = [net.normals[n], net.normals[n + 1], net.normals[n + 2]];
  const off = out[at] * nx + out[at + 1] * ny + out[at + 2] * nz;
  const [tx, ty, tz] = [out[at] - off * nx, out[at + 1] - off * ny, out[at + 2] - off * nz];
  const scale = net.spacing / (Math.sqrt(tx * tx + ty * ty + tz * tz) || 1);
  out[at] = scale * tx;
  out[at + 1] = scale * ty;
  out[at + 2] = scale * tz;
}

function difference({ points }: Net, to: number, from: number, sign: 1 | -1, out: Float64Array, at: number) {
  for (let k = 0; k < 3; k++) out[at + k] = sign * (points[to + k] - points[from + k]);
}

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
  const [r, q] = [1 - s, 1 - t];
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
  let [ss, st, tt, rs, rt] = [0, 0, 0, 0, 0];
  for (let k = 0; k < 3; k++) {
    const [a, b, c, d] = [corners[k], corners[3 + k], corners[6 + k], corners[9 + k]];
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
