import { isAstray } from "../layup/adrift.ts";
import { bandLine, taper } from "../layup/band.ts";
import type { LaidZone } from "../layup/laid.ts";
import { boxOf } from "../packing/ring.ts";
import type { ZoneSpec } from "../project/schema.ts";
import { cutKit } from "./cut-kit.ts";
import type { Kit, Piece } from "./kit.ts";
import type { Ground } from "./make-kit.ts";
import { type RoughBand, roughPieces } from "./rough-pieces.ts";
import { totalsOf } from "./totals.ts";

/**
 * A kit for one shell at once, for a first plan of a lot, before its bands are laid, let alone their cloth: of these the rectangles that each piece is
 * about to take, and of sheets those round their pieces. Cloth will have other outlines, and a few more pieces where it would lock.
 */
export function firstKit(ground: Ground): Kit {
  const { project, zoneOf } = ground;
  const zones: LaidZone[] = [];
  const pieces: Piece[] = [];
  for (const spec of project.layup) {
    if (spec.kind === "band" || spec.kind === "stroke") {
      pieces.push(...roughly(ground, spec));
      continue;
    }
    const zone = zoneOf(spec);
    if (!isAstray(zone)) zones.push(zone);
  }
  const { strips, sheets: cut } = cutKit(project, { zones, adrift: [] }, 1);
  const sheets = cut.map((each) => {
    const { left: x, low: y, width, height } = boxOf(each.outline);
    return { ...each, outline: Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height) };
  });
  const all = { shells: 1, pieces, strips, sheets };
  return { ...all, totals: totalsOf(all, project.materials, project.shop), doubts: [] };
}

type BandSpec = Extract<ZoneSpec, { kind: "band" | "stroke" }>;

/** About the pieces of a band or stroke; none where it finds no place. */
function roughly(ground: Ground, spec: BandSpec): Piece[] {
  const { project } = ground;
  const band = roughBand(ground, spec);
  const material = project.materials.find(({ id }) => id === spec.material);
  return band && material?.kind === "woven" ? roughPieces(band, material, project.shop) : [];
}

function roughBand({ project, site, zoneOf }: Ground, spec: BandSpec): RoughBand | undefined {
  const { id } = spec;
  if (spec.kind === "stroke") {
    const zone = zoneOf(spec);
    if (isAstray(zone) || zone.kind !== "stroke") return undefined;
    const { curve, plyWidths, strip } = zone;
    return { id, curve, from: strip.from, to: strip.to, closed: strip.closed, plyWidths };
  }
  const line = bandLine(site, spec);
  if (isAstray(line)) return undefined;
  const { on, from, to } = line;
  const closed = on.closed && to - from >= on.curve.length - 1e-6;
  const { plyWidths } = taper(spec.halfWidths, spec.plies, project.shop.plyStep);
  return { id, curve: on.curve, from, to, closed, plyWidths };
}
