import { type Chain, type ChainCosts, cheapestChain, leastRest } from "./chains.ts";
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
  /** Whether one piece lies between two stations, for cloth; it lies between all that are within such two. */
  readonly lies?: (from: number, to: number) => boolean;
  /** Whether the piece between two stations was found to lie: it stays where that costs little. */
  readonly isFound?: (from: number, to: number) => boolean;
}

export interface Division {
  /** In the order of their stations; none for a single piece. A closed zone's are from 0 to below its length. */
  readonly joints: readonly Joint[];
  /** The length that no piece passes: other than the rules' only where they contradict each other. */
  readonly longest: number;
}

/** Distance between the stations that are tried, mm, on a zone's fastest line. */
const GRID = 40;
/** What one more piece costs, in the measure of `awkward` squared: more than it could save by evening out the lengths. */
const PIECE = 2;
/** What a joint costs that lies on one of the ply below, or whose lap is nothing on a line; half as much where it all but keeps the rule. */
const BROKEN = 50;
/** What a piece costs that will not lie as cloth in one. */
const LOCKS = 300;
/** What a piece is worth that was found to lie. */
const FOUND = 0.5;
/** What it costs to be longer than the rules allow, times the part by which a piece is so: more than anything it could save. */
const OVERLONG = 1000;
/** Awkwardness beyond this is not told apart. */
const MOST_AWKWARD = 2;
/** Costs that differ by less are the same but for rounding. */
const SAME = 1e-9;
/** A lap may grow to this many times its length in the middle, so that it is true on the shortest line. */
const WIDEST_LAP = 2;

/**
 * Divides a zone into as few pieces as its rules allow, of about equal length, with joints where it is straight. The best
 * of all divisions on a grid of stations (dynamic programming over the stations). Where no division keeps every rule the least
 * is broken: a joint is too near to those of the ply below or its lap too short, then a piece does not lie as cloth, and last pieces
 * are too long, those only that cannot be shorter.
 */
