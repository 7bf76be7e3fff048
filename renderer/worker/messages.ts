import type { Kit } from "../../core/cutting/kit.ts";
import type { AdriftZone, LaidZone, TapeMark } from "../../core/layup/laid.ts";
import type { FlatFace } from "../../core/layup/tape-treads.ts";
import type { UnrolledWall } from "../../core/layup/tape-wall.ts";
import type { TapeFigure } from "../../core/layup/tape-zones.ts";
import type { FittingSpec, Project, ZoneSpec } from "../../core/project/schema.ts";
import type { Adjustment, Face, Refusal } from "../../core/shell/shell.ts";
import type { TransitionKind } from "../../core/shell/transitions.ts";
import type { Drawing } from "./drawing/drawing.ts";

/**
 * `shape` follows a drag where no zones are seen: the shell and its lines, coarse and soon. `sketch` follows one with the zones. `laid`
 * lays up exactly, `full` goes on from there to the kit. `measured` is the shell alone: its full mesh, its measures and its self-check,
 * which take long and cannot be stopped midway.
 */
export type Quality = "shape" | "sketch" | "laid" | "full" | "measured";

export interface Job {
  readonly project: Project;
  readonly quality: Quality;
  /** Shells of the lot that the kit is cut for. */
  readonly shells: number;
}

/** A job's results, each told as soon as it is there. */
export type Part =
  | { readonly kind: "stage"; readonly name: Stage }
  | { readonly kind: "refused"; readonly refusals: readonly Refusal[] }
  // With the lines that the mesh shows, where the exact ones are not waited for.
  | { readonly kind: "shell"; readonly shell: ShellView; readonly lines?: readonly LineView[] }
  | { readonly kind: "lines"; readonly lines: readonly LineView[] }
  | { readonly kind: "layup"; readonly layup: LayupView }
  | { readonly kind: "kit"; readonly kit: Kit }
  | { readonly kind: "tape"; readonly tape: TapeView }
  | { readonly kind: "measure"; readonly measure: MeasureView };

export type Stage = "shell" | "lines" | "layup" | "kit" | "tape" | "measure";

/** A shell to be drawn. Millimetres; the mesh lies on the gel-coat surface. */
export interface ShellView {
  /** Whether this is the full mesh of a shell that was told before. */
  readonly full: boolean;
  readonly faces: readonly Face[];
  readonly adjustments: readonly Adjustment[];
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly triangles: Uint32Array;
  /** Index into `faces` of the face that owns each vertex. */
  readonly owner: Uint16Array;
  readonly size: { readonly length: number; readonly width: number; readonly depth: number };
  /** Points of the rim's outline, x y each, counter-clockwise from the shallow centre line. */
  readonly rim: Float32Array;
  readonly rimLengthMm: number;
  /** Stands out beyond the rim all round. */
  readonly flange: number;
  readonly fittings: readonly FittingView[];
}

/** An opening in the shell: a closed line on the gel coat, x y z of each point. */
export interface FittingView {
  readonly id: string;
  readonly kind: FittingSpec["kind"];
  readonly outline: Float32Array;
}

/** A line along which two faces meet. */
export interface LineView {
  readonly id: string;
  readonly kind: TransitionKind;
  readonly between: readonly [string, string];
  readonly closed: boolean;
  /** On the lay-up surface. */
  readonly lengthMm: number;
  /** x y z of each point on the gel-coat surface, and on the lay-up surface. */
  readonly inside: Float32Array;
  readonly outside: Float32Array;
}

export interface LayupView {
  readonly zones: readonly ZoneView[];
  readonly adrift: readonly AdriftZone[];
}

export interface ZoneView {
  readonly id: string;
  readonly spec: ZoneSpec;
  readonly kind: LaidZone["kind"];
  readonly material: LaidZone["material"];
  /** Of one ply, and of all of them, each of which stops short of the one below. */
  readonly areaMm2: number;
  readonly allPliesMm2: number;
  readonly lengthMm: number;
  readonly plies: number;
  readonly tape: readonly TapeMark[];
  readonly doubts: readonly string[];
  /** Names the content of the drawing: the same key, the same drawing. */
  readonly drawingKey: number;
  /** Null where the reader was given the drawing of this key before. */
  readonly drawing: Drawing | null;
}

/** The wall unrolled with what lies on it, and the level faces laid flat. */
export interface TapeView {
  readonly wall: UnrolledWall;
  /** Zones that lie on the wall, in the order of the project. */
  readonly zones: readonly { readonly id: string; readonly figures: readonly TapeFigure[] }[];
  readonly faces: readonly FlatFace[];
}

/** What the shell measures, on its full mesh. */
export interface MeasureView {
  readonly areaMm2: number;
  readonly volumeToRimMm3: number;
  readonly volumeToWaterMm3: number;
  readonly faces: readonly { readonly id: string; readonly areaMm2: number }[];
  readonly lines: readonly { readonly id: string; readonly lengthMm: number }[];
  /** What its self-check found, and what else there is to look at. */
  readonly flaws: readonly string[];
  readonly doubts: readonly string[];
}
