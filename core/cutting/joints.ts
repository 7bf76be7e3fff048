import { evenStations, lengthsBetween, lineAt, type Ruler } from "./ruler.ts";

/** Where one piece ends and the next begins: the lap runs from `from` to `to`, `at` is its middle. Stations, mm. */
export interface Joint {
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

export interface JointRules {
  /** No piece is longer than this on any of its lines, laps included, mm, as long as any division keeps it. */
  readonly longest: number;
  /** Length of the lap on every line, mm; 0 for a butt joint. */
  readonly lap: number;
  /** Least distance from the joints of the ply below, mm. */
  readonly stagger: number;
  readonly below: readonly Joint[];
  /** How much a joint between two stations is to be avoided: 0 where the zone is straight, 1 where it must be avoided. */
  readonly awkward: (from: number, to: number) => number;
}

export interface Division {
  /** In the order of their stations; none for a single piece. A closed zone's are from 0 to below its length. */
  readonly joints: readonly Joint[];
  /** The length that no piece passes, and the stagger that was kept: other than the rules' only where the rules contradict each other. */
  readonly longest: number;
  readonly stagger: number;
}

/** Distance between the stations that are tried, mm, on a zone's fastest line. */
const GRID = 40;
/** What one more piece costs, in the measure of `awkward` squared: more than it could save by evening out the lengths. */
const PIECE = 2;
/** What it costs to be longer than the rules allow, times the part by which a piece is so: more than anything it could save. */
const OVERLONG = 1000;
/** Awkwardness beyond this is not told apart. */
const MOST_AWKWARD = 2;
/** A lap may grow to this many times its length in the middle, so that it is true on the shortest line. */
const WIDEST_LAP = 2;

/**
 * Divides a zone into as few pieces as its rules allow, of about equal length, with joints where it is straight. The best
 * of all divisions on a grid of stations (dynamic programming over the stations), so that every rule is kept
 * wherever it can be: a rule is loosened only when no division keeps it, the stagger first, then the length, and the length
 * only of the pieces that cannot keep it.
 */
export function divide(ruler: Ruler, rules: JointRules): Division {
  for (let most = rules.longest; ; most *= 1.25) {
    for (const part of [1, 0.5, 0.25, 0.125, 0]) {
      const stagger = rules.stagger * part;
      const joints = bestJoints(ruler, { ...rules, stagger }, most);
      if (joints) return { joints, longest: most, stagger };
      if (rules.stagger === 0 || rules.below.length === 0) break;
    }
  }
}

/** Places that a joint may take, in order; those of a closed zone go round twice. The first and last of an open one are its ends. */
interface Places {
  readonly joints: readonly Joint[];
  /** Infinity where a rule forbids a joint. */
  readonly cost: Float64Array;
  /** Running length of each line at the beginning and at the end of each lap. */
  readonly starts: readonly Float64Array[];
  readonly ends: readonly Float64Array[];
}

/** The best joints of pieces up to `most` mm long, those longer than the rules allow as few and as little so as can be; or null. */
function bestJoints(ruler: Ruler, rules: JointRules, most: number): Joint[] | null {
  const { longest, lap } = rules;
  const whole = lengthsBetween(ruler, 0, ruler.length)[1];
  if (!ruler.closed && whole <= longest + 1e-6) return [];
  if (most <= lap) return null;
  const fewest = Math.max(1, Math.ceil((whole - (ruler.closed ? 0 : lap)) / (most - lap) - 1e-9));
  const least = Math.max(2, Math.ceil(whole / GRID));
  // With equal parts of the whole among the places; pieces shorter than the grid have none that suits them.
  const steps = fewest <= least ? fewest * Math.ceil(least / fewest) : least;
  const even = evenStations(ruler, steps);
  if (!ruler.closed) {
    const places = placesAt(ruler, rules, even);
    return bestChain(places, pieceCosts(places, longest, most), 0, steps)?.joints ?? null;
  }
  const twice = [...even.subarray(0, steps), ...even.map((station) => station + ruler.length)];
  return bestLoop(ruler, placesAt(ruler, rules, twice), steps, longest, most);
}

function placesAt(ruler: Ruler, rules: JointRules, stations: ArrayLike<number>): Places {
  const count = stations.length;
  const joints: Joint[] = [];
  const cost = new Float64Array(count);
  const starts = ruler.lines.map(() => new Float64Array(count));
  const ends = ruler.lines.map(() => new Float64Array(count));
  for (let i = 0; i < count; i++) {
    const at = stations[i];
    const isEnd = !ruler.closed && (i === 0 || i === count - 1);
    const joint = isEnd ? { at, from: at, to: at } : lapAt(ruler, at, rules.lap);
    joints.push(joint);
    for (let line = 0; line < ruler.lines.length; line++) {
      starts[line][i] = lineAt(ruler, line, joint.from);
      ends[line][i] = lineAt(ruler, line, joint.to);
    }
    if (isEnd) continue;
    const fits = ruler.closed || (joint.from >= 0 && joint.to <= ruler.length);
    const awkward = Math.min(MOST_AWKWARD, rules.awkward(joint.from, joint.to));
    cost[i] = fits && isClear(ruler, at, rules) ? awkward ** 2 : Infinity;
  }
  return { joints, cost, starts, ends };
}

/** A lap about a station, as long as it must be to be `lap` mm on the shortest line, within WIDEST_LAP. */
export function lapAt(ruler: Ruler, at: number, lap: number): Joint {
  const widest = (WIDEST_LAP * lap) / 2;
  let half = lap / 2;
  for (let round = 0; round < 8 && half < widest; round++) {
    const [least] = lengthsBetween(ruler, at - half, at + half);
    if (least >= lap - 1e-9) break;
    half = least > 0 ? Math.min(widest, (half * lap) / least) : widest;
  }
  return { at, from: at - half, to: at + half };
}

export function isClear(
  ruler: Ruler,
  at: number,
  { below, stagger }: Pick<JointRules, "below" | "stagger">,
): boolean {
  return below.every((joint) => apart(ruler, joint.at, at) >= stagger - 1e-9);
}

/** Distance along the zone between two stations, mm; round a closed one the shorter way. */
export function apart(ruler: Ruler, a: number, b: number): number {
  const distance = Math.abs(a - b) % ruler.length;
  return ruler.closed ? Math.min(distance, ruler.length - distance) : distance;
}

/** The pieces that may end at a place, by the place where they begin: `costs[to][to − 1 − from]`, Infinity where none may. */
type PieceCosts = readonly (readonly number[])[];

/** Costs of all pieces that the rules allow, worked out once for all chains. */
function pieceCosts(places: Places, longest: number, most: number): PieceCosts {
  const { joints, cost, starts, ends } = places;
  return joints.map((joint, to) => {
    const costs: number[] = [];
    for (let from = to - 1; from >= 0 && cost[to] < Infinity; from--) {
      let length = 0;
      for (let line = 0; line < starts.length; line++) {
        length = Math.max(length, ends[line][to] - starts[line][from]);
      }
      if (length > most + 1e-6) break;
      // The two laps of a piece may meet but not lie on each other.
      const lies = cost[from] < Infinity && joint.from >= joints[from].to;
      const over = OVERLONG * Math.max(0, length / longest - 1 - 1e-9);
      costs.push(lies ? PIECE + (length / longest) ** 2 + over + cost[to] : Infinity);
    }
    return costs;
  });
}

interface Chain {
  /** Joints between the two ends of the chain. */
  readonly joints: Joint[];
  readonly cost: number;
}

/** The cheapest chain of pieces from place `first` to place `last`, or null where the rules allow none. */
function bestChain({ joints }: Places, costs: PieceCosts, first: number, last: number): Chain | null {
  const best = new Float64Array(last + 1).fill(Infinity);
  const before = new Int32Array(last + 1);
  best[first] = 0;
  for (let to = first + 1; to <= last; to++) {
    const row = costs[to];
    const reach = Math.min(row.length, to - first);
    for (let back = 0; back < reach; back++) {
      const total = best[to - 1 - back] + row[back];
      if (total < best[to]) {
        best[to] = total;
        before[to] = to - 1 - back;
      }
    }
  }
  if (best[last] === Infinity) return null;
  const between: Joint[] = [];
  for (let place = before[last]; place > first; place = before[place]) between.push(joints[place]);
  return { joints: between.reverse(), cost: best[last] };
}

/** The cheapest ring of pieces. It has a joint within any stretch as long as the longest piece, so all begin within the first. */
function bestLoop(
  ruler: Ruler,
  places: Places,
  around: number,
  longest: number,
  most: number,
): Joint[] | null {
  const costs = pieceCosts(places, longest, most);
  let best: Chain | null = null;
  for (let first = 0; first < around; first++) {
    if (lengthsBetween(ruler, 0, places.joints[first].at)[1] > most) break;
    if (places.cost[first] === Infinity) continue;
    const chain = bestChain(places, costs, first, first + around);
    if (!chain || (best && chain.cost >= best.cost)) continue;
    best = { joints: [places.joints[first], ...chain.joints], cost: chain.cost };
  }
  if (!best) return null;
  return best.joints.map((joint) => intoFirstTurn(ruler, joint)).sort((a, b) => a.at - b.at);
}

function intoFirstTurn(ruler: Ruler, joint: Joint): Joint {
  const back = Math.floor(joint.at / ruler.length) * ruler.length;
  return { at: joint.at - back, from: joint.from - back, to: joint.to - back };
}
