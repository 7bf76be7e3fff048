import { nearestMark } from "../../../../core/layup/rim-marks.ts";
import type { LengthStyle } from "../../../../core/units/length.ts";
import { faceName, headed, lineName, zoneName } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import type { Point } from "./flat-lines.ts";
import type { Board } from "./shown.ts";
import { faceAt, figureAt, fittingAt, type Placed, stretchAt } from "./things.ts";
import { readOff } from "./ticks.ts";

/** What lies under a point of the drawing. */
export interface Found {
  readonly figure: Placed | null;
  readonly fitting: string | null;
  /** Transition or face. */
  readonly other: { readonly kind: "transition" | "face"; readonly id: string } | null;
}

export function findAt({ wall, face, placed }: Board, { along, down }: Point, reach: number): Found {
  const figure = figureAt(placed, along, down, reach / 2);
  if (face) return { figure, fitting: null, other: { kind: "face", id: face.id } };
  const fitting = fittingAt(wall, along, down, 0)?.id ?? null;
  const stretch = stretchAt(wall, along, down, reach);
  if (stretch) return { figure, fitting, other: { kind: "transition", id: stretch.id } };
  const under = faceAt(wall, along, down);
  return { figure, fitting, other: under ? { kind: "face", id: under } : null };
}

/** "Ribs left, rib 3": what is under the pointer, in words. */
export function nameOf({ figure, fitting, other }: Found): string {
  if (fitting) return headed(zoneName(fitting));
  if (figure) return headed(zoneName(figure.zone)) + (figure.name ? `, ${figure.name}` : "");
  if (!other) return "";
  return headed(other.kind === "transition" ? lineName(other.id) : faceName(other.id));
}

/** "0.31 m past deep right": the same along, from the nearest place that is found without a drawing. */
export function fromMark({ wall }: Board, { along }: Point, lengths: LengthStyle): string {
  const { from, alongMm } = nearestMark(wall.marks, along, wall.rimLengthMm);
  const mark = from.replaceAll("-", " ");
  const distance = readOff(Math.abs(alongMm), lengths);
  return alongMm < 0 ? words.tape.before(distance, mark) : words.tape.past(distance, mark);
}

/** "5.42 m along, 1.18 m down", as a floor worker reads it. */
export function placeInWords(point: Point, onFace: boolean, lengths: LengthStyle): string {
  const along = readOff(point.along, lengths);
  const down = readOff(Math.abs(point.down), lengths);
  if (onFace) return words.tape.across(along, down);
  return point.down < 0 ? words.tape.out(along, down) : words.tape.down(along, down);
}
