import type { LaidBand, LaidZone, Layup } from "../layup/laid.ts";
import type { Material, Project, ShopSpec } from "../project/schema.ts";
import { alikePieces } from "./alike.ts";
import { type BandPieces, bandPieces } from "./band-pieces.ts";
import type { CutDoubt, Kit, Piece, SheetPiece, StripPiece } from "./kit.ts";
import { onTape } from "./on-tape.ts";
import { gussetPieces, padPieces } from "./sheet-pieces.ts";
import { stripPieces } from "./strip-pieces.ts";
import { totalsOf } from "./totals.ts";

/**
 * All that is cut for `shells` shells (a whole number, 1 or more) of a project. Each zone is cut by itself, so its pieces
 * and their names do not change when other zones come or go. `layup` is the project's own. `onPart` hears which zone is being cut, again and again.
 */
export function cutKit(
  project: Project,
  layup: Layup,
  shells: number,
  onPart: (part: string) => void = () => {},
): Kit {
  if (!(Number.isInteger(shells) && shells >= 1)) {
    throw new RangeError(`${shells} shells: a whole number of 1 or more is wanted.`);
  }
  const cuts = layup.zones.map((zone) => cutZone(project, zone, () => onPart(`cutting ${zone.id}`)));
  const pieces = cuts.flatMap((cut) => cut.pieces ?? []);
  const strips = cuts.flatMap((cut) => cut.strips ?? []);
  const sheets = cuts.flatMap((cut) => cut.sheets ?? []);
  return {
    shells,
    pieces,
    strips,
    sheets,
    totals: totalsOf({ shells, pieces, strips, sheets }, project.materials, project.shop),
    doubts: cuts.flatMap((cut, i) => cut.doubts.map((doubt) => ({ zone: layup.zones[i].id, ...doubt }))),
  };
}

/**
 * Cuts a project zone by zone, so that whoever must not be kept waiting can stop in between; what is cut is remembered, and `cutKit` of the
 * same project and lay-up is then quick.
 */
export function* cutInSteps(project: Project, layup: Layup): Generator<void, void> {
  for (const zone of layup.zones) {
    cutZone(project, zone, () => {});
    yield;
  }
}

/**
 * Pieces of a band as they are cut, before those that are alike are made one. Those cut so far are remembered: laying cloth is slow, and a
 * kit is cut anew whenever another zone changes.
 */
export function bandAsCut(zone: LaidBand, { shop, materials }: Project): BandPieces {
  return cutBand(zone, shop, materials, () => {}).asCut;
}

interface BandCut {
  /** The shop's figures and materials by which it was cut. */
  readonly by: string;
  readonly asCut: BandPieces;
  readonly cut: ZoneCut;
}

const known = new WeakMap<LaidBand, BandCut>();

function cutBand(
  zone: LaidBand,
  shop: ShopSpec,
  materials: readonly Material[],
  onPiece: () => void,
): BandCut {
  const by = JSON.stringify([shop, materials]);
  const before = known.get(zone);
  if (before?.by === by) return before;
  const asCut = bandPieces(zone, ofKind(zone.material, "woven", zone), shop, onPiece);
  const { pieces, doubts } = asCut;
  const cut = { pieces: alikePieces(pieces, shop.alike).map((piece) => onTape(zone, piece)), doubts };
  const made = { by, asCut, cut };
  known.set(zone, made);
  return made;
}

interface ZoneCut {
  readonly pieces?: readonly Piece[];
  readonly strips?: readonly StripPiece[];
  readonly sheets?: readonly SheetPiece[];
  readonly doubts: readonly CutDoubt[];
}

/** @param onPart called again and again while the zone is cut */
function cutZone(project: Project, zone: LaidZone, onPart: () => void): ZoneCut {
  const { material } = zone;
  onPart();
  switch (zone.kind) {
    case "band":
    case "stroke":
      return cutBand(zone, project.shop, project.materials, onPart).cut;
    case "rib":
    case "rib-row":
    case "stiffener":
      return stripPieces(zone, ofKind(material, "strip", zone), project.shop);
    case "gussets":
      return gussetPieces(zone, ofKind(material, "sheet", zone));
    case "pad":
      return padPieces(zone, ofKind(material, "sheet", zone));
  }
}

/** The project file was checked for this when it was read. */
function ofKind<K extends Material["kind"]>(
  material: Material,
  kind: K,
  zone: LaidZone,
): Material & { kind: K } {
  if (material.kind !== kind) {
    throw new TypeError(
      `Zone ${zone.id} needs a ${kind} material; ${material.id} is a ${material.kind} one.`,
    );
  }
  return material as Material & { kind: K };
}
