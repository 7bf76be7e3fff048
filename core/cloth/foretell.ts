import { type Flap, flapsOf, inFlap } from "./flaps.ts";
import type { Cut } from "./lattice.ts";
import type { Turning } from "./turning.ts";

/** A way to hang cloth over a zone, with the largest shear that it is foretold to have. */
export interface Hanging {
  /** Where the warp begins, beside the line: station and distance to its left, mm. */
  readonly station: number;
  readonly w: number;
  /** Of each flap, left ones first, the station at which its own weft begins; see `flapsOf`. */
  readonly flaps: readonly number[];
  /** rad. */
  readonly shear: number;
  /** How far the warp comes to lie beside the parallel that it sets out along, mm. */
  readonly astray: number;
  /** The shear, and what is added for a warp that goes astray, rad. */
  readonly cost: number;
}

/** Parallels tried for the warp, as parts of the way from the line to the left edge, or to the right one where negative. */
const PARALLELS = [0, -0.5, 0.5, -1, 1];
/**
 * A straight warp leaves a parallel that turns, and what was foretold along the parallel holds the less. Where it comes to lie off by the zone's
 * width or more that counts as much as so much shear, rad: 20°.
 */
const ASTRAY = (20 * Math.PI) / 180;
/** Costs that differ by less, rad, are alike: the middle of the zone decides. */
const LIKE = 0.01;
/**
 * Costs, rad, and distances, mm, nearer than this are even, and the first tried stands: a zone is often its own mirror image, and machines
 * differ in the last digit.
 */
export const EVEN = 1e-7;
/** Stations tried for a weft lie at most so much turn apart, rad. */
const MOST_TURN = 0.06;
/** So many stations are tried for the weft of a flap. */
const MOST_FOR_FLAP = 16;

/**
 * Ways to hang cloth with given cuts over a zone, the most promising first; none where a cut is on the wrong side of every parallel.
 *
 * With the warp along the parallel at w₀ and the weft through s₀, shear at (s, w) is about B(s, w) − B(s₀, w), where B(s, w) =
 * T(s, w) − T(s, w₀) and T is what parallels turn (`Turning`). In a flap from w₁ on, with its own weft through s₁, it is
 * B(s, w) − B(s₀, w₁) − [B(s₁, w) − B(s₁, w₁)]. For each parallel the stations are taken from which the largest shear is least: the middle of a
 * corner, so that half of what it curves lies to each side.
 */
export function foretell(turning: Turning, cuts: readonly Cut[] = []): Hanging[] {
  const { ws, stations } = turning;
  const flaps = flapsOf(cuts, stations[0], stations[stations.length - 1]);
  return parallelsOf(ws)
    .filter((g) => flaps.every(({ side, tip }) => (side === "left" ? ws[g] <= tip : ws[g] >= -tip)))
    .flatMap((g) => waysAlong(turning, g, flaps))
    .sort((a, b) => Math.round((a.cost - b.cost) / EVEN));
}

/**
 * Whether there is a way to hang cloth, not cut, over a zone so that by what is foretold it is sheared by no more than `limit`, rad, and its warp goes astray by no more
 * than `room`, mm. Sooner told than what the ways are.
 */
export function isForetold(turning: Turning, limit: number, room: number): boolean {
  const { stations, ws } = turning;
  return parallelsOf(ws).some((g) => {
    const beside = besideParallel(turning, g);
    const body = extremes(turning, beside, stations[0], stations[stations.length - 1], () => false);
    // Wherever the weft runs, half of the range lies to one side of what it has.
    if (ws.some((_, k) => body.most[k] - body.least[k] > 2 * limit)) return false;
    const way = bestSpot({ turning, g, beside, body, flaps: [] }, spotsOf(turning, g));
    return way !== null && way.shear <= limit && way.astray <= room;
  });
}

/** Indices of the parallels that the warp may run along. */
const parallelsOf = (ws: readonly number[]): number[] => [
  ...new Set(PARALLELS.map((part) => nearestTo(ws, part < 0 ? -part * ws[0] : part * ws[ws.length - 1]))),
];

