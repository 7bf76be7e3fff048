import { pointAt } from "../plan/point-at.ts";
import type { Shell } from "../shell/shell.ts";
import { fieldNear } from "../surface/bricks.ts";
import { contestBetween, contestValue } from "../surface/contest.ts";
import type { Field } from "../surface/field.ts";
import type { Plane, Section } from "../surface/section.ts";
import type { Astray } from "./adrift.ts";
import { mm } from "./adrift.ts";
import { march } from "./march.ts";
import { marchingField, type Near } from "./near.ts";
import { shareEdge, spanLeaving, WHOLE } from "./share-edge.ts";

/**
 * The outside of the wall at one place of the rim: the section of the lay-up surface with the vertical plane square to
 * the rim there, from the rim down to where the radius at the wall's foot ends. The rim is the middle of the radius
 * between wall and coping: there a tape hooks in.
 */
export interface WallSection {
  /** Rim station, mm. */
  readonly station: number;
  /** The plane: origin on the rim's outline at z = 0, u level and outwards, v up. */
  readonly plane: Plane;
  readonly curve: Section;
  /** Down the surface from the rim, mm: where the plain wall begins, where it ends, and where the radius below it ends. */
  readonly plainFrom: number;
  readonly plainTo: number;
  readonly footEnd: number;
  /** Index of the face that lies below the wall here. */
  readonly below: number;
}

/** Longest step where the section runs straight, mm. */
const STEP = 150;

/** How the rim is told along a section, and where it starts from: shared by every section of a shell. */
export interface WallReader {
  readonly field: Field;
  readonly near: Near;
  readonly wall: number;
  /** Below zero on the wall, zero on the rim's line, above it on the coping: a section going up stops there. */
  readonly atRim: (x: number, y: number, z: number) => number;
  /** A height at which every wall is plain, mm. */
  readonly plainZ: number;
}

/** Makes a reader of walls for the surface {field = 0} of a shell moved out by the laminate already laid. */
export function wallReader(shell: Shell, field: Field): WallReader {
  const near = fieldNear(field);
  const wall = shell.faces.findIndex((face) => face.kind === "wall");
  const others = shell.faces.filter((face) => face.kind !== "wall").map((face) => face.id);
  const contest = contestBetween(field, [shell.faces[wall].id], others);
  const pair = shell.spec.radii.pairs.find(({ between }) => isRim(between));
  const radius = pair?.radius ?? shell.spec.coping.rimRadius;
  const plainZ = -radius - 2;
  return {
    field: marchingField(field),
    near,
    wall,
    // Below the rim's radius the wall may give way to treads: only above it does the end of the wall mean the rim.
    atRim: (x, y, z) => (z < plainZ ? -1 : -contestValue(near(x, y, z), contest, x, y, z)),
    plainZ,
  };
}

const isRim = (between: readonly [string, string]): boolean =>
  between.includes("wall") && between.includes("coping/top");

/** The wall at a rim station (any number of mm: stations go round), or why there is none. */
export function wallSectionAt(reader: WallReader, shell: Shell, station: number): WallSection | Astray {
  const { field, near, wall } = reader;
  const { x, y, tx, ty } = pointAt(shell.outline.chain, station);
  const plane: Plane = { origin: [x, y, 0], u: [ty, -tx, 0], v: [0, 0, 1] };
  const up = march(field, plane, [x, y, reader.plainZ], {
    direction: [0, 0, 1],
    stepMm: 10,
    lengthMm: 200,
    stop: reader.atRim,
  });
  if (up?.ended !== "stop") return lost("the rim", station);
  const last = up.stations.length - 1;
  const down = march(field, plane, up.points.subarray(3 * last, 3 * last + 3), {
    direction: [0, 0, -1],
    stepMm: STEP,
    stop: (px, py, pz) => (pz > reader.plainZ ? -1 : 1e-9 - near(px, py, pz).shares(px, py, pz)[wall]),
  });
  if (down?.ended !== "stop") return lost("the foot of the wall", station);

  const shareOf = (i: number) => {
    const [px, py, pz] = down.points.subarray(3 * i, 3 * i + 3);
    return near(px, py, pz).shares(px, py, pz);
  };
  const count = down.stations.length;
  let first = 1;
  while (first < count && shareOf(first)[wall] < WHOLE) first++;
  const end = first < count ? spanLeaving(down, near, wall, first) : null;
  if (!end) return lost("a plain stretch of wall", station);
  return {
    station,
    plane,
    curve: down,
    plainFrom: shareEdge(down, near, wall, down.stations[first], down.stations[first - 1]),
    plainTo: shareEdge(down, near, wall, down.stations[end[0]], down.stations[end[1]]),
    footEnd: down.length,
    below: field.owner(shareOf(count - 1)),
  };
}

function lost(what: string, station: number): Astray {
  return {
    why: `At ${mm(station)} along the rim ${what} was not found.`,
    mend: "Move it along the rim, away from where features meet.",
  };
}
