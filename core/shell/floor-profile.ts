import type { Chain, Outline, Segment } from "../plan/chain.ts";
import { line } from "../plan/segments.ts";
import type { ShellSpec } from "../project/schema.ts";
import { limits } from "../project/shell-schema.ts";
import { tiersOf } from "./blocks.ts";
import { largestThatWorks } from "./figure-that-works.ts";
import { roundJoints } from "./loop.ts";
import { betweenBlocks, radiiOf } from "./radii.ts";
import type { Adjustment, Refusal } from "./shell.ts";

/** Beyond the ends of the pool the floor runs on at its last slope, mm. */
const BEYOND = 3000;
/** A floor steeper than this cannot be walked or moulded as a floor. */
const STEEPEST = Math.PI / 4;
/** How much rounder the floor's breaks are than the valleys of its hopper. */
export const VALLEY = 1.25;

export interface FloorShape {
  /** Chain in (x, w), w = z·cos(fall) − y·sin(fall), ground on its right. */
  readonly profile: Chain;
  /** Radians, positive: deeper on the right. */
  readonly fall: number;
  /** Radius of the rounded breaks as built, mm. */
  readonly breakRadius: number;
  /** Depth at a plan point, breaks taken sharp, mm. */
  readonly depthAt: (x: number, y: number) => number;
  readonly deepest: number;
  readonly adjustments: readonly Adjustment[];
}

/**
 * The floor's profile from its stations, with rounded breaks. A break that opens upwards must be rounder than every ball that
 * rolls along it, of the cove and at the foot of risers: it is raised and reported.
 */
export function shapeFloor(spec: ShellSpec, outline: Outline): FloorShape | Refusal[] {
  const { stations, hopper } = spec.floor;
  const fall = Math.atan(spec.floor.crossFall / 1000);
  const cos = Math.cos(fall);
  const refusals: Refusal[] = [];
  for (let i = 1; i < stations.length; i++) {
    const run = stations[i].at - stations[i - 1].at;
    const drop = Math.abs(stations[i].depth - stations[i - 1].depth);
    if (run <= 0 || Math.atan2(drop, run) > STEEPEST) {
      const { at, depth } = stations[i - 1];
      const further = Math.ceil(at + Math.max(drop, 1));
      const room = further < (stations[i + 1]?.at ?? limits.station[1] + 1);
      const flatter =
        stations[i].depth > depth
          ? `a depth of at most ${Math.floor(depth + run)} mm there`
          : `a depth of at least ${Math.ceil(depth - run)} mm there`;
      refusals.push({
        path: `shell.floor.stations[${i}].at`,
        value: stations[i].at,
        why: `the floor changes depth by ${Math.round(drop)} mm in ${Math.round(run)} mm, steeper than 1 in 1`,
        wouldWork: room || run <= 0 ? `at least ${further} mm` : flatter,
      });
    }
  }
  if (refusals.length > 0) return refusals;

  const points = stations.map((s) => ({ x: s.at, w: -s.depth * cos }));
  if (points.length === 1) points.push({ x: points[0].x + 1000, w: points[0].w });
  const first = points[0];
  const last = points[points.length - 1];
  const slopeIn = (points[1].w - first.w) / (points[1].x - first.x);
  const slopeOut = (last.w - points[points.length - 2].w) / (last.x - points[points.length - 2].x);
  const x0 = Math.min(0, first.x) - BEYOND;
  const x1 = Math.max(outline.extent.length, last.x) + BEYOND;
  const path = [
    { x: x0, w: first.w + slopeIn * (x0 - first.x) },
    ...points,
    { x: x1, w: last.w + slopeOut * (x1 - last.x) },
  ];
  const segments: Segment[] = [];
  for (let i = 1; i < path.length; i++) {
    const a = path[i - 1];
    const b = path[i];
    const before = segments[segments.length - 1];
    const slope = (b.w - a.w) / (b.x - a.x);
    // A station on a straight slope is no break.
    if (before?.kind === "line" && Math.abs(before.uy / before.ux - slope) < 1e-9) {
      segments[segments.length - 1] = line(before.ax, before.ay, b.x, b.w);
    } else segments.push(line(a.x, a.w, b.x, b.w));
  }

  const asked = spec.floor.breakRadius;
  const adjustments: Adjustment[] = [];
  const opensUp = hopper !== undefined || segments.some((s, i) => i > 0 && turns(segments[i - 1], s) > 0);
  const balls = ballsOnFloor(spec);
  const [ball] = balls;
  const { profile, radius, wanted } = roundBreaks(
    segments,
    asked,
    opensUp ? leastBreak(ball.radius, hopper) : 0,
  );
  if (wanted > asked) {
    adjustments.push({
      id: "floor/break-radius",
      what: "radius of the floor's breaks",
      asked,
      used: wanted,
      unit: "mm",
      why: `${ball.what} of ${ball.radius} mm must roll along every break that opens upwards`,
    });
  }
  if (!profile) {
    const smaller = largestThatWorks(
      limits.cove[0],
      ball.radius,
      (tried) => roundBreaks(segments, asked, leastBreak(tried, hopper)).profile !== null,
    );
    const others = balls.some(({ radius }, i) => i > 0 && radius > (smaller ?? 0));
    return [
      {
        path: "shell.floor.stations",
        value: stations.map((s) => s.at),
        why: `breaks rounded to ${Math.round(wanted)} mm do not fit between the stations`,
        wouldWork: `stations further apart${smaller === null ? "" : `, or ${others ? "a cove and radii at the foot of risers" : ball.what} of at most ${smaller} mm`}`,
      },
    ];
  }
  if (radius < wanted) {
    adjustments.push({
      id: "floor/break-radius-fit",
      what: "radius of the floor's breaks",
      asked: wanted,
      used: radius,
      unit: "mm",
      why: "no larger one fits between the stations",
    });
  }

  const depthAt = (x: number, y: number): number => {
    let i = 1;
    while (i < path.length - 1 && x > path[i].x) i++;
    const a = path[i - 1];
    const b = path[i];
    const w = a.w + ((b.w - a.w) * (x - a.x)) / (b.x - a.x);
    const depth = -(w + y * Math.sin(fall)) / cos;
    if (!hopper) return depth;
    const side =
      hopper.depthAtWall +
      (outline.extent.width / 2 - Math.abs(y)) * Math.tan((hopper.slopeDeg * Math.PI) / 180);
    return Math.min(depth, side);
  };
  adjustments.push(...stationsBeyond(stations, outline.extent.length, depthAt));
  let deepest = 0;
  for (const s of [{ at: 0 }, ...stations, { at: outline.extent.length }])
    for (const y of [-0.5, 0, 0.5])
      deepest = Math.max(deepest, depthAt(Math.min(s.at, outline.extent.length), y * outline.extent.width));
  if (hopper && !isSeen(hopper, spec.floor.stations, outline, depthAt)) {
    adjustments.push({
      id: "floor/hopper-hidden",
      what: "depth of the hopper's sides at the wall, which are not to be seen",
      asked: hopper.depthAtWall,
      used: Math.round(deepest),
      unit: "mm",
      why: "the stations' floor lies above them everywhere",
    });
  }
  return { profile, fall, breakRadius: radius, depthAt, deepest, adjustments };
}

