/**
 * Where a step, ledge, bench or seat stands in the plan, as a chain with the footprint on its left. It reaches past the
 * walls that it stands against, so that only its free edges are seen.
 */
import type { Chain, Line, Outline, Segment } from "../plan/chain.ts";
import { crossings, meetings } from "../plan/crossings.ts";
import { cutChain, makeChain, reverseChain } from "../plan/make-chain.ts";
import { nearest } from "../plan/nearest.ts";
import { pointAt } from "../plan/point-at.ts";
import { resolveRimPlace } from "../plan/rim-place.ts";
import { arc, line, type Place, reverseSegment, segmentEnd, segmentStart } from "../plan/segments.ts";
import type { FootprintSpec } from "../project/schema.ts";
import { largestThatWorks } from "./figure-that-works.ts";
import { rounder, roundJoints, shiftSegments } from "./loop.ts";
import type { Adjustment } from "./shell.ts";

/** How far a footprint reaches past the wall it stands against, mm (less where a reflex corner leaves less room). */
const PAST_WALL = 200;
const FAR = 40000;

export interface FootprintAsk {
  readonly place: FootprintSpec;
  /** From the wall into the pool. */
  readonly reach: number;
  /** Further along the run at each free end, for treads that go round the ones above. */
  readonly wrap: number;
  /** Least plan radius of a re-entrant corner of the riser, so that draft and the radius at its foot fit. */
  readonly reentrant: number;
  /** Plan radius that an outward corner of the riser needs, so that the nose of its tread goes round it as it is. */
  readonly outward: number;
  /** A free end nearer than this to the next wall, or to another feature, is carried to it. */
  readonly slot: number;
  /** Footprints of other features: a free end nearer than `slot` to one is carried to it. */
  readonly others: readonly { readonly footprint: Chain; readonly depth: number }[];
  /** Depth of this tread, mm. */
  readonly depth: number;
  /** Name for adjustments, e.g. `bench-1`. */
  readonly name: string;
  /** What the file calls the reach: of a lower tread, its going beyond the treads above, which reach `above` mm. */
  readonly figure: string;
  readonly above: number;
}

export type FootprintResult =
  | {
      readonly ok: true;
      readonly chain: Chain;
      /** Least plan radius of its outward corners, mm. */
      readonly tightest: number;
      readonly adjustments: readonly Adjustment[];
    }
  | {
      readonly ok: false;
      /** The figure that is refused: the reach, or one of the place's own by its path from there, with what stands there. */
      readonly at: "reach" | { readonly field: string; readonly value: unknown };
      readonly why: string;
      readonly wouldWork: string;
    };

/** A reach in the file's own terms: of lower treads, all goings down to there. */
function ofReach({ figure, above }: FootprintAsk, bound: string, reach: number): string {
  return above > 0
    ? `goings that come to ${bound} ${reach} mm together`
    : `a ${figure} of ${bound} ${reach} mm`;
}

/** Builds a footprint's chain. Refuses, with a figure that would work, what has no room. */
export function buildFootprint(outline: Outline, ask: FootprintAsk): FootprintResult {
  switch (ask.place.kind) {
    case "end":
      return atEnd(outline, ask, ask.place.end);
    case "corner":
      return inCorner(outline, ask, ask.place.corner, ask.place.shape);
    case "along":
      return along(outline, ask, ask.place);
    case "round":
      return allRound(outline, ask);
  }
}

const built = (
  chain: Chain,
  tightest = Infinity,
  adjustments: readonly Adjustment[] = [],
): FootprintResult => ({ ok: true, chain, tightest, adjustments });

function atEnd(outline: Outline, ask: FootprintAsk, end: "shallow" | "deep"): FootprintResult {
  const { length } = outline.extent;
  if (ask.reach >= length - 300) {
    return {
      ok: false,
      at: "reach",
      why: `reaches ${Math.round(ask.reach)} mm into a pool ${Math.round(length)} mm long`,
      wouldWork: ofReach(ask, "at most", Math.floor(length - 300)),
    };
  }
  const x = end === "shallow" ? ask.reach : length - ask.reach;
  const way = end === "shallow" ? 1 : -1;
  return built(makeChain([line(x, -way * FAR, x, way * FAR)], false));
}