export function divide(ruler: Ruler, rules: JointRules): Division {
  for (let most = rules.longest; ; most *= 1.25) {
    const joints = bestJoints(ruler, rules, most);
    if (joints) return { joints, longest: most };
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
  if (!ruler.closed && whole <= longest + 1e-6 && (rules.lies?.(0, ruler.length) ?? true)) return [];
  if (most <= lap) return null;
  const fewest = Math.max(1, Math.ceil((whole - (ruler.closed ? 0 : lap)) / (most - lap) - 1e-9));
  const least = Math.max(2, Math.ceil(whole / GRID));
  // With equal parts of the whole among the places; pieces shorter than the grid have none that suits them.
  const steps = fewest <= least ? fewest * Math.ceil(least / fewest) : least;
  const even = evenStations(ruler, steps);
  if (!ruler.closed) {
    const places = placesAt(ruler, rules, even);
    const chain = cheapestChain(pieceCosts(places, rules, most), 0, steps);
    return chain?.between.map((place) => places.joints[place]) ?? null;
  }
  const twice = [...even.subarray(0, steps), ...even.map((station) => station + ruler.length)];
  return bestLoop(ruler, rules, placesAt(ruler, rules, twice), steps, most);
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
    cost[i] = fits
      ? Math.min(MOST_AWKWARD, rules.awkward(joint.from, joint.to)) ** 2 + fault(ruler, joint, rules)
      : Infinity;
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

/** What it costs that a joint lies too near to those of the ply below, and that its lap is too short on a line. */
export function fault(
  ruler: Ruler,
  joint: Joint,
  { below, stagger, lap }: Pick<JointRules, "below" | "stagger" | "lap">,
): number {
  const [least] = lengthsBetween(ruler, joint.from, joint.to);
  return broken(clearOf(ruler, joint, below), stagger) + broken(least, lap);
}

/** What it costs that a length is not as long as it should be. */
const broken = (length: number, wanted: number): number =>
  length < wanted - 1e-6 ? BROKEN * (1 - (0.5 * length) / wanted) : 0;

/** How far a joint is from those of the ply below, mm; Infinity where there are none. */
export function clearOf(ruler: Ruler, joint: Joint, below: readonly Joint[]): number {
  return Math.min(Infinity, ...below.map((other) => apart(ruler, joint.at, other.at)));
}

/** Distance along the zone between two stations, mm; round a closed one the shorter way. */
function apart(ruler: Ruler, a: number, b: number): number {
  const distance = Math.abs(a - b) % ruler.length;
  return ruler.closed ? Math.min(distance, ruler.length - distance) : distance;
}

/** Costs of all pieces up to `most` mm long, worked out once for all chains. */
function pieceCosts(places: Places, rules: JointRules, most: number): ChainCosts {
  const { longest, lies, isFound } = rules;
  const { joints, cost, starts, ends } = places;
  const count = joints.length;
  const lengthOf = (from: number, to: number) => {
    let length = 0;
    for (let line = 0; line < starts.length; line++)
      length = Math.max(length, ends[line][to] - starts[line][from]);
    return length;
  };
  const lying =
    lies &&
    firstSuch(
      count,
      (from, to) => lengthOf(from, to) <= most + 1e-6 && lies(joints[from].from, joints[to].to),
    );
  const rows = new Int32Array(count + 1);
  for (let to = 0; to < count; to++) {
    let from = to;
    if (cost[to] < Infinity) while (from > 0 && lengthOf(from - 1, to) <= most + 1e-6) from--;
    rows[to + 1] = rows[to] + to - from;
  }
  const costs = new Float64Array(rows[count]);
  for (let to = 0; to < count; to++) {
    const joint = joints[to];
    for (let at = rows[to], from = to - 1; at < rows[to + 1]; at++, from--) {
      // The two laps of a piece may meet but not lie on each other.
      const isThere = cost[from] < Infinity && joint.from >= joints[from].to;
      const part = lengthOf(from, to) / longest;
      const over = OVERLONG * Math.max(0, part - 1 - 1e-9);
      const locks = lying && from < lying[to] ? LOCKS : 0;
      const found = isFound?.(joints[from].from, joint.to) ? FOUND : 0;
      costs[at] = isThere ? PIECE + part ** 2 + over + locks - found + cost[to] : Infinity;
    }
  }
  return { rows, costs };
}

/** Of each place the first from which a piece to it is such as told, as are all that are shorter: asked at every second, since it costs. */
function firstSuch(count: number, isSuch: (from: number, to: number) => boolean): Int32Array {
  const first = new Int32Array(count);
  let from = 0;
  for (let to = (count - 1) % 2; to < count; to += 2) {
    while (from + 1 < to && !isSuch(from, to)) from++;
    first[to] = from;
    if (to > 0) first[to - 1] = Math.min(from, to - 2);
  }
  return first;
}

/** The cheapest ring of pieces. It has a joint within any stretch as long as the longest piece, so all begin within the first. */
function bestLoop(
  ruler: Ruler,
  rules: JointRules,
  places: Places,
  around: number,
  most: number,
): Joint[] | null {
  const costs = pieceCosts(places, rules, most);
  let past = 0;
  while (past < around && lengthsBetween(ruler, 0, places.joints[past].at)[1] <= most) past++;
  const rest = leastRest(costs, around, around + past - 1);
  let best: Chain | null = null;
  for (let first = 0; first < past; first++) {
    if (places.cost[first] === Infinity) continue;
    const enough = best ? best.cost + SAME : Infinity;
    const chain = cheapestChain(costs, first, first + around, { enough, rest });
    if (!chain || (best && chain.cost >= best.cost)) continue;
    best = { between: [first, ...chain.between], cost: chain.cost };
  }
  if (!best) return null;
  return best.between.map((place) => intoFirstTurn(ruler, places.joints[place])).sort((a, b) => a.at - b.at);
}

function intoFirstTurn(ruler: Ruler, joint: Joint): Joint {
  const back = Math.floor(joint.at / ruler.length) * ruler.length;
  return { at: joint.at - back, from: joint.from - back, to: joint.to - back };
}