/** How much rounder than the largest ball on the floor a break that opens upwards must be. */
const ROUNDER = 1.05;
/** Where there is no room for the radius that is wanted, the breaks are rounded by this much less, time and again. */
const LESS = 0.9;

/** Least radius of a break that opens upwards, mm: the valleys of a hopper are rounded less than the breaks that run into them, and still more than the ball. */
const leastBreak = (ball: number, hopper: unknown): number => ball * (hopper ? ROUNDER * VALLEY : ROUNDER);

/** The profile with its breaks rounded to `asked`, or to `least` where that is more: both as far as there is room; null where that is not enough. */
function roundBreaks(segments: readonly Segment[], asked: number, least: number) {
  const wanted = Math.max(asked, least);
  let radius = wanted;
  let profile = roundJoints(segments, false, () => radius);
  for (; !profile && radius > 20; radius *= LESS) profile = roundJoints(segments, false, () => radius * LESS);
  return { profile: radius < least * 0.97 ? null : profile, radius, wanted };
}

/** The balls that roll along the floor by their radius, mm, and what asks for them, the largest first. */
function ballsOnFloor(spec: ShellSpec): { radius: number; what: string }[] {
  const radii = radiiOf(spec);
  const feet = spec.features.flatMap((feature, f) =>
    tiersOf(feature, `shell.features[${f}]`).map((tier) => ({
      radius: betweenBlocks(radii, tier, null),
      what: `a radius at the foot of ${tier.riser}`,
    })),
  );
  return [{ radius: radii.cove, what: radii.called("wall", "floor", "cove") }, ...feet].sort(
    (a, b) => b.radius - a.radius,
  );
}

/** A station may miss the pool's end by the rounding of another size, not by more, mm. */
const AT_END = 1;

/** Stations past the deep end: the floor slopes towards them and is cut off by the wall before. */
function stationsBeyond(
  stations: ShellSpec["floor"]["stations"],
  length: number,
  depthAt: FloorShape["depthAt"],
): Adjustment[] {
  return stations.flatMap(({ at, depth }, i): Adjustment[] => {
    if (at <= length + AT_END) return [];
    return [
      {
        id: `floor/station-${i + 1}-beyond`,
        what: `place of the floor's station ${i + 1} along the pool`,
        asked: at,
        used: length,
        unit: "mm",
        why: `the pool ends there, and its floor at a depth of ${Math.round(depthAt(length, 0))} mm, before the ${depth} mm of the station`,
      },
    ];
  });
}

/** Whether the sides of a hopper cut the stations' floor anywhere: at the side walls they are at their highest. */
function isSeen(
  hopper: NonNullable<ShellSpec["floor"]["hopper"]>,
  stations: ShellSpec["floor"]["stations"],
  { extent: { length, width } }: Outline,
  depthAt: FloorShape["depthAt"],
): boolean {
  const places = [0, length, ...stations.map(({ at }) => Math.min(at, length))];
  return places.some((x) =>
    [-1, 1].some((side) => depthAt(x, (side * width) / 2) > hopper.depthAtWall - 1e-6),
  );
}

function turns(a: Segment, b: Segment): number {
  return a.kind === "line" && b.kind === "line" ? a.ux * b.uy - a.uy * b.ux : 0;
}