function inCorner(
  outline: Outline,
  ask: FootprintAsk,
  corner: string,
  shape: "round" | "square",
): FootprintResult {
  const { chain, runs } = outline;
  const run = runs.find((r) => r.id === corner);
  const segment = run
    ? chain.stations.findIndex((s, i) => i < chain.segments.length && Math.abs(s - run.from) < 1e-6)
    : -1;
  const n = chain.segments.length;
  const prev = chain.segments[(segment + n - 1) % n];
  const next = chain.segments[(segment + 1) % n];
  const here = chain.segments[segment];
  const corners = runs.filter((r) => r.kind === "curved").map((r) => r.id);
  if (
    !run ||
    !here ||
    here.kind !== "arc" ||
    here.sweep <= 0 ||
    prev.kind !== "line" ||
    next.kind !== "line"
  ) {
    return {
      ok: false,
      at: { field: "corner", value: corner },
      why: `"${corner}" is not an inward corner between two straight sides`,
      wouldWork: `one of: ${corners.join(", ")}`,
    };
  }
  const det = prev.ux * next.uy - prev.uy * next.ux;
  const t = ((next.ax - prev.ax) * next.uy - (next.ay - prev.ay) * next.ux) / det;
  const x = prev.ax + t * prev.ux;
  const y = prev.ay + t * prev.uy;
  const least = Math.max(here.radius * 0.42 + 100, ask.outward);
  if (ask.reach < least) {
    return {
      ok: false,
      at: "reach",
      why: `reaches ${Math.round(ask.reach)} mm from the corner point, but the corner's own radius of ${Math.round(here.radius)} mm takes that up`,
      wouldWork: ofReach(ask, "at least", Math.ceil(least)),
    };
  }
  if (shape === "round") {
    return built(makeChain([arc(x, y, ask.reach, 0, Math.PI), arc(x, y, ask.reach, Math.PI, Math.PI)], true));
  }
  // In from the next side, along the previous one, then back out along the next: the corner stays on the left.
  const slant = ask.reach / det;
  const tipX = x + (next.ux - prev.ux) * slant;
  const tipY = y + (next.uy - prev.uy) * slant;
  const a = line(tipX + prev.ux * FAR, tipY + prev.uy * FAR, tipX, tipY);
  const b = line(tipX, tipY, tipX - next.ux * FAR, tipY - next.uy * FAR);
  const square = roundJoints([a, b], false, () => Math.max(ask.outward, Math.min(250, ask.reach / 3)));
  return square
    ? built(square)
    : {
        ok: false,
        at: { field: "shape", value: shape },
        why: "finds no room in this corner",
        wouldWork: "a round one, or a corner between square sides",
      };
}

const noRoom = (ask: FootprintAsk): FootprintResult => ({
  ok: false,
  at: "reach",
  why: `with a reach of ${Math.round(ask.reach)} mm its inner edge finds no room in the outline's corners`,
  wouldWork: `${ofReach(ask, "at most about", Math.floor(ask.reach / 2))}, or larger plan corners`,
});

function allRound(outline: Outline, ask: FootprintAsk): FootprintResult {
  const chain = rounder(outline.chain, () => ask.reach + ask.reentrant);
  const inner = chain && shiftSegments(chain.segments, ask.reach);
  if (!inner) return noRoom(ask);
  return built(reverseChain(makeChain(inner, true)));
}

/** All round in place of a run whose two ends come within `gap` mm of each other; 0 where that was asked for. */
function closed(
  outline: Outline,
  ask: FootprintAsk,
  place: Extract<FootprintSpec, { kind: "along" }>,
  gap: number,
): FootprintResult {
  const ring = allRound(outline, ask);
  if (gap < 1e-6) return ring;
  if (!ring.ok) {
    return {
      ok: false,
      at: endOf(place),
      why: `leaves only ${Math.round(gap)} mm between its two ends, and ${ring.why}, so that it cannot go on all round`,
      wouldWork: `at least ${Math.ceil(ask.slot + 2 * place.endRadius)} mm between its ends`,
    };
  }
  const adjustment: Adjustment = {
    id: `${ask.name}/ends-joined`,
    what: `gap between the two ends of ${ask.name}`,
    asked: gap,
    used: 0,
    unit: "mm",
    why: "so narrow a slot cannot be moulded between rounded ends; it is carried on all round",
  };
  return { ...ring, adjustments: [...ring.adjustments, adjustment] };
}

