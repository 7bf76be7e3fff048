import type { SurfaceCurve } from "../surface/curve.ts";

export type TransitionKind =
  /** The wall against everything below it, all round the pool. */
  | "foot"
  /** A part of the foot along one face: `wall|floor`, `wall|steps/tread-1`. */
  | "stretch"
  /** The coping's top against what carries it: the wall, or a ledge that reaches the rim. */
  | "rim"
  /** The coping's top against its outer edge. */
  | "lip"
  /** Any other re-entrant edge. */
  | "step"
  /** Any other outward edge. */
  | "nose";

/** Where another boundary ends on a transition, or where it ends itself on others. */
export interface Junction {
  readonly station: number;
  readonly point: readonly [number, number, number];
}

/** The line in the middle of the blend between two faces, on the surface at the offset asked for. */
export interface Transition {
  /** `foot`, `rim`, or both faces in their order, `A|B`; with `#2`, `#3` … where they meet in several places. */
  readonly id: string;
  readonly kind: TransitionKind;
  /** What lies on its left and on its right: faces, or "below" for all that the foot has on its right. */
  readonly between: readonly [string, string];
  /** The groups of faces that compete along it, left and right: for `contestBetween`. */
  readonly sides: readonly [readonly string[], readonly string[]];
  readonly closed: boolean;
  readonly lengthMm: number;
  /**
   * Runs with its first face on the left. Closed ones begin at the centre line, at the shallow end; the foot and the rim
   * run counter-clockwise seen from above, as the rim's stations do. Stretches share the foot's points.
   */
  readonly curve: SurfaceCurve;
  /** By station; of a stretch or an open line its ends are among them where other faces meet there. */
  readonly junctions: readonly Junction[];
  /** False: some of the curve, or all of it, is the mesh's own boundary, for the reason given. */
  readonly exact: boolean;
  readonly reason: string;
}

/** A boundary too short to matter, left out. */
export interface Sliver {
  readonly between: readonly [string, string];
  readonly lengthMm: number;
  readonly near: readonly [number, number, number];
}

export interface Transitions {
  /** In the order of their ids. */
  readonly transitions: readonly Transition[];
  readonly slivers: readonly Sliver[];
}
