import type { FittingSpec } from "../project/schema.ts";
import type { Transition } from "../shell/transitions.ts";
import { isAstray } from "./adrift.ts";
import type { KeepOut } from "./keep-outs.ts";
import type { RimMark } from "./rim-marks.ts";
import { cornersFor } from "./row-obstacles.ts";
import type { Site } from "./site.ts";
import { type LaidLine, tapeLine, tellingPoints } from "./tape-line.ts";
import type { WallSection } from "./wall-section.ts";

/**
 * The wall unrolled: x is the distance along the rim from the shallow centre (counter-clockwise), y the distance down the surface
 * from the rim, both as a tape reads them on the plug. Seen from outside. Lengths mm.
 */
export interface UnrolledWall {
  readonly rimLengthMm: number;
  /** How far the coping stands out beyond the rim. */
  readonly copingMm: number;
  /** Places that a tape starts from. */
  readonly marks: readonly RimMark[];
  readonly runs: readonly TapeRun[];
  /** Where the rim turns too tightly for a strip to lie flat. */
  readonly corners: readonly { readonly from: number; readonly to: number }[];
  /** The foot of the wall, a stretch for each face that stands against it. */
  readonly foot: readonly FootStretch[];
  /** Where the radius at the foot begins and ends, at places along the rim. */
  readonly cove: readonly CovePlace[];
  readonly fittings: readonly TapeFitting[];
}

export interface TapeRun {
  readonly id: string;
  readonly kind: "straight" | "curved";
  readonly from: number;
  readonly length: number;
}

export interface FootStretch extends LaidLine {
  /** Id of the transition: `wall|floor`, `wall|steps/tread-1`. */
  readonly id: string;
  /** The face below, and the feature that it belongs to ("" for the floor). */
  readonly face: string;
  readonly feature: string;
}

export interface CovePlace {
  readonly station: number;
  readonly beginsMm: number;
  readonly endsMm: number;
}

export interface TapeFitting {
  readonly id: string;
  readonly kind: FittingSpec["kind"];
  readonly alongMm: number;
  readonly downMm: number;
  readonly halfWidthMm: number;
  /** Along the surface. */
  readonly halfHeightMm: number;
  readonly clearanceMm: number;
}

/** Widest strip for which a corner is shown as one, mm (practice: core strips are 75–150 mm wide). */
const STRIP = 100;
/** Distance between places at which the cove is looked at, mm. */
const COVE_STEP = 250;

/** Unrolls the wall of a site; the lines are exact on the surface, their points within 2 mm of what lies between. */
export function unrollWall(site: Site): UnrolledWall {
  const { chain, runs } = site.shell.outline;
  return {
    rimLengthMm: chain.length,
    copingMm: site.shell.spec.coping.flange,
    marks: site.marks,
    runs: runs.map(({ id, kind, from, length }) => ({ id, kind, from, length })),
    corners: cornersFor(site, STRIP).map(({ from, to }) => ({ from, to })),
    foot: site.transitions.filter(({ kind }) => kind === "stretch").flatMap((each) => stretch(site, each)),
    cove: covePlaces(site),
    fittings: site.keepOuts.flatMap((keepOut) => fitting(site, keepOut)),
  };
}

function stretch(site: Site, transition: Transition): FootStretch[] {
  const [, face] = transition.between;
  const laid = footLine(site, transition);
  const feature = site.shell.faces.find(({ id }) => id === face)?.feature ?? "";
  return laid.line.length >= 4 ? [{ id: transition.id, face, feature, ...laid }] : [];
}

/** A line of the wall's foot; a closed one comes back to its first point. */
function footLine(site: Site, { curve, closed }: Transition): LaidLine {
  const count = curve.stations.length;
  const indices = tellingPoints(curve.points, count);
  return tapeLine(site, curve.points, closed ? [...indices, 0] : indices);
}

function covePlaces(site: Site): CovePlace[] {
  const { length } = site.shell.outline.chain;
  const count = Math.ceil(length / COVE_STEP);
  return Array.from({ length: count }, (_, i) => (i * length) / count).flatMap((station) => {
    const wall = site.wallAt(station);
    return isAstray(wall) ? [] : [{ station, beginsMm: wall.plainTo, endsMm: wall.footEnd }];
  });
}

function fitting(site: Site, keepOut: KeepOut): TapeFitting[] {
  if (keepOut.on !== "wall") return [];
  const { id, kind, station, depth, halfWidth, halfHeight, clearance } = keepOut;
  const wall = site.wallAt(station);
  if (isAstray(wall)) return [];
  const [top, bottom] = [downAt(wall, depth - halfHeight), downAt(wall, depth + halfHeight)];
  return [
    {
      id,
      kind,
      alongMm: station,
      downMm: (top + bottom) / 2,
      halfWidthMm: halfWidth,
      halfHeightMm: (bottom - top) / 2,
      clearanceMm: clearance,
    },
  ];
}

/** Down the surface (mm) to a depth below the rim on one wall, along the chords of its section. */
function downAt({ curve }: WallSection, depth: number): number {
  const { points, stations } = curve;
  for (let i = 1; i < stations.length; i++) {
    const [above, below] = [-points[3 * i - 1], -points[3 * i + 2]];
    if (below < depth) continue;
    const part = below > above ? Math.max(0, (depth - above) / (below - above)) : 0;
    return stations[i - 1] + part * (stations[i] - stations[i - 1]);
  }
  return stations[stations.length - 1];
}