/** Ends that face each other within 20° can leave a slot, mm; others leave a wedge, or meet. */
const FACING = Math.cos(Math.PI / 9);

/** Distance between the two ends of a run that comes round to its own start, mm; Infinity where they do not face each other. */
function gapBetweenEnds(inner: readonly Segment[], outer: readonly Segment[]): number {
  const caps = [inner, outer].map((path) => [segmentStart(path[0]), segmentEnd(path[path.length - 1])]);
  const [[i0, i1], [o0, o1]] = caps;
  const [start, end] = [line(i0.x, i0.y, o0.x, o0.y), line(i1.x, i1.y, o1.x, o1.y)];
  if (meetings(start, end).length > 0) return 0;
  if (i0.tx * i1.tx + i0.ty * i1.ty < FACING) return Infinity;
  // Each must lie ahead of the other, and not behind its back.
  if ((i0.x - i1.x) * i1.tx + (i0.y - i1.y) * i1.ty < 0) return Infinity;
  const apart = (cap: Line, { x, y }: Place) => {
    const t = (x - cap.ax) * cap.ux + (y - cap.ay) * cap.uy;
    const on = Math.min(Math.max(t, 0), cap.length);
    return Math.hypot(x - cap.ax - on * cap.ux, y - cap.ay - on * cap.uy);
  };
  return Math.min(apart(start, i1), apart(start, o1), apart(end, i0), apart(end, o0));
}

