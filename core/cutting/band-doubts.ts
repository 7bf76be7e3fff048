import type { Material, ShopSpec } from "../project/schema.ts";
import type { FlatStrip } from "../surface/strip.ts";
import { fixed } from "../units/print.ts";
import type { FittedPart } from "./fit-part.ts";
import type { Joint } from "./joints.ts";
import type { CutDoubt, Piece } from "./kit.ts";

type Woven = Material & { readonly kind: "woven" };

/** A lap shorter than asked by less than this is not worth a word, mm. */
const SHORT_LAP = 1;
const DEGREE = Math.PI / 180;

/** How many widths of cloth, each lapping the next, make up a band wider than the roll. */
export function tooWide(widest: number, { name, rollWidth }: Woven, lap: number): string {
  const told = `${fixed(widest, 0)} mm wide, and ${name} comes ${rollWidth} mm wide`;
  if (lap >= rollWidth) return `${told}, no wider than the lap of ${lap} mm: a wider roll is wanted`;
  const widths = Math.ceil((widest - lap) / (rollWidth - lap) - 1e-9);
  const laps = widths === 2 ? `a side lap of ${lap} mm` : `side laps of ${lap} mm`;
  return `${told}: cut it in ${widths} widths with ${laps}, or lay ${widths} narrower bands`;
}

/** Where a part cannot be made to lie as cloth, in words; null where it lies. `piece` is what is listed for it. */
export function unfitness({ zone, fit }: FittedPart, piece: Piece, material: Woven): string | null {
  if (!fit) return `cloth folds on it however it is hung: ${pulledStraight(piece)}`;
  if (fit.overlaps) return "laid flat it lies over itself: it cannot be cut from one piece of cloth";
  const { most, station } = fit.drape.shear;
  if (most > material.lockingDeg * DEGREE)
    return (
      `its yarns turn by ${fixed(most / DEGREE, 0)}° at ${fixed(station - zone.from, 0)} mm from its beginning, past the ` +
      `${material.lockingDeg}° at which ${material.name} locks: slit it there until it lies down`
    );
  return fit.isRough
    ? "cloth is lost on it where the surface bends most: its outline is a rough one, to be trimmed on the plug"
    : null;
}

/** Whether there is no cloth for a part that could be cut by its outline. */
export const cannotBeCut = ({ fit }: FittedPart): boolean => fit === null || fit.overlaps;

/** What a piece on which cloth could not be laid is listed as, against the surface that it is to cover. */
function pulledStraight({ areaMm2, flatAreaMm2, glassKg }: Piece): string {
  const m2 = (mm2: number) => fixed(mm2 / 1e6, 3);
  const off = (glassKg * (areaMm2 - flatAreaMm2)) / flatAreaMm2;
  return (
    `its outline is only the band pulled straight, ${m2(flatAreaMm2)} m² for ${m2(areaMm2)} m² of surface, ` +
    `and its mass ${fixed(Math.abs(off), 2)} kg too ${off > 0 ? "small" : "large"}`
  );
}

/** What to look at in a ply's division, in words: pieces too long to handle, joints too near to those below, laps in tight corners. `unrolled` measures laps, `clearances` are those of the joints. */
export function plyDoubts(
  joints: readonly Joint[],
  unrolled: (stretch: readonly [from: number, to: number]) => FlatStrip,
  clearances: readonly number[],
  lengths: readonly number[],
  shop: ShopSpec,
): CutDoubt[] {
  const doubts: CutDoubt[] = [];
  const long = lengths.filter((length) => length > shop.handlingLength + 1e-6);
  if (long.length > 0) {
    doubts.push({
      says:
        `${long.length} of its ${lengths.length} pieces ${long.length === 1 ? "is" : "are"} longer than the handling length of ` +
        `${shop.handlingLength} mm, up to ${fixed(Math.max(...long), 0)} mm: no shorter ones take laps of ${shop.lap} mm there`,
    });
  }
  const near = clearances.filter((clearance) => clearance < shop.jointStagger - 1e-6);
  if (near.length > 0) {
    doubts.push({
      says:
        `${near.length} of its ${joints.length} joints could be kept only ${fixed(Math.min(...near), 0)} mm from those of the ply below, ` +
        `not ${shop.jointStagger} mm`,
    });
  }
  for (const { at, from, to } of joints) {
    const least = shortestLine(unrolled([from, to]));
    if (least > shop.lap - SHORT_LAP) continue;
    doubts.push({
      says: `the lap at ${fixed(at, 0)} mm lies in a tight corner: ${fixed(least, 0)} mm on its short edge, not ${shop.lap} mm`,
      atMm: at,
    });
  }
  return doubts;
}

export const longestLine = (flat: FlatStrip): number =>
  Math.max(flat.midLengthMm, flat.leftLengthMm, flat.rightLengthMm);

const shortestLine = (flat: FlatStrip): number =>
  Math.min(flat.midLengthMm, flat.leftLengthMm, flat.rightLengthMm);
