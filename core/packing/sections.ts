import { pick, type Random } from "./random.ts";
import type { Kind } from "./rectangles.ts";

/** Rectangles one after the other along a section. */
export interface Lane {
  readonly width: number;
  readonly kinds: readonly Kind[];
}

/** Lanes side by side between two cuts across the stock. */
export interface Section {
  readonly length: number;
  readonly lanes: readonly Lane[];
  /** Part of the section's area that the rectangles take. */
  readonly use: number;
}

/**
 * Gives a section for stock of a length and a width, or null when nothing fits; what it takes is taken from `wanted` (counts by demand).
 */
export type TakeSection = (
  wanted: Int32Array,
  length: number,
  width: number,
  random: Random,
) => Section | null;

/** How often a section is tried before the best is taken. */
const TRIES = 12;

/** A lane by the numbers of its kinds. */
interface Row {
  readonly width: number;
  readonly kinds: readonly number[];
  readonly area: number;
}

/**
 * What takes the fullest section of some tries. Each try opens with a long rectangle, which sets the length, and adds the lanes that fill it best;
 * chance has a say in all of it, so that tries differ (a greedy randomised construction: Feo and Resende, J. Global Optim. 6 (1995)).
 *
 * Lanes are tried some hundred thousand times for one plan: nothing is allocated for those that come to nothing.
 */
export function sectionsFrom(kinds: readonly Kind[]): TakeSection {
  const lengths = Float64Array.from(kinds, (kind) => kind.length);
  const widths = Float64Array.from(kinds, (kind) => kind.width);
  const demands = Int32Array.from(kinds, (kind) => kind.demand);
  const areas = Float64Array.from(kinds, (kind) => kind.length * kind.width);
  const weights = Float64Array.from(kinds, (kind) => kind.width ** 2 * kind.length);
  const longestFirst = [...kinds.keys()].sort((a, b) => lengths[b] - lengths[a]);
  const known = [...new Set(widths)];
  /** For each kind the number of its width, and for each width in which look at the kinds it was met last. */
  const widthOf = Int32Array.from(widths, (width) => known.indexOf(width));
  const met = new Int32Array(known.length);
  let look = 0;
  /** Kinds that fit, in their order, and how many. */
  const fitting = new Int32Array(kinds.length);
  let count = 0;
  /** What is still wanted in a try, by demand. */
  let left = new Int32Array(0);
  /** The lane at hand. */
  let lane: number[] = [];
  let laneArea = 0;

  /** Fills the rest of a lane with what is worth most. */
  const fillLane = (width: number, length: number, random: Random): void => {
    const from = lane.length;
    for (let room = length; ; ) {
      let best = -1;
      let most = 0;
      for (let i = 0; i < count; i++) {
        const kind = fitting[i];
        if (widths[kind] > width || lengths[kind] > room || left[demands[kind]] <= 0) continue;
        const value = weights[kind] * (0.5 + 0.5 * random());
        if (value > most) {
          most = value;
          best = kind;
        }
      }
      if (best < 0) break;
      lane.push(best);
      left[demands[best]]--;
      room -= lengths[best];
    }
    laneArea = 0;
    for (const kind of lane) laneArea += areas[kind];
    for (let i = from; i < lane.length; i++) left[demands[lane[i]]]++;
  };

  const bestRow = (room: number, length: number, random: Random): Row | null => {
    let best: Row | null = null;
    let most = 0;
    look++;
    for (let i = 0; i < count; i++) {
      const kind = fitting[i];
      const width = widths[kind];
      if (left[demands[kind]] <= 0 || width > room || lengths[kind] > length || met[widthOf[kind]] === look)
        continue;
      met[widthOf[kind]] = look;
      lane.length = 0;
      fillLane(width, length, random);
      // Wide lanes leave less to do for narrow ones; a lane that closes the section is worth most.
      const value = (laneArea / (width * length)) * (width / room) ** 0.3 * (0.7 + 0.3 * random());
      if (value <= most) continue;
      most = value;
      best = { width, kinds: lane, area: laneArea };
      lane = [];
    }
    return best;
  };

  const trySection = (
    openers: readonly number[],
    length: number,
    width: number,
    random: Random,
  ): { readonly rows: readonly Row[]; readonly used: number; readonly use: number } => {
    // A high power: mostly the longest, for what is long is hard to place later.
    const opener = openers[Math.floor(random() ** 4 * openers.length)];
    const own = lengths[opener];
    // Now and then room for a second one behind it.
    const second = random() < 0.3 ? lengths[openers[pick(random, openers.length)]] : 0;
    const long = own + second <= length ? own + second : own;
    left[demands[opener]]--;
    lane = [opener];
    fillLane(widths[opener], long - own, random);
    const rows: Row[] = [];
    let next: Row | null = { width: widths[opener], kinds: lane, area: laneArea };
    lane = [];
    for (let room = width; next; next = bestRow(room, long, random)) {
      // The opener is taken already.
      for (let i = rows.length === 0 ? 1 : 0; i < next.kinds.length; i++) left[demands[next.kinds[i]]]--;
      rows.push(next);
      room -= next.width;
    }
    // A section need be no longer than its longest lane.
    let used = 0;
    let area = 0;
    for (const row of rows) {
      let end = 0;
      for (const kind of row.kinds) end += lengths[kind];
      used = Math.max(used, end);
      area += row.area;
    }
    return { rows, used, use: area / (used * width) };
  };

  return (wanted, length, width, random) => {
    count = 0;
    for (let kind = 0; kind < kinds.length; kind++)
      if (wanted[demands[kind]] > 0 && lengths[kind] <= length && widths[kind] <= width)
        fitting[count++] = kind;
    if (count === 0) return null;
    const openers = longestFirst.filter(
      (kind) => wanted[demands[kind]] > 0 && lengths[kind] <= length && widths[kind] <= width,
    );
    if (left.length !== wanted.length) left = new Int32Array(wanted.length);
    let best: ReturnType<typeof trySection> | null = null;
    for (let i = 0; i < TRIES; i++) {
      left.set(wanted);
      const section = trySection(openers, length, width, random);
      if (best === null || section.use > best.use) best = section;
    }
    if (best === null) return null;
    for (const row of best.rows) for (const kind of row.kinds) wanted[demands[kind]]--;
    const lanes = best.rows.map((row): Lane => {
      return { width: row.width, kinds: row.kinds.map((kind) => kinds[kind]) };
    });
    return { length: best.used, lanes, use: best.use };
  };
}