function along(
  outline: Outline,
  ask: FootprintAsk,
  place: Extract<FootprintSpec, { kind: "along" }>,
): FootprintResult {
  const from = resolveRimPlace(outline, place.from);
  const to = resolveRimPlace(outline, place.to);
  // Places that the outline does not have were refused before.
  if (!("station" in from && "station" in to)) throw new RangeError(`${ask.name} has no place on the rim.`);
  const stretch = clearOfCorners(outline, ask, from.station, to.station);
  const free = outline.chain.length - stretch.span;
  if (free <= 2 * place.endRadius) return closed(outline, ask, place, free);
  if (stretch.span < 2 * ask.reach * 0.2 + 60) {
    return {
      ok: false,
      at: endOf(place),
      why: `has only ${Math.max(0, Math.round(stretch.span))} mm of its run outside the plan corners`,
      wouldWork: "a run that reaches well past the corner, or ends before it",
    };
  }
  const need = ask.reach + ask.reentrant;
  const chain = rounder(outline.chain, (i) => (stretch.inside.includes(i) ? need : 0));
  if (!chain) return noRoom(ask);
  const on = (station: number) => {
    const p = pointAt(outline.chain, station);
    return nearest(chain, p.x, p.y).station;
  };
  const start = on(stretch.from);
  let span = on(stretch.from + stretch.span) - start;
  while (span <= 0) span += chain.length;
  const reflex = Math.min(
    ...chain.segments.map((s) => (s.kind === "arc" && s.sweep < 0 ? s.radius : Infinity)),
  );
  const past = Math.min(PAST_WALL, 0.8 * reflex);
  const runOf = (along: Chain, from: number, length: number) =>
    withoutStubs(cutChain(along, from, from + length).segments, place.endRadius + 60);
  const inner = shiftSegments(runOf(chain, start, span), ask.reach);
  // Past the wall as it is drawn: past the rounded run a tight corner would stick out of a wide feature.
  const outer = shiftSegments(runOf(outline.chain, stretch.from, stretch.span), -past);
  if (!inner || !outer) return noRoom(ask);

  const between = gapBetweenEnds(inner, outer);
  if (between < ask.slot) return closed(outline, ask, place, between);

  const adjustments: Adjustment[] = [];
  const extension = (end: "start" | "end"): number => {
    const place = end === "start" ? segmentStart(inner[0]) : segmentEnd(inner[inner.length - 1]);
    const way = end === "start" ? -1 : 1;
    const { gap, wall } = gapAhead(outline.chain, ask, place, way);
    if (gap >= ask.slot) return 0;
    adjustments.push({
      id: `${ask.name}/${end}-carried-on`,
      what: `gap between the ${end} of ${ask.name} and what stands next to it`,
      asked: gap,
      used: 0,
      unit: "mm",
      why: `a slot narrower than ${Math.round(ask.slot)} mm cannot be moulded; the end is carried across it`,
    });
    return wall ? gap + past + BEYOND : gap + INTO;
  };
  const stretched = (path: readonly Segment[], before: number, after: number): Segment[] => {
    const on = [...path];
    const last = on[on.length - 1];
    if (after > 0 && last.kind === "line") on[on.length - 1] = longer(last, after, true);
    else if (after > 0) on.push(onward(segmentEnd(last), after));
    const [first] = on;
    if (before > 0 && first.kind === "line") on[0] = longer(first, before, false);
    else if (before > 0) on.unshift(reverseSegment(onward(segmentEnd(reverseSegment(first)), before)));
    return on;
  };
  const before = extension("start");
  const after = extension("end");
  const inside = stretched(inner, before, after);
  const outside = stretched(outer, before, after);
  const insideBack = [...inside].reverse().map(reverseSegment);
  const i0 = segmentStart(inside[0]);
  const o0 = segmentStart(outside[0]);
  const i1 = segmentEnd(inside[inside.length - 1]);
  const o1 = segmentEnd(outside[outside.length - 1]);
  const loop = [...insideBack, line(i0.x, i0.y, o0.x, o0.y), ...outside, line(o1.x, o1.y, i1.x, i1.y)];
  const startCap = insideBack.length;
  const endCap = loop.length - 1;
  const most = Math.max(ask.outward, Math.min(place.endRadius, 0.6 * (ask.reach + past)));
  const withEnds = (radius: number) =>
    roundJoints(loop, true, (j) =>
      j === startCap - 1 || j === endCap
        ? radius
        : j === startCap || j === endCap - 1
          ? Math.min(40, past / 2)
          : null,
    );
  const fits = (radius: number) => withEnds(radius) !== null;
  const largest = fits(most) ? most : largestThatWorks(LEAST_END, most, fits);
  const radius = largest !== null && largest < ask.outward && fits(ask.outward) ? ask.outward : largest;
  const rounded = radius === null ? null : withEnds(radius);
  if (radius === null || !rounded) {
    return {
      ok: false,
      at: endOf(place),
      why: `has no room for its ends on a run of ${Math.round(span)} mm`,
      wouldWork: `a run of at least ${Math.ceil(4 * place.endRadius)} mm`,
    };
  }
  if (Math.abs(radius - place.endRadius) > 1e-9) {
    adjustments.push({
      id: `${ask.name}/end-radius`,
      what: `end radius of ${ask.name}`,
      asked: place.endRadius,
      used: radius,
      unit: "mm",
      why:
        radius < place.endRadius
          ? "no larger one fits its reach and run"
          : "the nose of its tread goes round no smaller one",
    });
  }
  // An edge that crosses itself stands on both sides of its own riser, which tears the shell.
  return crossings(rounded).length > 0 ? noRoom(ask) : built(rounded, radius, adjustments);
}

/** Where a run ends, as the file tells it. */
function endOf({ to }: Extract<FootprintSpec, { kind: "along" }>) {
  return "part" in to ? { field: "to.part", value: to.part } : { field: "to.distance", value: to.distance };
}

/**
 * The stretch of the rim that a feature follows. A tight corner (no room for the inner edge as drawn) that lies wholly
 * within it is rounded; one that an end falls into is left out, and the feature ends where the corner begins.
 */
