import type { Cut, Marker, Placement } from "../packing/order.ts";

/** A straight cut with its turn, and where the rule is laid for it. */
export interface NumberedCut extends Cut {
  /** From 1 on, in the order in which the cuts are made. */
  readonly number: number;
  /** Across the width: from the beginning of the roll; across a lane: from that of its section; along: from the lower edge, mm. */
  readonly atMm: number;
}

/** What of a marker stands on one page. */
export interface Stretch {
  readonly fromMm: number;
  readonly toMm: number;
  readonly cuts: readonly NumberedCut[];
  /** Pieces that are seen on it, and those of them that begin on it. */
  readonly lying: readonly Placement[];
  readonly begun: readonly Placement[];
}

/** A difference in mm that is none. */
const DUST = 1e-3;

/**
 * The cuts of a marker in the order in which a table is worked: a section is cut off the roll, then taken apart, then the next. Each cut still
 * runs from edge to edge of what is left when its turn comes, as in the marker's own order.
 */
export function numberedCuts({ cuts }: Pick<Marker, "cuts">): NumberedCut[] {
  const across = cuts.filter(({ stage }) => stage === 1);
  const inner = cuts.filter(({ stage }) => stage > 1);
  const ends = across.map(({ fromMm }) => fromMm[0]);
  const numbered: NumberedCut[] = [];
  const add = (cut: Cut, atMm: number) => numbered.push({ ...cut, number: numbered.length + 1, atMm });
  for (let i = 0; i <= across.length; i++) {
    const begin = ends[i - 1] ?? 0;
    const end = ends[i] ?? Infinity;
    if (across[i]) add(across[i], end);
    for (const cut of inner) {
      const at = Math.min(cut.fromMm[0], cut.toMm[0]);
      // The first section may begin before the roll does, by half a gap.
      if ((i > 0 && at < begin - DUST) || at >= end - DUST) continue;
      add(cut, cut.stage === 3 ? cut.fromMm[0] - begin : cut.fromMm[1]);
    }
  }
  return numbered;
}

/**
 * A marker in stretches that go onto a page: at most `most` mm long and with at most `rows` cuts or pieces where that can be. With straight
 * cuts it is parted between sections only, so that none is on two pages unless it is longer than one.
 */
export function stretchesOf(
  { lengthMm, placements }: Marker,
  cuts: readonly NumberedCut[],
  most: number,
  rows: number,
): Stretch[] {
  const across = cuts.filter(({ stage }) => stage === 1).map(({ atMm }) => atMm);
  const sections = [...new Set([...across.filter((at) => at < lengthMm - DUST), lengthMm])];
  const extents = placements.map(extentOf);
  const stretches: Stretch[] = [];
  let from = 0;
  let last = 0;
  const end = (to: number) => {
    if (to > from + DUST) stretches.push(stretchOf(from, to, cuts, extents));
    from = to;
  };
  for (const section of sections) {
    const { cuts: own, begun } = stretchOf(from, section, cuts, extents);
    if (last > from && (section - from > most || Math.max(own.length, begun.length) > rows)) end(last);
    while (section - from > most + DUST) end(from + most);
    last = section;
  }
  end(lengthMm);
  return stretches;
}

/** A piece with where it begins and ends along the stock, mm. */
interface Extent {
  readonly placement: Placement;
  readonly begins: number;
  readonly ends: number;
}

function extentOf(placement: Placement): Extent {
  const { outline } = placement;
  let [begins, ends] = [Infinity, -Infinity];
  for (let i = 0; i < outline.length; i += 2) {
    begins = Math.min(begins, outline[i]);
    ends = Math.max(ends, outline[i]);
  }
  return { placement, begins, ends };
}

function stretchOf(
  fromMm: number,
  toMm: number,
  cuts: readonly NumberedCut[],
  extents: readonly Extent[],
): Stretch {
  const lying = extents.filter(({ begins, ends }) => begins < toMm && ends > fromMm);
  return {
    fromMm,
    toMm,
    // A cut across the width ends a section, and stands on its page; others stand where they begin.
    cuts: cuts.filter(({ stage, fromMm: [x], toMm: [other] }) => {
      const at = Math.min(x, other);
      return stage === 1
        ? at > fromMm + DUST && at <= toMm + DUST
        : (fromMm === 0 || at >= fromMm - DUST) && at < toMm - DUST;
    }),
    lying: lying.map(({ placement }) => placement),
    begun: lying
      .filter(({ begins }) => begins >= fromMm)
      .sort((a, b) => a.begins - b.begins || a.placement.yMm - b.placement.yMm)
      .map(({ placement }) => placement),
  };
}
