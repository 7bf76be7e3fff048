import { pointAt } from "../plan/point-at.ts";
import type { Shell } from "../shell/shell.ts";
import { type FieldNear, fieldNear } from "../surface/bricks.ts";
import { contestBetween, contestValue } from "../surface/contest.ts";
import type { Field } from "../surface/field.ts";
import { nearby } from "../surface/nearby.ts";
import type { Plane, Section } from "../surface/section.ts";
import type { Astray } from "./adrift.ts";
import { mm } from "./adrift.ts";
import { joinSections } from "./join-sections.ts";
import { march } from "./march.ts";
import { edgeOfPlain, shareAt, shareEdge, spanLeaving, WHOLE } from "./share-edge.ts";

/**
 * The outside of the wall at one place of the rim: the section of the lay-up surface with the vertical plane square to
 * the rim there, from the rim down over the radius at the wall's foot. The rim is the middle of the radius
 * between wall and coping: there a tape hooks in.
 */
export interface WallSection {
  /** Rim station, mm. */
  readonly station: number;
  /** The plane: origin on the rim's outline at z = 0, u level and outwards, v up. */
  readonly plane: Plane;
  /** From the rim to somewhat past the end of the foot's radius. */
  readonly curve: Section;
  /**
   * Down the surface from the rim, mm: where the plain wall begins and where it ends; the foot line, on which the wall and what
   * lies below it have half each; and where the radius ends.
   */
  readonly plainFrom: number;
  readonly plainTo: number;
  readonly foot: number;
  readonly footEnd: number;
  /** Index of the face that lies below the wall here. */
  readonly below: number;
}

/** The thickest laminate that a shop lays first, and to spare, mm. */
const MOST_LAMINATE = 40;

/** Longest step where the section runs straight, mm. */
const STEP = 150;

/** How the rim is told along a section, and where it starts from: shared by every section of a shell. */
export interface WallReader {
  readonly field: Field;
  readonly near: FieldNear;
  readonly wall: number;
  /** Below zero on the wall, zero on the rim's line, above it on the coping: a section going up stops there. */
  readonly atRim: (x: number, y: number, z: number) => number;
  /** A height at which every wall is plain, mm. */
  readonly plainZ: number;
  /** Way from the foot line that is sure to lead past the end of the radius there, mm. */
  readonly footRoom: number;
}

/** Makes a reader of walls for the surface {field = 0} of a shell moved out by the laminate already laid. */
export function wallReader(shell: Shell, field: Field): WallReader {
  const near = fieldNear(field);
  const wall = shell.faces.findIndex((face) => face.kind === "wall");
  const others = shell.faces.filter((face) => face.kind !== "wall").map((face) => face.id);
  const contest = contestBetween(field, [shell.faces[wall].id], others);
  const { cove, step, pairs } = shell.spec.radii;
  const pair = pairs.find(({ between }) => isRim(between));
  const radius = pair?.radius ?? shell.spec.coping.rimRadius;
  const plainZ = -radius - 2;
  return {
    field: nearby(field),
    near,
    wall,
    // Below the rim's radius the wall may give way to treads: only above it does the end of the wall mean the rim.
    atRim: (x, y, z) => (z < plainZ ? -1 : -contestValue(near(x, y, z), contest, x, y, z)),
    plainZ,
    footRoom: Math.max(cove, step, ...pairs.map((each) => each.radius)) + MOST_LAMINATE,
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
    stop: (px, py, pz) => (pz > reader.plainZ ? -1 : 0.5 - near(px, py, pz).shares(px, py, pz)[wall]),
  });
  if (down?.ended !== "stop") return lost("the foot of the wall", station);
  const foot = 3 * (down.stations.length - 1);
  const on = march(field, plane, down.points.subarray(foot, foot + 3), {
    direction: down.tangents.subarray(foot, foot + 3),
    stepMm: STEP,
    lengthMm: reader.footRoom,
  });
  if (!on || on.stations.length < 2) return lost("the surface below the wall", station);

  const count = down.stations.length;
  let first = 1;
  while (first < count && wallShare(reader, down, first) < WHOLE) first++;
  const end = first < count ? spanLeaving(down, near, wall, first) : null;
  if (!end) return lost("a plain stretch of wall", station);
  let gone = 1;
  while (gone < on.stations.length && wallShare(reader, on, gone) > 1e-9) gone++;
  if (gone === on.stations.length) return lost("the end of the wall's radius", station);
  const curve = joinSections(down, on);
  const footEnd =
    down.length + edgeOfPlain((s) => shareAt(on, near, wall, s), on.stations[gone], on.stations[gone - 1]);
  const past = 3 * (count - 1 + gone);
  const [px, py, pz] = curve.points.subarray(past, past + 3);
  return {
    station,
    plane,
    curve,
    plainFrom: shareEdge(down, near, wall, down.stations[first], down.stations[first - 1]),
    plainTo: shareEdge(down, near, wall, down.stations[end[0]], down.stations[end[1]]),
    foot: down.length,
    footEnd,
    below: field.owner(near(px, py, pz).shares(px, py, pz)),
  };
}

function wallShare({ near, wall }: WallReader, curve: Section, i: number): number {
  const [x, y, z] = curve.points.subarray(3 * i, 3 * i + 3);
  return near(x, y, z).shares(x, y, z)[wall];
}

function lost(what: string, station: number): Astray {
  return {
    why: `At ${mm(station)} along the rim ${what} was not found.`,
    mend: "Move it along the rim, away from where features meet.",
  };
}