/** The best ways with the warp along parallel `g`: of all, and of those in the middle of the line. */
function waysAlong(turning: Turning, g: number, flaps: readonly Flap[]): Hanging[] {
  const { stations, ws } = turning;
  const spots = spotsOf(turning, g);
  const beside = besideParallel(turning, g);
  const body = extremes(turning, beside, stations[0], stations[stations.length - 1], (w, s) =>
    flaps.some((flap) => inFlap(flap, w) && s >= flap.from && s <= flap.to),
  );
  const hung = {
    turning,
    g,
    beside,
    body,
    flaps: flaps.map((flap) => flapWays(turning, beside, flap, spots)),
  };
  const middle = (stations[0] + stations[stations.length - 1]) / 2;
  // In the middle of the line cloth lies straight, and a corner may be kinder to it than what was foretold.
  const plain = ws[g] === 0 ? spots.filter(({ station }) => station === middle) : [];
  return [bestSpot(hung, spots), bestSpot(hung, plain)].filter((way) => way !== null);
}

/** B(s, w) of every station and distance, as `turned` is laid out. */
function besideParallel({ turned, stations, ws }: Turning, g: number): Float64Array {
  const m = ws.length;
  const beside = new Float64Array(turned.length);
  for (let i = 0; i < stations.length; i++)
    for (let k = 0; k < m; k++) beside[i * m + k] = turned[i * m + k] - turned[i * m + g];
  return beside;
}

/** B at a spot. */
function besideAt(beside: Float64Array, m: number, { i, part }: Spot, k: number): number {
  const at = i * m + k;
  return part > 0 ? (1 - part) * beside[at] + part * beside[at + m] : beside[at];
}

/**
 * The stations that the weft of a flap may begin at, each with the least and the most of B over the flap less what hangs on that weft: with B(s₀, w₁) between
 * them the larger distance to either is the shear.
 */
interface FlapWays {
  readonly root: number;
  readonly from: number;
  readonly wefts: readonly { readonly station: number; readonly least: number; readonly most: number }[];
}

function flapWays(turning: Turning, beside: Float64Array, flap: Flap, spots: readonly Spot[]): FlapWays {
  const { ws, there } = turning;
  const m = ws.length;
  const root = nearestTo(ws, flap.side === "left" ? flap.tip : -flap.tip);
  const range = extremes(turning, beside, flap.from, flap.to, (w) => !inFlap(flap, w));
  const own = spots.filter(
    ({ i, station }) => station >= flap.from && station <= flap.to && there[i * m + root] === 1,
  );
  const wefts = someOf(own).map((spot) => {
    const foot = besideAt(beside, m, spot, root);
    let [least, most] = [Infinity, -Infinity];
    for (let k = 0; k < m; k++) {
      if (range.most[k] < range.least[k]) continue;
      const hung = besideAt(beside, m, spot, k) - foot;
      least = Math.min(least, range.least[k] - hung);
      most = Math.max(most, range.most[k] - hung);
    }
    return { station: spot.station, least, most };
  });
  return { root, from: flap.from, wefts };
}

interface Hung {
  readonly turning: Turning;
  readonly g: number;
  readonly beside: Float64Array;
  readonly body: Extremes;
  readonly flaps: readonly FlapWays[];
}

function bestSpot({ turning, g, beside, body, flaps }: Hung, spots: readonly Spot[]): Hanging | null {
  const { stations, ws, there } = turning;
  const m = ws.length;
  const drift = driftOf(turning, g);
  const width = ws[m - 1] - ws[0];
  const middle = (stations[0] + stations[stations.length - 1]) / 2;
  let best: Hanging | null = null;
  for (const spot of spots) {
    if (there[spot.i * m + g] === 0) continue;
    const enough: number = best ? best.cost + LIKE : Infinity;
    let shear = 0;
    for (let k = 0; k < m && shear < enough; k++) {
      if (body.most[k] < body.least[k]) continue;
      const at = besideAt(beside, m, spot, k);
      shear = Math.max(shear, body.most[k] - at, at - body.least[k]);
    }
    const own: number[] = [];
    for (let f = 0; f < flaps.length && shear < enough; f++) {
      const { root, from, wefts } = flaps[f];
      const foot = besideAt(beside, m, spot, root);
      let least = { station: from, shear: enough };
      for (const weft of wefts) {
        const found = Math.max(0, weft.most - foot, foot - weft.least);
        if (found < least.shear - EVEN) least = { station: weft.station, shear: found };
      }
      shear = Math.max(shear, least.shear);
      own.push(least.station);
    }
    if (shear >= enough) continue;
    const astray = drift(spot);
    const cost = shear + ASTRAY * Math.min(1, astray / width);
    const nearer = best && Math.abs(spot.station - middle) < Math.abs(best.station - middle) - EVEN;
    if (best && !(cost < best.cost - LIKE || (cost < best.cost + LIKE && nearer))) continue;
    best = { station: spot.station, w: ws[g], flaps: own, shear, astray, cost };
  }
  return best;
}

