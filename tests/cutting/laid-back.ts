import { fitCloth } from "../../core/cloth/fit.ts";
import type { ClothZone } from "../../core/cloth/zone.ts";
import type { BandPieces } from "../../core/cutting/band-pieces.ts";
import type { LaidBand } from "../../core/layup/laid.ts";
import type { Material } from "../../core/project/schema.ts";
import { fieldNear } from "../../core/surface/bricks.ts";
import { layBack } from "../cloth/lay-back.ts";
import { DEGREE } from "../cloth/nets.ts";

/** What becomes of a band's pieces when their flat shapes are laid back onto the surface. */
export interface BandLaidBack {
  readonly pieces: number;
  /** Pieces that do not lie down, or not as one: each is told by name. */
  readonly unfit: number;
  /** Largest distance of a boundary point from its zone's edge, mm: of pieces without shear (below 1°), and of all others. */
  readonly unrolled: number;
  readonly sheared: number;
  readonly faults: readonly string[];
}

/** What a boundary point may lie off its zone's edge, mm. */
const OFF_UNROLLED = 1;
const OFF_SHEARED = 3;
/** Spacing of the nets that the pieces are laid back by, mm: twice as fine as the finest that they were found in. */
const FINE = 7.5;

/** Lays every so many of the pieces that a band was cut into back, and says what is wrong: a point too far off, or a piece that does not lie and is not told. */
export function layBandBack(zone: LaidBand, { pieces, doubts }: BandPieces, every = 1): BandLaidBack {
  const locking = (zone.material as Material & { kind: "woven" }).lockingDeg * DEGREE;
  const { strip } = zone;
  const faults: string[] = [];
  let [unfit, unrolled, sheared] = [0, 0, 0];
  for (const [i, piece] of pieces.entries()) {
    const lies = piece.shear !== null && piece.shear.most <= locking;
    const isTold = doubts.some(({ says }) => says.startsWith(`${piece.name}: `));
    if (!lies) {
      unfit++;
      if (!isTold) faults.push(`${piece.name} does not lie down, and nobody is told`);
      continue;
    }
    if (isTold) {
      unfit++;
      continue;
    }
    if (i % every !== 0) continue;
    const [left, right] = zone.plyWidths[piece.ply - 1];
    const covered: ClothZone = {
      near: fieldNear(strip.field),
      strip,
      from: strip.from + piece.fromMm,
      to: strip.from + piece.toMm,
      left,
      right,
    };
    const fit = fitCloth(covered, locking, 30);
    if (!fit) {
      faults.push(`${piece.name} lies down once, and not again`);
      continue;
    }
    const { boundary, missing } = layBack(covered, fit, FINE);
    const isUnrolled = fit.drape.shear.most < DEGREE;
    if (isUnrolled) unrolled = Math.max(unrolled, boundary);
    else sheared = Math.max(sheared, boundary);
    if (missing > 0) faults.push(`${piece.name}: ${missing} points come to lie nowhere`);
    if (boundary > (isUnrolled ? OFF_UNROLLED : OFF_SHEARED))
      faults.push(`${piece.name}: ${boundary.toFixed(2)} mm off its zone's edge, ${fit.cuts.length} darts`);
  }
  return { pieces: pieces.length, unfit, unrolled, sheared, faults };
}
