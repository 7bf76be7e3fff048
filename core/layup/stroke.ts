import type { ZoneSpec } from "../project/schema.ts";
import type { SurfaceCurve } from "../surface/curve.ts";
import { pathThrough } from "../surface/path.ts";
import { layStrip, type Strip, stripArea } from "../surface/strip.ts";
import { type Astray, isAstray } from "./adrift.ts";
import { surfacePoint } from "./anchors.ts";
import { bandSampling, LEAST_AREA, noSurface, stripDoubts, taper } from "./band.ts";
import { stripMarks } from "./band-marks.ts";
import type { LaidBand } from "./laid.ts";
import { climbsOverRim } from "./over-rim.ts";
import { materialOf, type Site } from "./site.ts";

type StrokeSpec = Extract<ZoneSpec, { kind: "stroke" }>;

/** Lays a free band along a smooth path through places of the surface, or says which place is lost. */
export function layStroke(site: Site, spec: StrokeSpec): LaidBand | Astray {
  const material = materialOf(site.project, spec.material, "woven");
  if (isAstray(material)) return material;
  const knots: number[] = [];
  const doubts: string[] = [];
  for (const [i, place] of spec.path.entries()) {
    const found = surfacePoint(site, place);
    if (isAstray(found)) return { why: `Point ${i + 1} of the path: ${found.why}`, mend: found.mend };
    knots.push(...found.point);
    if ("face" in place && place.face !== found.face)
      doubts.push(`point ${i + 1} of its path, meant for ${place.face}, lies on ${found.face}`);
  }
  const half = spec.width / 2;
  const laid = stripThrough(site, knots, half);
  if (isAstray(laid)) return laid;
  const { curve, strip } = laid;
  const { plyWidths, thin } = taper([half, half], spec.plies, site.project.shop.plyStep);
  return {
    id: spec.id,
    spec,
    kind: "stroke",
    material,
    areaMm2: strip.areaMm2,
    lengthMm: strip.midLengthMm,
    plies: spec.plies,
    curve,
    strip,
    plyWidths,
    plyAreasMm2: plyWidths.map(([left, right]) => stripArea(strip, strip.from, strip.to, left, right)),
    tape: stripMarks(site, strip),
    doubts: [...doubts, ...thin, ...stripDoubts(site, strip), ...climbsOverRim(site, strip, "width")],
  };
}

function stripThrough(
  site: Site,
  knots: readonly number[],
  half: number,
): { curve: SurfaceCurve; strip: Strip } | Astray {
  try {
    const curve = pathThrough(site.field, knots);
    const strip = layStrip(site.field, curve, null, [half, half], bandSampling);
    return strip.areaMm2 >= LEAST_AREA ? { curve, strip } : noSurface("the path");
  } catch (error) {
    // Both say in words which point or stretch has no surface, or that two points fall on each other.
    if (!(error instanceof Error)) throw error;
    return { why: error.message, mend: "Move the points of the path apart, or onto the shell." };
  }
}