/** A station between station `i` of a turning and the next. */
interface Spot {
  readonly i: number;
  readonly part: number;
  readonly station: number;
}

/** Stations worth trying for a weft: close together where the zone curves, one at least in its middle. */
function spotsOf({ stations, ws, turned }: Turning, g: number): Spot[] {
  const m = ws.length;
  const spots: Spot[] = [];
  const middle = (stations[0] + stations[stations.length - 1]) / 2;
  for (let i = 0; i + 1 < stations.length; i++) {
    let turn = 0;
    for (let k = 0; k < m; k++) {
      const own = turned[(i + 1) * m + k] - turned[i * m + k];
      const beside = turned[(i + 1) * m + g] - turned[i * m + g];
      turn = Math.max(turn, Math.abs(own - beside));
    }
    const length = stations[i + 1] - stations[i];
    const parts = Math.max(1, Math.ceil(turn / MOST_TURN));
    for (let part = 0; part < parts; part++)
      spots.push({ i, part: part / parts, station: stations[i] + (part / parts) * length });
    const part = (middle - stations[i]) / length;
    if (part >= 0 && part < 1) spots.push({ i, part, station: middle });
  }
  return spots;
}

/** At most MOST_FOR_FLAP of some spots, evenly taken. */
function someOf(spots: readonly Spot[]): Spot[] {
  const every = Math.ceil(spots.length / MOST_FOR_FLAP);
  return spots.filter((_, i) => i % every === 0);
}

/** How far a straight warp that sets out along parallel g at a spot comes to lie beside it, at the most, mm. */
function driftOf({ stations, ws, turned }: Turning, g: number): (spot: Spot) => number {
  const m = ws.length;
  const turn = (i: number) => turned[i * m + g];
  const sums = [0];
  for (let i = 1; i < stations.length; i++)
    sums.push(sums[i - 1] + 0.5 * (turn(i) + turn(i - 1)) * (stations[i] - stations[i - 1]));
  return ({ i, part, station }) => {
    const here = (1 - part) * turn(i) + (part > 0 ? part * turn(i + 1) : 0);
    const sum = sums[i] + (station - stations[i]) * here;
    let most = 0;
    for (let j = 0; j < stations.length; j++)
      most = Math.max(most, Math.abs(sums[j] - sum - here * (stations[j] - station)));
    return most;
  };
}

interface Extremes {
  readonly least: Float64Array;
  readonly most: Float64Array;
}

/** Least and most of B at each distance, over the stations from…to at which the zone reaches so far and `out` does not say otherwise. */
function extremes(
  { stations, ws, there }: Turning,
  beside: Float64Array,
  from: number,
  to: number,
  out: (w: number, station: number) => boolean,
): Extremes {
  const m = ws.length;
  const least = new Float64Array(m).fill(Infinity);
  const most = new Float64Array(m).fill(-Infinity);
  for (let i = 0; i < stations.length; i++) {
    if (stations[i] < from || stations[i] > to) continue;
    for (let k = 0; k < m; k++) {
      const b = beside[i * m + k];
      if (there[i * m + k] === 0 || (b >= least[k] && b <= most[k]) || out(ws[k], stations[i])) continue;
      least[k] = Math.min(least[k], b);
      most[k] = Math.max(most[k], b);
    }
  }
  return { least, most };
}

function nearestTo(values: readonly number[], wanted: number): number {
  let best = 0;
  for (let i = 1; i < values.length; i++)
    if (Math.abs(values[i] - wanted) < Math.abs(values[best] - wanted)) best = i;
  return best;
}
