import type { Outline, Segment } from "../plan/chain.ts";
import { crossings } from "../plan/crossings.ts";
import { cutChain } from "../plan/make-chain.ts";
import { nearest } from "../plan/nearest.ts";
import { pointAt } from "../plan/point-at.ts";
import { resolveRimPlace } from "../plan/rim-place.ts";
import { line, reverseSegment, segmentEnd, segmentStart } from "../plan/segments.ts";
import type { FootprintSpec } from "../project/schema.ts";
import { allRound } from "./all-round.ts";
import { largestThatWorks } from "./figure-that-works.ts";
import { built, type FootprintAsk, type FootprintResult, noRoom } from "./footprint-ask.ts";
import { gapAhead, gapBetweenEnds } from "./gaps-at-ends.ts";
import { rounder, roundJoints, shiftSegments } from "./loop.ts";
import { clearOfCorners, longer, onward, withoutStubs } from "./run-of-rim.ts";
import type { Adjustment } from "./shell.ts";

/** How far a footprint reaches past the wall it stands against, mm (less where a reflex corner leaves less room). */
const PAST_WALL = 200;
/** An extended end goes this much further than the wall it is carried to, or into the other feature, mm. */
const BEYOND = 100;
const INTO = 60;
/** No end is rounded less, mm. */
const LEAST_END = 20;

/** A footprint along a run of the rim, with rounded free ends; an end that would leave a slot is carried across it. */
export function alongRim(
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
      wouldWork: null,
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
  const asRounded = cutChain(chain, start, start + span).segments;
  const run = withoutStubs(asRounded, place.endRadius + 60);
  // Past the wall as it is drawn: past the rounded run a tight corner would stick out of a wide feature.
  const asDrawn = cutChain(outline.chain, stretch.from, stretch.from + stretch.span).segments;
  const inner = shiftSegments(run, ask.reach);
  const outer = shiftSegments(run.length === asRounded.length ? asDrawn : run, -past);
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
      wouldWork: null,
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
      wouldWork: null,
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

/** Where a run ends, as the file tells it. */
function endOf({ to }: Extract<FootprintSpec, { kind: "along" }>) {
  return "part" in to ? { field: "to.part", value: to.part } : { field: "to.distance", value: to.distance };
}
