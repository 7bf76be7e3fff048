/** What the lay-up gives back: every zone of the project placed on the lay-up surface, or kept and called adrift. */
import type { Material, ZoneSpec } from "../project/schema.ts";
import type { SurfaceCurve } from "../surface/curve.ts";
import type { Strip } from "../surface/strip.ts";

/** A place as a tape reads it on the plug. */
export interface TapeMark {
  /** What is marked, e.g. "start", "rib 3", "lower edge". */
  readonly what: string;
  /** Distance along the rim from `from` (counter-clockwise positive), mm, or null where the rim does not help. */
  readonly alongMm: number | null;
  /** Where the tape starts: a corner or end-centre by name, e.g. "deep-right", "shallow centre". */
  readonly from: string;
  /** Distance down the surface from the rim, mm. */
  readonly downMm: number | null;
}

interface LaidBase {
  readonly id: string;
  readonly spec: ZoneSpec;
  readonly material: Material;
  /** Area on the lay-up surface of one ply (of all parts of the zone), mm². */
  readonly areaMm2: number;
  /** Length of the zone along its line: the transition's stretch, the path, the sum of the ribs' strips, …, mm. */
  readonly lengthMm: number;
  readonly plies: number;
  readonly tape: readonly TapeMark[];
  /** Things to look at, in words with figures; the zone is still laid. */
  readonly doubts: readonly string[];
}

export interface LaidBand extends LaidBase {
  readonly kind: "band" | "stroke";
  readonly curve: SurfaceCurve;
  /** Strip of the whole zone at the first ply's half widths; plies further out stop short by the shop's ply step. */
  readonly strip: Strip;
  /** Half widths of each ply, mm. */
  readonly plyWidths: readonly (readonly [number, number])[];
  /** Area of each ply, mm². */
  readonly plyAreasMm2: readonly number[];
}

export interface LaidRib {
  /** Stable within its zone: `1`, `2`, … counted along the row. */
  readonly name: string;
  /** Centre line of the strip's underside on the lay-up surface, from the top down. */
  readonly curve: SurfaceCurve;
  /** Along the surface, mm. */
  readonly surfaceLengthMm: number;
  /** Developed at mid-core over the bends, with the bevels at both ends: what is cut, mm (without kerf). */
  readonly cutLengthMm: number;
  readonly rimStationMm: number;
  readonly topDownMm: number;
  readonly footDownMm: number;
  /** Tightest bend that the strip takes, mm (Infinity when straight). */
  readonly leastBendMm: number;
}

/** Two tape marks a rib, in the order of the ribs: top, foot. */
export interface LaidRibs extends LaidBase {
  readonly kind: "rib" | "rib-row";
  readonly ribs: readonly LaidRib[];
}

/** A flat shape in its own plane, mm: closed polygon, counter-clockwise, first point not repeated. */
export interface FlatShape {
  readonly points: Float64Array;
  readonly areaMm2: number;
}

export interface LaidGusset {
  readonly name: string;
  readonly shape: FlatShape;
  /** Places the shape in space: origin, and the directions of its x and y. */
  readonly origin: readonly [number, number, number];
  readonly xDirection: readonly [number, number, number];
  readonly yDirection: readonly [number, number, number];
  /** Distance along the riser from its start, mm. */
  readonly alongMm: number;
}

export interface LaidGussets extends LaidBase {
  readonly kind: "gussets";
  readonly gussets: readonly LaidGusset[];
}

export interface LaidPad extends LaidBase {
  readonly kind: "pad";
  /** One shape a separate patch of the face, in plan coordinates at the face's level. */
  readonly shapes: readonly { readonly shape: FlatShape; readonly z: number }[];
}

/** Two tape marks: start, end. */
export interface LaidStiffener extends LaidBase {
  readonly kind: "stiffener";
  readonly curve: SurfaceCurve;
  readonly cutLengthMm: number;
}

export type LaidZone = LaidBand | LaidRibs | LaidGussets | LaidPad | LaidStiffener;

/** A zone that finds no place on this shell: kept as it is, with the reason and what would mend it. */
export interface AdriftZone {
  readonly id: string;
  readonly spec: ZoneSpec;
  readonly why: string;
  readonly mend: string;
}

export interface Layup {
  readonly zones: readonly LaidZone[];
  readonly adrift: readonly AdriftZone[];
}
