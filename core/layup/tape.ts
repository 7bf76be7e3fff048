import { nearest } from "../plan/nearest.ts";
import type { Shell } from "../shell/shell.ts";
import type { Field } from "../surface/field.ts";
import { march } from "./march.ts";
import { nearestMark, type RimMark, rimMarks } from "./rim-marks.ts";
import { type WallReader, wallReader } from "./wall-section.ts";

/** Where a point lies, as a tape reads it on the plug. */
export interface TapeReading {
  /** The rim mark the tape starts from: a corner or the centre of an end. */
  readonly from: string;
  /** Along the rim from there, counter-clockwise positive, mm. */
  readonly alongMm: number;
  /** Down the surface from the rim, in the vertical plane square to it, mm; null for points on the coping. */
  readonly downMm: number | null;
}

/** What reading a tape on one shell takes. */
export interface Tape {
  readonly shell: Shell;
  readonly reader: WallReader;
  readonly marks: readonly RimMark[];
}

/** Reads the tape at a point (mm) of the surface {field = 0} of a shell; for many points make one `Tape` and use `readTape`. */
export function tapeAt(shell: Shell, field: Field, point: ArrayLike<number>): TapeReading {
  const reader = wallReader(shell, field);
  return readTape({ shell, reader, marks: rimMarks(shell.outline, shell.spec) }, point);
}

/** Reads the tape at a point (mm) of the surface. */
export function readTape(tape: Tape, point: ArrayLike<number>): TapeReading {
  const { station, downMm } = placeOnTape(tape, point);
  return { ...nearestMark(tape.marks, station, tape.shell.outline.chain.length), downMm };
}

/** Where a point of the surface (mm) lies on the unrolled wall. */
export interface TapePlace {
  /** Rim station: along the rim from the shallow centre, 0 … the rim's length, mm. */
  readonly station: number;
  /** Down the surface from the rim, mm; null for points on the coping. */
  readonly downMm: number | null;
  /** Out from the rim's outline in plan, mm: negative inside. */
  readonly outMm: number;
}

/** The place of a point (mm) of the surface on the unrolled wall. */
export function placeOnTape({ shell, reader }: Tape, point: ArrayLike<number>): TapePlace {
  const foot = nearest(shell.outline.chain, point[0], point[1]);
  const onCoping = foot.distance > BESIDE || reader.atRim(point[0], point[1], point[2]) > 1e-6;
  return {
    station: foot.station,
    downMm: onCoping ? null : downFrom(reader, foot, point),
    outMm: foot.distance,
  };
}

/** The wall's outside stands off the outline by the laminate at most, mm: what lies further out is coping. */
const BESIDE = 35;

/** Marched from the point towards the wall and up to the rim: that way it cannot miss either end. */
function downFrom(
  reader: WallReader,
  foot: { readonly x: number; readonly y: number; readonly nx: number; readonly ny: number },
  point: ArrayLike<number>,
): number | null {
  const up = march(
    reader.field,
    { origin: [foot.x, foot.y, 0], u: [foot.nx, foot.ny, 0], v: [0, 0, 1] },
    point,
    { direction: [foot.nx, foot.ny, 1], stepMm: 150, lengthMm: 15000, stop: reader.atRim },
  );
  return up?.ended === "stop" ? up.length : null;
}
