/** All that is cut for a lot of one model: pieces of cloth, strips, gussets and pads, and the totals by material. */
import type { TapeMark } from "../layup/laid.ts";

export interface Piece {
  /** Stable: from the zone's id, the ply and the place of the piece in its band; does not change when other zones come or go. */
  readonly name: string;
  readonly zone: string;
  readonly ply: number;
  readonly material: string;
  /** For one shell: as many as it is laid in places. */
  readonly quantity: number;
  /** Box of the flat outline: along the warp and across it, mm. */
  readonly lengthMm: number;
  readonly widthMm: number;
  /** True lengths along the surface of both edges, from corner to corner of the piece, and of the mid line, laps included, mm. */
  readonly leftEdgeMm: number;
  readonly rightEdgeMm: number;
  readonly midMm: number;
  /** Says that the edges differ by more than the shop can pull straight: a corner piece. */
  readonly corner: boolean;
  /** Area of the piece on the surface and of the flat cloth for it, laps included, mm². */
  readonly areaMm2: number;
  readonly flatAreaMm2: number;
  /** Mass of the flat cloth. */
  readonly glassKg: number;
  /**
   * Stations along the zone at which it begins and ends, laps included, mm; of the first of its places. In a kit a piece that lies over the beginning of a
   * closed zone ends at a lesser one than it begins at.
   */
  readonly fromMm: number;
  readonly toMm: number;
  /**
   * Flat shape to be cut, trim and darts included: closed, x y pairs (mm), counter-clockwise seen from the side that lies outside when laid,
   * the warp along x, in the direction of the zone; its box begins at 0, 0.
   */
  readonly outline: Float64Array;
  readonly darts: readonly Dart[];
  readonly notches: readonly Notch[];
  /** Null where cloth could not be laid at all: the outline is then only the band pulled straight. */
  readonly shear: ClothShear | null;
  /** Where it is laid: one for each of its quantity. */
  readonly places: readonly PiecePlace[];
  /** Where stations along the zone begin; not set in a plan made before anything is laid. */
  readonly begins?: StripMark;
}

/** A cut into a piece, whose two sides are laid against each other. */
export interface Dart {
  readonly side: "left" | "right";
  /** Where it ends and where its two sides meet the edge, in the outline's coordinates, mm. */
  readonly tip: readonly [number, number];
  readonly mouth: readonly [readonly [number, number], readonly [number, number]];
  /** From the edge to the tip along its longer side, and between its two sides at the edge, mm. */
  readonly depthMm: number;
  readonly openingMm: number;
}

/**
 * A mark on a piece: the end of the piece beside it, the zone's line, or a corner of the line: where it begins and where it ends, a short one in its
 * middle. Marks of the line lie
 * where it runs, mostly inside the piece.
 */
export interface Notch {
  readonly what: "lap" | "line" | "corner";
  /**
   * By which it is told from others: at a lap the piece that ends there (`1b` of `foot/1b`), none where that differs from place to place of this one; of a
   * corner its number along the piece, the same on both edges.
   */
  readonly label?: string;
  readonly x: number;
  readonly y: number;
}

/** How far a piece's yarns turn from square to each other when it is laid, rad: the most, and the root mean square. */
export interface ClothShear {
  readonly most: number;
  readonly mean: number;
}

export interface PiecePlace {
  readonly fromMm: number;
  readonly toMm: number;
  /** As its outline shows it, or turned over about the warp. */
  readonly hand: "as drawn" | "turned over";
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
  /** The longer and the shorter side of its bounding box, whichever way its core runs, mm; its area, mm². */
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly areaMm2: number;
  readonly massKg: number;
  /** Closed outline, mm, x y pairs. */
  readonly outline: Float64Array;
  /** Where each of its quantity is laid; not set in a plan made before anything is laid. */
  readonly places?: readonly SheetPlace[];
}

/** Where a gusset's nose, or the first corner from the shallow end of the patch that a pad's piece belongs to, lies on the tape. */
export interface SheetPlace extends StripMark {
  /** Of this one, where alike ones go by the name of the first: `gussets-seat/3`. */
  readonly name: string;
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

/** What there is to say of the pieces of a zone. */
export interface CutDoubt {
  readonly says: string;
  /** Where along the zone's line it is, mm; not set where it is about all of it. */
  readonly atMm?: number;
  /** Set where it makes the kit one not to be cut by: its areas and masses are not those of what will be laid. */
  readonly fault?: "cannot be cut" | "wider than its roll";
}

export interface KitDoubt extends CutDoubt {
  readonly zone: string;
}
