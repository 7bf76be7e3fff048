import { nearest } from "../plan/nearest.ts";
import { pointAt } from "../plan/point-at.ts";
import type { Transition } from "../shell/transitions.ts";
import { projectOnto } from "../surface/project.ts";
import { isAstray } from "./adrift.ts";
import type { Interval } from "./intervals.ts";
import { around } from "./rim-marks.ts";
import type { Site } from "./site.ts";

/** Something along the rim that a rib's strip keeps clear of: rim stations (to ≥ from; may pass the rim's length), mm. */
export interface Obstacle extends Interval {
  readonly what: string;
}

/** A strip across a bend of the wall lifts off at its edges by width²/8R: more than this, mm, and the bend is a corner. */
const LIFT = 1.5;
/** A corner that grows with depth is followed this far beyond its end at the rim, mm, in steps of … */
const FURTHEST = 600;
const STEP = 10;
/** … until the wall faces the way its side does to within this (sine). */
const STRAIGHT = 2e-3;

/** The plan corners of the rim: bends too tight for a strip of this width (mm) to lie on. */
export function cornersFor(site: Site, width: number): Obstacle[] {
  const { chain, runs } = site.shell.outline;
  const least = (width * width) / (8 * LIFT);
  return chain.segments.flatMap((segment, i): Obstacle[] => {
    if (segment.kind === "line" || segment.radius >= least) return [];
    const from = chain.stations[i];
    const middle = from + segment.length / 2;
    const run = runs.find((one) => {
      const along = middle - one.from;
      return along - Math.floor(along / chain.length) * chain.length < one.length;
    });
    return [{ what: `the corner ${run?.id ?? i + 1}`, from, to: from + segment.length }];
  });
}

/** The same corners as wide as they are at the foot of the wall, where draft and cove may have made them grow. `aside`: where the first strip would stand. */
export function grownCorners(site: Site, corners: readonly Obstacle[], aside: number): Obstacle[] {
  return corners.map(({ what, from, to }) => ({
    what,
    from: from - growthBeside(site, from, -1, aside),
    to: to + growthBeside(site, to, 1, aside),
  }));
}

/** How far beyond a corner's end at the rim the wall is still bent just above its foot, mm. */
function growthBeside(site: Site, end: number, way: 1 | -1, aside: number): number {
  const { chain } = site.shell.outline;
  const wall = site.wallAt(stationIn(end + way * aside, chain.length));
  if (isAstray(wall)) return 0;
  let foot = 0;
  while (foot + 1 < wall.curve.stations.length && wall.curve.stations[foot + 1] <= wall.plainTo) foot++;
  const z = wall.curve.points[3 * foot + 2];
  const lean = Math.tan((site.shell.spec.draftDeg * Math.PI) / 180);
  const p = new Float64Array(3);
  for (let extra = 0; extra <= FURTHEST; extra += STEP) {
    const { x, y, tx, ty } = pointAt(chain, end + way * extra);
    p[0] = x + z * lean * ty;
    p[1] = y - z * lean * tx;
    p[2] = z;
    const local = site.near(p[0], p[1], p[2]);
    if (!projectOnto(local, p, 0, 1e-6)) return extra;
    const [gx, gy] = local.gradient;
    if (Math.abs(gx * tx + gy * ty) < STRAIGHT * Math.hypot(gx, gy)) return extra;
  }
  return FURTHEST;
}

/** A change of the face below the wall, and whether it lies within one feature: a riser between two of its treads. */
export interface FeatureEnd extends Obstacle {
  readonly inner: boolean;
}

/** Ends of neighbouring stretches lie in one point, or with a sliver of another face between them: nearer than this, mm. */
const TOUCH = 6;

/**
 * Where the face below the wall changes: the risers that stand against it, each as wide as its own stretch of the foot, and
 * the places where two other stretches touch.
 */
export function featureEnds(site: Site): FeatureEnd[] {
  const { chain } = site.shell.outline;
  const { faces } = site.shell;
  const stretches = site.transitions.filter((t) => t.kind === "stretch" && !t.closed);
  const face = (t: Transition) => faces.find((one) => one.id === t.between[1]);
  const ends: FeatureEnd[] = [];
  for (const stretch of stretches) {
    const here = face(stretch);
    if (!here) continue;
    const before = stretches.find((o) => o !== stretch && apart(o, "end", stretch, "start") < TOUCH);
    const after = stretches.find((o) => o !== stretch && apart(stretch, "end", o, "start") < TOUCH);
    const [a, b] = [before && face(before), after && face(after)];
    const [first, last] = [rimStation(site, stretch, "start"), rimStation(site, stretch, "end")];
    if (here.kind === "riser") {
      const half = around(last - first, chain.length) / 2;
      const inner = a?.feature === here.feature && b?.feature === here.feature;
      const what = `the end of ${here.feature}`;
      ends.push({
        what: inner ? here.id : what,
        inner,
        from: first + half - Math.abs(half),
        to: first + half + Math.abs(half),
      });
    } else if (b && b.kind !== "riser") {
      const what = `the end of ${here.feature || b.feature}`;
      ends.push({ what, inner: false, from: last, to: last });
    }
  }
  return ends;
}

type End = "start" | "end";

const indexOf = ({ curve }: Transition, end: End): number =>
  end === "start" ? 0 : 3 * (curve.stations.length - 1);

function apart(a: Transition, atA: End, b: Transition, atB: End): number {
  const i = indexOf(a, atA);
  const j = indexOf(b, atB);
  const [p, q] = [a.curve.points, b.curve.points];
  return Math.hypot(p[i] - q[j], p[i + 1] - q[j + 1], p[i + 2] - q[j + 2]);
}

function rimStation(site: Site, transition: Transition, end: End): number {
  const i = indexOf(transition, end);
  const { points } = transition.curve;
  return nearest(site.shell.outline.chain, points[i], points[i + 1]).station;
}

/** A rim station brought between 0 and the rim's length. */
export const stationIn = (station: number, length: number): number =>
  station - Math.floor(station / length) * length;
