import type { Transition } from "../shell/transitions.ts";
import { curvePointAt } from "../surface/curve.ts";
import type { Plane, Section } from "../surface/section.ts";
import { march } from "./march.ts";
import { shareAt, shareEdge, spanLeaving, WHOLE } from "./share-edge.ts";
import type { Site } from "./site.ts";

/**
 * The corner under a tread behind its riser, cut by the vertical plane square to the nose line: seen from the ground, the
 * tread's underside and the riser's back meet there in an inside corner, rounded by the nose. In the plane's frame x runs
 * level, in under the tread, and y up; the origin is where the two backs would meet without the radius.
 */
export interface TreadSection {
  readonly plane: Plane;
  /** From the nose line in under the tread, and down the riser. */
  readonly under: Section;
  readonly down: Section;
  /** Length of the riser per mm of drop: 1/cos of its draft. */
  readonly riserDirection: readonly [number, number];
  /** How far each side is plain, from the origin, mm. */
  readonly underPlain: number;
  readonly downPlain: number;
}

/** The longest that a tread and a riser are followed, mm. */
const FURTHEST = 8000;
/** The least plain length that a web can stand on, mm. */
const LEAST_PLAIN = 5;

/** Which faces meet at a nose, by index. */
export interface NoseFaces {
  readonly tread: number;
  readonly riser: number;
}

/**
 * Cuts the corner under a tread at a station of its nose line, following the tread for `reach` mm and the riser for `drop` mm or
 * as far as they are plain; null where either has no plain stretch there.
 */
export function treadSection(
  site: Site,
  nose: Transition,
  { tread, riser }: NoseFaces,
  station: number,
  reach: number,
  drop: number,
): TreadSection | null {
  const at = new Float64Array(9);
  curvePointAt(nose.curve, station, at, site.near(...pointOf(nose, station)));
  const flat = Math.hypot(at[3], at[4]);
  if (!(flat > 0.1)) return null;
  // Level, square to the nose line, and into the ground: in under the tread.
  const side = at[6] * -at[4] + at[7] * at[3] > 0 ? 1 : -1;
  const u = [(-side * at[4]) / flat, (side * at[3]) / flat, 0] as const;
  const nosePoint = [at[0], at[1], at[2]] as const;
  const through: Plane = { origin: nosePoint, u, v: [0, 0, 1] };
  const under = plainRun(site, through, u, tread, riser, Math.min(FURTHEST, reach));
  const down = plainRun(site, through, [0, 0, -1], riser, tread, Math.min(FURTHEST, drop));
  if (!under || !down) return null;

  // Without the radius: the level line of the tread's back meets the straight line of the riser's.
  const inPlane = ({ run }: PlainRun, station: number) => {
    curvePointAt(run, station, at);
    const level = (k: number, x: number, y: number) => (at[k] - x) * u[0] + (at[k + 1] - y) * u[1];
    return {
      x: level(0, nosePoint[0], nosePoint[1]),
      y: at[2] - nosePoint[2],
      dx: level(3, 0, 0),
      dy: at[5],
    };
  };
  const level = inPlane(under, under.from).y;
  const riserLine = inPlane(down, (down.from + down.to) / 2);
  const { dx, dy } = riserLine;
  if (!(dy < -0.1)) return null;
  const cornerX = riserLine.x + ((level - riserLine.y) / dy) * dx;
  const plane: Plane = {
    origin: [nosePoint[0] + cornerX * u[0], nosePoint[1] + cornerX * u[1], nosePoint[2] + level],
    u,
    v: [0, 0, 1],
  };
  const riserEnd = inPlane(down, down.to);
  return {
    plane,
    under: under.run,
    down: down.run,
    riserDirection: [dx, dy],
    underPlain: inPlane(under, under.to).x - cornerX,
    downPlain: Math.hypot(riserEnd.x - cornerX, riserEnd.y - level),
  };
}

function pointOf(nose: Transition, station: number): [number, number, number] {
  const at = new Float64Array(9);
  curvePointAt(nose.curve, station, at);
  return [at[0], at[1], at[2]];
}

/** A section from the nose line and the stations between which it lies on one plain face. */
interface PlainRun {
  readonly run: Section;
  readonly from: number;
  readonly to: number;
}

/** The section from the nose line over its radius and on along one face, `length` mm and as far again as the radius takes. */
function plainRun(
  site: Site,
  plane: Plane,
  direction: readonly [number, number, number],
  face: number,
  other: number,
  length: number,
): PlainRun | null {
  const { near } = site;
  const run = march(site.reader.field, plane, plane.origin, {
    direction,
    stepMm: 100,
    lengthMm: length + 2 * radiusRoom(site),
    // Over the radius of the nose first; then until the face gives way to what follows it.
    stop: (x, y, z) => {
      const shares = near(x, y, z).shares(x, y, z);
      return shares[other] > 1e-9 ? -1 : 0.5 - shares[face];
    },
  });
  if (!run || run.stations.length < 3) return null;
  const { stations } = run;
  let first = 1;
  while (first < stations.length && shareAt(run, near, face, stations[first]) < WHOLE) first++;
  if (first === stations.length) return null;
  const from = stations[first];
  const span = spanLeaving(run, near, face, first);
  const to = span ? shareEdge(run, near, face, stations[span[0]], stations[span[1]]) : run.length;
  return to - from < LEAST_PLAIN ? null : { run, from, to };
}

/** Length that the largest nose radius can take along the surface, mm. */
const radiusRoom = (site: Site): number =>
  Math.max(site.shell.spec.radii.nose, ...site.shell.spec.radii.pairs.map(({ radius }) => radius)) + 10;
