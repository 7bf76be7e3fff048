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

/** How often a section is tried before the best is taken. */
const TRIES = 12;

/**
 * The fullest section of some tries, or null when nothing fits; what it takes is taken from `wanted` (counts by demand).
 * Each try opens with a long rectangle, which sets the length, and adds the lanes that fill it best; chance has a say in
 * all of it, so that tries differ (a greedy randomised construction: Feo and Resende, J. Global Optim. 6 (1995)).
 */
export function takeSection(
  kinds: readonly Kind[],
  wanted: Int32Array,
  length: number,
  width: number,
  random: Random,
): Section | null {
  let best: Section | null = null;
  for (let i = 0; i < TRIES; i++) {
    const section = trySection(kinds, wanted.slice(), length, width, random);
    if (section && (best === null || section.use > best.use)) best = section;
  }
  for (const { kinds } of best?.lanes ?? []) for (const { demand } of kinds) wanted[demand]--;
  return best;
}

function trySection(
  kinds: readonly Kind[],
  wanted: Int32Array,
  length: number,
  width: number,
  random: Random,
): Section | null {
  const fits = (kind: Kind) => wanted[kind.demand] > 0 && kind.length <= length && kind.width <= width;
  const openers = kinds.filter(fits).sort((a, b) => b.length - a.length);
  if (openers.length === 0) return null;
  // A high power: mostly the longest, for what is long is hard to place later.
  const opener = openers[Math.floor(random() ** 4 * openers.length)];
  // Now and then room for a second one behind it.
  const second = random() < 0.3 ? openers[pick(random, openers.length)].length : 0;
  const long = opener.length + second <= length ? opener.length + second : opener.length;
  wanted[opener.demand]--;
  const lanes = [fillLane([opener], kinds, wanted, opener.width, long, random)];
  take(wanted, lanes[0].kinds.slice(1));
  let room = width - opener.width;
  for (;;) {
    const lane = bestLane(kinds, wanted, room, long, random);
    if (lane === null) break;
    take(wanted, lane.kinds);
    lanes.push(lane);
    room -= lane.width;
  }
  // A section need be no longer than its longest lane.
  const used = Math.max(...lanes.map((lane) => lane.kinds.reduce((sum, kind) => sum + kind.length, 0)));
  const area = lanes.reduce((sum, lane) => sum + areaOf(lane), 0);
  return { length: used, lanes, use: area / (used * width) };
}

function bestLane(
  kinds: readonly Kind[],
  wanted: Int32Array,
  room: number,
  length: number,
  random: Random,
): Lane | null {
  const widths = new Set<number>();
  for (const kind of kinds)
    if (wanted[kind.demand] > 0 && kind.width <= room && kind.length <= length) widths.add(kind.width);
  let best: Lane | null = null;
  let most = 0;
  for (const width of widths) {
    const lane = fillLane([], kinds, wanted, width, length, random);
    // Wide lanes leave less to do for narrow ones; a lane that closes the section is worth most.
    const value = (areaOf(lane) / (width * length)) * (width / room) ** 0.3 * (0.7 + 0.3 * random());
    if (value > most) {
      most = value;
      best = lane;
    }
  }
  return best;
}

function fillLane(
  first: readonly Kind[],
  kinds: readonly Kind[],
  wanted: Int32Array,
  width: number,
  length: number,
  random: Random,
): Lane {
  const chosen = [...first];
  let room = length - first.reduce((sum, kind) => sum + kind.length, 0);
  for (;;) {
    let best: Kind | null = null;
    let most = 0;
    for (const kind of kinds) {
      if (kind.width > width || kind.length > room) continue;
      let left = wanted[kind.demand];
      for (let i = first.length; i < chosen.length; i++) if (chosen[i].demand === kind.demand) left--;
      if (left <= 0) continue;
      const value = kind.width ** 2 * kind.length * (0.5 + 0.5 * random());
      if (value > most) {
        most = value;
        best = kind;
      }
    }
    if (best === null) return { width, kinds: chosen };
    chosen.push(best);
    room -= best.length;
  }
}

function take(wanted: Int32Array, kinds: readonly Kind[]): void {
  for (const { demand } of kinds) wanted[demand]--;
}

const areaOf = ({ kinds }: Lane) => kinds.reduce((sum, { length, width }) => sum + length * width, 0);
