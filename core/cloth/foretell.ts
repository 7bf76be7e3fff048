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

/** Cloth between two cuts of one side, or between a cut and an end of the zone. */
export interface Flap {
  readonly side: Cut["side"];
  readonly from: number;
  readonly to: number;
  /** From this distance of the line on it hangs by itself: that of the shallower of its cuts, mm ≥ 0. */
  readonly tip: number;
}

/** The flaps that cuts (of each side in the order of their stations) make of a zone: none on a side without cuts. */
export function flapsOf(cuts: readonly Cut[], from: number, to: number): Flap[] {
  return (["left", "right"] as const).flatMap((side) => {
    const own = cuts.filter((cut) => cut.side === side);
    if (own.length === 0) return [];
    return Array.from({ length: own.length + 1 }, (_, k) => ({
      side,
      from: k > 0 ? own[k - 1].station : from,
      to: k < own.length ? own[k].station : to,
      tip: Math.max(k > 0 ? own[k - 1].tip : 0, k < own.length ? own[k].tip : 0),
    }));
  });
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
  const tried = [
    ...new Set(PARALLELS.map((part) => nearestTo(ws, part < 0 ? -part * ws[0] : part * ws[ws.length - 1]))),
  ];
  return tried
    .filter((g) => flaps.every(({ side, tip }) => (side === "left" ? ws[g] <= tip : ws[g] >= -tip)))
    .flatMap((g) => {
      const spots = spotsOf(turning, g);
      const middle = (stations[0] + stations[stations.length - 1]) / 2;
      // In the middle of the line cloth lies straight, and a corner may be kinder to it than what was foretold.
      const plain = ws[g] === 0 ? spots.filter(({ station }) => station === middle) : [];
      return [hangOn(turning, g, flaps, spots), hangOn(turning, g, flaps, plain)];
    })
    .filter((way) => way !== null)
    .sort((a, b) => Math.round((a.cost - b.cost) / EVEN));
}

function hangOn(turning: Turning, g: number, flaps: readonly Flap[], spots: readonly Spot[]): Hanging | null {
  const { stations, ws, turned, there } = turning;
  const m = ws.length;
  const first = stations[0];
  const last = stations[stations.length - 1];
  const b = (i: number, k: number) => turned[i * m + k] - turned[i * m + g];
  const at = ({ i, part }: Spot, k: number) => (1 - part) * b(i, k) + (part > 0 ? part * b(i + 1, k) : 0);
  const inFlap = (flap: Flap, w: number) => (flap.side === "left" ? w > flap.tip : w < -flap.tip);
  const body = extremes(turning, b, first, last, (w, s) =>
    flaps.some((flap) => inFlap(flap, w) && s >= flap.from && s <= flap.to),
  );
  const ranges = flaps.map((flap) => extremes(turning, b, flap.from, flap.to, (w) => !inFlap(flap, w)));
  const roots = flaps.map(({ side, tip }) => nearestTo(ws, side === "left" ? tip : -tip));
  const ofFlaps = flaps.map(({ from, to }, f) =>
    someOf(
      spots.filter(({ i, station }) => station >= from && station <= to && there[i * m + roots[f]] === 1),
    ),
  );
  const drift = driftOf(turning, g);
  const width = ws[m - 1] - ws[0];
  const middle = (first + last) / 2;
  let best: Hanging | null = null;
  for (const spot of spots) {
    if (there[spot.i * m + g] === 0) continue;
    const enough: number = best ? best.cost + LIKE : Infinity;
    let shear = largest(body, (k) => at(spot, k), enough);
    const own: number[] = [];
    for (let f = 0; f < flaps.length && shear < enough; f++) {
      const root = roots[f];
      let least = { station: flaps[f].from, shear: enough };
      for (const other of ofFlaps[f]) {
        const found = largest(ranges[f], (k) => at(spot, root) + at(other, k) - at(other, root), least.shear);
        if (found < least.shear - EVEN) least = { station: other.station, shear: found };
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

/** Least and most of b at each distance, over the stations from…to at which the zone reaches so far and `out` does not say otherwise. */
function extremes(
  { stations, ws, there }: Turning,
  b: (i: number, k: number) => number,
  from: number,
  to: number,
  out: (w: number, station: number) => boolean,
): { least: Float64Array; most: Float64Array } {
  const m = ws.length;
  const least = new Float64Array(m).fill(Infinity);
  const most = new Float64Array(m).fill(-Infinity);
  for (let i = 0; i < stations.length; i++) {
    if (stations[i] < from || stations[i] > to) continue;
    for (let k = 0; k < m; k++) {
      if (there[i * m + k] === 0 || out(ws[k], stations[i])) continue;
      least[k] = Math.min(least[k], b(i, k));
      most[k] = Math.max(most[k], b(i, k));
    }
  }
  return { least, most };
}

/** The largest distance of a range at any k from what it is there hung from; from `enough` on it does not matter how large. */
function largest(
  { least, most }: { least: Float64Array; most: Float64Array },
  from: (k: number) => number,
  enough: number,
): number {
  let shear = 0;
  for (let k = 0; k < least.length && shear < enough; k++) {
    if (most[k] < least[k]) continue;
    const at = from(k);
    shear = Math.max(shear, most[k] - at, at - least[k]);
  }
  return shear;
}

function nearestTo(values: readonly number[], wanted: number): number {
  let best = 0;
  for (let i = 1; i < values.length; i++)
    if (Math.abs(values[i] - wanted) < Math.abs(values[best] - wanted)) best = i;
  return best;
}
