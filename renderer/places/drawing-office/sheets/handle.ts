import { fieldAt } from "../../../../core/project/branch.ts";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { shell as shellSchema } from "../../../../core/project/shell-schema.ts";
import { type FigurePath, setting } from "../../../document/figure-path.ts";
import type { Recipe } from "../../../document/history.ts";
import { measureOf } from "../../../parts/figure.ts";

/** A place on a sheet or a direction on it, mm: plan x and y, or along and height in the section. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Writes a length in the units chosen. */
export type PrintMm = (mm: number) => string;

/** Something on a sheet that is taken hold of to change figures of the shell. */
export interface Handle {
  readonly id: string;
  /** What it changes, for the history and for readers: "length of the outline". */
  readonly name: string;
  readonly at: Spot;
  readonly shape: "point" | "edge" | "centre";
  /** Unit direction in which it moves; null: any way. */
  readonly along: Spot | null;
  /** Drawn so many pixels further on in its direction, clear of what lies on the rim. */
  readonly aside?: number;
  /** How far it goes, in mm on the sheet, when its figure grows by 1 mm. */
  readonly stride: number;
  /** Its figure, mm. */
  readonly value: number;
  told(print: PrintMm): string;
  /** Path of the figure in the project file: refusals at or below it belong to this handle. */
  readonly field: string;
  /** What the project becomes with the handle at a spot, its figures on whole grains of so many mm. */
  to(spot: Spot, grain: number): Recipe;
}

/** Sets a number of the shell, by its path in there, held to the limits of the schema. */
export function figureSetter(shell: ShellSpec, path: FigurePath): (value: number) => Recipe {
  const field = fieldAt(shellSchema, shell, path);
  const { min, max } = measureOf(field?.schema as Parameters<typeof measureOf>[0]);
  return (value) => setting(["shell", ...path], Math.min(max, Math.max(min, value)));
}

/** A value on whole grains. */
export const onGrain = (value: number, grain: number): number =>
  Number((Math.round(value / grain) * grain).toPrecision(12));

/** Several recipes as one. */
export const together =
  (...recipes: readonly Recipe[]): Recipe =>
  (draft) => {
    for (const recipe of recipes) recipe(draft);
  };

export const dot = (a: Spot, b: Spot): number => a.x * b.x + a.y * b.y;
export const less = (a: Spot, b: Spot): Spot => ({ x: a.x - b.x, y: a.y - b.y });
/** A spot moved on by so many mm in a direction. */
export const onward = (a: Spot, way: Spot, by: number): Spot => ({
  x: a.x + by * way.x,
  y: a.y + by * way.y,
});
export function unit(a: Spot): Spot {
  const length = Math.hypot(a.x, a.y) || 1;
  return { x: a.x / length, y: a.y / length };
}

/** The same handle where the sheet lies elsewhere: its spots moved by so much. */
export const shiftedHandle = (handle: Handle, by: Spot): Handle => ({
  ...handle,
  at: onward(handle.at, by, 1),
  to: (spot, grain) => handle.to(less(spot, by), grain),
});
