import type { Material, Project } from "../project/schema.ts";
import type { Shell } from "../shell/shell.ts";
import type { Transition } from "../shell/transitions.ts";
import { type FieldNear, fieldNear } from "../surface/bricks.ts";
import type { Field } from "../surface/field.ts";
import { movedField } from "../surface/moved.ts";
import { type Astray, isAstray, unknownName } from "./adrift.ts";
import { type KeepOut, keepOuts } from "./keep-outs.ts";
import { rimMarks } from "./rim-marks.ts";
import type { Tape } from "./tape.ts";
import { laminateTooThick } from "./thick-laminate.ts";
import { type WallSection, wallReader, wallSectionAt } from "./wall-section.ts";

/** A shell made ready for laying up: everything that placing a zone asks for, worked out once. */
export interface Site extends Tape {
  readonly project: Project;
  /** The lay-up surface is its zero set: the gel-coat surface moved out by the laminate already laid. */
  readonly field: Field;
  readonly near: FieldNear;
  readonly transitions: readonly Transition[];
  readonly keepOuts: readonly KeepOut[];
  /** The outside of the wall at a rim station; remembered. */
  readonly wallAt: (station: number) => WallSection | Astray;
}

/** Makes a shell ready for laying up. The transitions are those of its lay-up surface. */
export function openSite(project: Project, shell: Shell, transitions: readonly Transition[]): Site {
  const field = movedField(shell.field, project.shop.laidThickness);
  const near = fieldNear(field);
  const reader = wallReader(shell, field);
  const walls = new Map<number, WallSection | Astray>();
  const wallAt = (station: number) => {
    const known = walls.get(station);
    if (known) return known;
    const found = wallSectionAt(reader, shell, station);
    const wall = isAstray(found) ? (laminateTooThick(project, "rim") ?? found) : found;
    walls.set(station, wall);
    return wall;
  };
  const marks = rimMarks(shell.outline, shell.spec);
  return { project, shell, field, near, reader, marks, transitions, keepOuts: keepOuts(shell), wallAt };
}

/** Ids of the features of a site's shell. */
export const featuresOf = ({ shell }: Site): string[] => shell.spec.features.map(({ id }) => id);

/** A material of one kind by its id, or why there is none. */
export function materialOf<K extends Material["kind"]>(
  project: Project,
  id: string,
  kind: K,
): Extract<Material, { kind: K }> | Astray {
  const material = project.materials.find((each) => each.id === id);
  if (material?.kind === kind) return material as Extract<Material, { kind: K }>;
  const fitting = project.materials.filter((each) => each.kind === kind).map((each) => each.id);
  return unknownName(`${kind} material`, id, fitting);
}
