/**
 * Chains of lines and arcs in the plan (or in a section): the exact shape of every outline, tread edge and floor profile.
 * Millimetres; angles in radians. A closed outline runs counter-clockwise, so its inside is on the left.
 */
export interface Line {
  readonly kind: "line";
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  readonly length: number;
  /** Unit direction. */
  readonly ux: number;
  readonly uy: number;
}

export interface Arc {
  readonly kind: "arc";
  readonly cx: number;
  readonly cy: number;
  /** Radius, > 0. */
  readonly radius: number;
  /** Angle of the start point about the centre. */
  readonly start: number;
  /** Signed turn: positive counter-clockwise (the inside of a closed outline is then on the centre's side). */
  readonly sweep: number;
  readonly length: number;
}

export type Segment = Line | Arc;

export interface Chain {
  readonly segments: readonly Segment[];
  readonly closed: boolean;
  readonly length: number;
  /** Station (arc length from the start) at which each segment begins; one more entry than segments. */
  readonly stations: Float64Array;
}

/** A named stretch of an outline: a side, a corner or a span of a freeform outline. */
export interface Run {
  readonly id: string;
  readonly kind: "straight" | "curved";
  /** Rim station at which the run begins, 0 ≤ from < outline length; a run may wrap past station 0. */
  readonly from: number;
  readonly length: number;
}

/**
 * The rim's outline in plan: x from 0 (shallow end) to `extent.length`, y centred on 0. Rim stations count
 * counter-clockwise from the shallow-end centre line (the point of the outline with y = 0 and the smallest x), so
 * they run along the right side (negative y) first, as a tape would.
 */
export interface Outline {
  readonly chain: Chain;
  readonly runs: readonly Run[];
  readonly extent: { readonly length: number; readonly width: number };
}
