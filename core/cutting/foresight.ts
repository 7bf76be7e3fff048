import type { Fit } from "../cloth/fit.ts";
import { foretell, isForetold } from "../cloth/foretell.ts";
import { turningBetween, turningOf } from "../cloth/turning.ts";
import type { ClothZone } from "../cloth/zone.ts";
import { MOST_TIMES } from "./fit-part.ts";
import type { Ruler } from "./ruler.ts";

/** Tells whether one piece of cloth, not cut, will lie between two stations of a ply, and learns from those that were tried. On a closed ruler stations may pass its ends by as much as a piece does. */
export interface Foresight {
  readonly lies: (from: number, to: number) => boolean;
  /** Whether the piece was tried, and lies. */
  readonly isFound: (from: number, to: number) => boolean;
  /** Takes note of a piece that was tried and whether it lies; true where that was not foretold. */
  readonly learn: (from: number, to: number, fit: Fit | null, lies: boolean) => boolean;
}

/** Where a piece did not lie, and how many times more than foretold it was sheared, at which station. */
interface Lesson {
  readonly from: number;
  readonly to: number;
  readonly station: number;
  readonly times: number;
}

/** Of the locking angle so much may be foretold: what is foretold is not exact. */
const SURE = 0.97;

/**
 * Foretells how cloth that locks at an angle (rad) and comes on a roll so wide (mm) lies along a ply, from what its zone turns alone (`foretell`): it costs
 * no evaluation of the field.
 */
export function foresightAlong(
  { length, closed }: Ruler,
  zoneOf: (from: number, to: number) => ClothZone,
  locking: number,
  rollWidth: number,
): Foresight {
  const whole = zoneOf(0, closed ? 2 * length : length);
  const turning = turningOf(whole);
  const width = whole.left + whole.right;
  const room = width > rollWidth ? Infinity : rollWidth - width;
  /** By times, then by stretch. */
  const known = new Map<number, Map<number, boolean>>();
  const lessons: Lesson[] = [];
  const found = new Set<number>();
  /** Where they end: asked first, since what might have been found is asked for by the thousand. */
  const ends = new Set<number>();
  /** The hundredth of a millimetre of the first turn in which a station lies. */
  const spotOf = (station: number) => Math.round(100 * (closed ? station % length : station));
  const between = (from: number, to: number) =>
    turningBetween(turning, whole.from + from, whole.from + Math.min(to, whole.to - whole.from));
  /** The same stretch within the first turn. */
  const inFirstTurn = (from: number, to: number): readonly [number, number] => {
    const turn = closed ? Math.floor(from / length) * length : 0;
    return [from - turn, to - turn];
  };
  /** How many times more than foretold the stretch is sheared; Infinity where one within it did not lie. */
  const timesOf = (from: number, to: number): number => {
    let times = 1;
    for (const lesson of lessons)
      for (const turn of closed ? [-length, 0, length] : [0]) {
        if (lesson.from + turn >= from - 1e-6 && lesson.to + turn <= to + 1e-6) return Infinity;
        if (lesson.station + turn > from && lesson.station + turn < to) times = Math.max(times, lesson.times);
      }
    return times;
  };
  const lies = (from: number, to: number) => {
    const [a, b] = inFirstTurn(from, to);
    const times = timesOf(a, b);
    if (times === Infinity) return false;
    const own = known.get(times) ?? new Map<number, boolean>();
    known.set(times, own);
    const key = keyOf(a, b);
    const told = own.get(key) ?? isForetold(between(a, b), (SURE * locking) / times, room);
    own.set(key, told);
    return told;
  };
  const learn = (from: number, to: number, fit: Fit | null, isLying: boolean) => {
    const [a, b] = inFirstTurn(from, to);
    if (isLying) {
      found.add(keyOf(a, b));
      // Stations of two turns differ by rounding.
      for (const by of [-1, 0, 1]) ends.add(spotOf(b) + by);
    }
    if (isLying || !lies(from, to)) return false;
    const { station, most } = fit?.drape.shear ?? { station: whole.from + (from + to) / 2, most: Infinity };
    const [way] = foretell(between(a, b));
    const times = way && most > locking ? Math.min(MOST_TIMES, most / way.shear) : 1;
    lessons.push({ from: a, to: b, station: station - whole.from - (from - a), times });
    return true;
  };
  return {
    lies,
    isFound: (from, to) => ends.has(spotOf(to)) && found.has(keyOf(...inFirstTurn(from, to))),
    learn,
  };
}

/** One number for two stations, to a hundredth of a millimetre. */
const keyOf = (from: number, to: number): number => Math.round(100 * from) * 1e8 + Math.round(100 * to);
