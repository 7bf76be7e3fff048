import type { Kit, KitDoubt } from "../cutting/kit.ts";
import type { LaidZone, Layup } from "../layup/laid.ts";
import type { Adjustment } from "../shell/shell.ts";

/** What there is to say of the shell that a kit is cut for. */
export interface ToldOfShell {
  /** What the self-check of its surface found, in words. */
  readonly flaws: readonly string[];
  /** What had to be adjusted, so that it can be built. */
  readonly adjustments: readonly Adjustment[];
}

/**
 * What `ribband kit --json` prints and `kit.json` holds: figures unrounded, units in the names of the keys. Quantities
 * and areas are of one shell, `totals` of all; a zone's area is that of one ply.
 */
export function kitReport(name: string, layup: Layup, kit: Kit, { flaws, adjustments }: ToldOfShell) {
  const { looks, uncut } = lookedAt(layup, kit);
  return {
    report: "kit",
    version: 1,
    name,
    shells: kit.shells,
    zones: layup.zones.map(zoneReport),
    pieces: kit.pieces.map(({ areaMm2, flatAreaMm2, outline, shear, ...piece }) => ({
      ...piece,
      areaM2: areaMm2 / 1e6,
      flatAreaM2: flatAreaMm2 / 1e6,
      outlineMm: pairs(outline),
      shear: shear && { mostDeg: degrees(shear.most), meanDeg: degrees(shear.mean) },
    })),
    strips: kit.strips,
    sheets: kit.sheets.map(({ areaMm2, outline, ...sheet }) => ({
      ...sheet,
      areaM2: areaMm2 / 1e6,
      outlineMm: pairs(outline),
    })),
    totals: kit.totals.map(({ areaMm2, ...total }) => ({ ...total, areaM2: areaMm2 / 1e6 })),
    adrift: layup.adrift.map(({ id, spec, why, mend }) => ({ id, kind: spec.kind, why, mend })),
    doubts: looks,
    flaws,
    adjustments,
    cannotBeCut: uncut,
  };
}

/** Everything to look at before cutting: what the lay-up found, then what cutting found, each under its zone. */
export function doubtsOf(layup: Layup, kit: Kit): readonly KitDoubt[] {
  return layup.zones.flatMap(({ id, doubts }) => [
    ...doubts.map((says) => ({ zone: id, says })),
    ...kit.doubts.filter((doubt) => doubt.zone === id),
  ]);
}

/** The same in two lists: what there is to look at, and what says that cloth cannot be cut as it is listed. */
export function lookedAt(
  layup: Layup,
  kit: Kit,
): { readonly looks: readonly KitDoubt[]; readonly uncut: readonly KitDoubt[] } {
  const all = doubtsOf(layup, kit);
  return {
    looks: all.filter(({ fault }) => fault === undefined),
    uncut: all.flatMap(({ fault, ...doubt }) => (fault === undefined ? [] : [doubt])),
  };
}

function zoneReport(zone: LaidZone) {
  const { id, kind, material, areaMm2, lengthMm, plies, tape } = zone;
  return {
    id,
    kind,
    material: material.id,
    areaM2: areaMm2 / 1e6,
    lengthMm,
    plies,
    ...("plyAreasMm2" in zone && { plyAreasM2: zone.plyAreasMm2.map((area) => area / 1e6) }),
    ...("ribs" in zone && {
      ribs: zone.ribs.map(({ curve: _, leastBendMm, ...rib }) => ({
        ...rib,
        /** A straight rib has no bend. */
        leastBendMm: Number.isFinite(leastBendMm) ? leastBendMm : null,
      })),
    }),
    tape,
  };
}

const degrees = (angle: number): number => (angle * 180) / Math.PI;

function pairs(outline: Float64Array): [number, number][] {
  return Array.from({ length: outline.length / 2 }, (_, i) => [outline[2 * i], outline[2 * i + 1]]);
}