function clearOfCorners(
  outline: Outline,
  ask: FootprintAsk,
  fromStation: number,
  toStation: number,
): { from: number; span: number; inside: number[] } {
  const { chain } = outline;
  const total = chain.length;
  const turn = (s: number) => s - Math.floor(s / total) * total;
  let from = fromStation - ask.wrap;
  const given = turn(toStation - fromStation) || total;
  let span = Math.min(total, given + 2 * ask.wrap);
  const need = ask.reach + ask.reentrant;
  const tight = (i: number) => {
    const s = chain.segments[(i + chain.segments.length) % chain.segments.length];
    return s.kind === "arc" && s.sweep > 0 && s.radius < need;
  };
  const inside: number[] = [];
  chain.segments.forEach((s, i) => {
    if (!tight(i) || s.kind !== "arc") return;
    // Rounding it takes this much of the sides; next to another tight arc the two are taken together.
    const takes = (need - s.radius) * Math.tan(Math.min(s.sweep, 2.4) / 2);
    const before = tight(i - 1) ? 0 : takes;
    const after = tight(i + 1) ? 0 : takes;
    const a = turn(chain.stations[i] - from);
    const b = a + s.length;
    if (a - before >= 0 && b + after <= span) inside.push(i);
    else if (a < span && b - a < total) {
      // An end falls into the corner's reach: keep the longer side of it.
      if (a > span - b) span = a;
      else {
        from += b;
        span -= b;
      }
    } else if (b > total) {
      from += b - total;
      span -= b - total;
    }
  });
  return { from: turn(from), span, inside };
}

/**
 * A stub at an end of the run, too short for the end's radius, is taken over by the segment beside it, which is
 * lengthened by as much.
 */
function withoutStubs(run: readonly Segment[], least: number): Segment[] {
  const path = [...run];
  while (path.length > 1 && path[path.length - 1].length < least) {
    const stub = path.pop() as Segment;
    path.push(longer(path.pop() as Segment, stub.length, true));
  }
  while (path.length > 1 && path[0].length < least) {
    const stub = path.shift() as Segment;
    path.unshift(longer(path.shift() as Segment, stub.length, false));
  }
  return path;
}

/** A segment that goes on as it runs by so much at its end, or begins so much sooner, mm. */
function longer(s: Segment, by: number, atEnd: boolean): Segment {
  if (s.kind === "line") {
    const [dx, dy] = [s.ux * by, s.uy * by];
    return atEnd ? line(s.ax, s.ay, s.bx + dx, s.by + dy) : line(s.ax - dx, s.ay - dy, s.bx, s.by);
  }
  const turn = (Math.sign(s.sweep) * by) / s.radius;
  return arc(s.cx, s.cy, s.radius, atEnd ? s.start : s.start - turn, s.sweep + turn);
}

/** A straight piece from a place on in its direction, mm. */
const onward = ({ x, y, tx, ty }: Place, by: number): Segment => line(x, y, x + by * tx, y + by * ty);

/** An extended end goes this much further than the wall it is carried to, or into the other feature, mm. */
const BEYOND = 100;
const INTO = 60;

/** No end is rounded less, mm. */
const LEAST_END = 20;
/** An end that reaches less than this into another feature is carried on into it as well, mm. */
const BARELY = 30;

/**
 * Free way ahead of a free end until the next wall or feature, at most the ask's `slot`, mm: the least of three rays out
 * from its cap. A ray that begins in a higher feature is hidden there and leaves no slot.
 */
function gapAhead(
  chain: Chain,
  ask: FootprintAsk,
  place: Place,
  way: 1 | -1,
): { gap: number; wall: boolean } {
  const least = { gap: ask.slot, wall: false };
  for (const part of [0, 0.4, 0.75]) {
    // The end's cap runs from the inner edge straight to the wall on its right.
    const x = place.x + place.ty * ask.reach * part;
    const y = place.y - place.tx * ask.reach * part;
    const here = ask.others.map((o) => nearest(o.footprint, x, y).distance);
    if (ask.others.some((o, i) => here[i] <= -BARELY && o.depth <= ask.depth)) continue;
    // Barely inside another the ground between the two ends would be a sheet thinner than the laminate.
    if (here.some((h) => h < 0 && h > -BARELY)) return { gap: 0, wall: false };
    const near = ask.others.filter((_, i) => here[i] >= 0 && here[i] < ask.slot);
    for (let t = 0; t < least.gap; t += 5) {
      const px = x + way * place.tx * t;
      const py = y + way * place.ty * t;
      const wall = nearest(chain, px, py).distance >= 0;
      if (!wall && near.every((o) => nearest(o.footprint, px, py).distance > 0)) continue;
      least.gap = t;
      least.wall = wall;
    }
  }
  return least;
}
