import type { Outline } from "../plan/chain.ts";
import type { ShellSpec } from "../project/schema.ts";
import type { Field } from "../surface/field.ts";

/** A face of the shell that a person can name. */
export interface Face {
  readonly id: string;
  readonly kind: "wall" | "floor" | "tread" | "riser" | "coping" | "lip";
  /** The feature it belongs to (`steps`, `ledge`, …), or "" for wall, floor and coping. */
  readonly feature: string;
}

/** Something the kernel changed so that the shell can be built: named, with the figure asked for and the one used. */
export interface Adjustment {
  readonly id: string;
  readonly what: string;
  readonly asked: number;
  readonly used: number;
  readonly unit: "mm" | "deg";
  readonly why: string;
}

/** Why a shell cannot be built: the field's path in the project file, its value, and what would work. */
export interface Refusal {
  readonly path: string;
  readonly value: unknown;
  readonly why: string;
  readonly wouldWork: string;
}

export interface Shell {
  readonly spec: ShellSpec;
  readonly outline: Outline;
  readonly faces: readonly Face[];
  /** Zero set: the gel-coat surface; f = t: the surface after t mm of laminate. `field.faces[i] === faces[i].id`. */
  readonly field: Field;
  readonly adjustments: readonly Adjustment[];
}

export type ShellResult =
  | { readonly ok: true; readonly shell: Shell }
  | { readonly ok: false; readonly refusals: readonly Refusal[] };
