/** All that is cut for a lot of one model: pieces of cloth, strips, gussets and pads, and the totals by material. */
import type { TapeMark } from "../layup/laid.ts";

export interface Piece {
  /** Stable: from the zone's id, the ply and the place of the piece in its band; does not change when other zones come or go. */
  readonly name: string;
  readonly zone: string;
  readonly ply: number;
  readonly material: string;
  /** For one shell. */
  readonly quantity: number;
  /** Cut size of the unrolled strip: the longer of its two edges and the mid line, and the full width, mm. */
  readonly lengthMm: number;
  readonly widthMm: number;
  /** True lengths along the surface of both edges and the mid line, laps included, mm. */
  readonly leftEdgeMm: number;
  readonly rightEdgeMm: number;
  readonly midMm: number;
  /** Says that the edges differ by more than the shop can pull straight: a corner piece. */
  readonly corner: boolean;
  /** Area of the piece on the surface, laps included, mm². */
  readonly areaMm2: number;
  readonly glassKg: number;
  /** Stations along the zone at which it begins and ends, laps included, mm. */
  readonly fromMm: number;
  readonly toMm: number;
}

export interface StripPiece {
  readonly name: string;
  readonly zone: string;
  readonly material: string;
  readonly quantity: number;
  /** Cut length, bevels included; the kerf is the saw's and is added in the totals, mm. */
  readonly lengthMm: number;
  /** How each end is cut: bevelled, or square where it butts against the next piece of a strip longer than the stock. */
  readonly ends: readonly [StripEnd, StripEnd];
  readonly bevelDeg: number;
  readonly massKg: number;
  /** Where its first and its last end lie, as a tape reads it on the plug. Of a rib the first is the upper one. */
  readonly tape: readonly [StripMark, StripMark];
}

/** A place as a tape reads it: along the rim from a mark (counter-clockwise positive) and down the surface, mm; null where that does not help. */
export type StripMark = Pick<TapeMark, "from" | "alongMm" | "downMm">;

export type StripEnd = "bevel" | "butt";

export interface SheetPiece {
  readonly name: string;
  readonly zone: string;
  readonly kind: "gusset" | "pad";
  readonly material: string;
  readonly quantity: number;
  /** Bounding size and area, mm, mm². */
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly areaMm2: number;
  readonly massKg: number;
  /** Closed outline, mm, x y pairs. */
  readonly outline: Float64Array;
}

export interface MaterialTotal {
  readonly material: string;
  readonly name: string;
  readonly kind: "woven" | "strip" | "sheet";
  /** All figures are for all shells. */
  readonly pieces: number;
  /** Area of cloth on the surface, of sheet, of strips (width × length); laps included, kerf not, mm². */
  readonly areaMm2: number;
  /** Running length of what is cut, of strips with a kerf a piece; 0 for sheets. */
  readonly lengthMm: number;
  /** Of that the saw kerfs; 0 for what is not sawn to length. */
  readonly kerfMm: number;
  readonly massKg: number;
}

export interface Kit {
  readonly shells: number;
  readonly pieces: readonly Piece[];
  readonly strips: readonly StripPiece[];
  readonly sheets: readonly SheetPiece[];
  readonly totals: readonly MaterialTotal[];
  /** Things to look at before cutting, in words with figures, in the order of the zones. */
  readonly doubts: readonly KitDoubt[];
}

export interface KitDoubt {
  readonly zone: string;
  readonly says: string;
}
