import type { ZoneSpec } from "../project/schema.ts";
import { type Astray, isAstray } from "./adrift.ts";
import { stationOf } from "./anchors.ts";
import type { LaidRib, LaidRibs, TapeMark } from "./laid.ts";
import { bevelOf, fittingsUnder, overFittings, type Rib, type RibAsk, ribAt, type Strip } from "./rib.ts";
import { around, nearestMark } from "./rim-marks.ts";
import { cornersFor } from "./row-obstacles.ts";
import { materialOf, type Site } from "./site.ts";

type RibSpec = Extract<ZoneSpec, { kind: "rib" }>;
type RowSpec = Extract<ZoneSpec, { kind: "rib-row" }>;

/** Lays one rib where it is asked for; what stands in its way is a doubt. */
export function layRib(site: Site, spec: RibSpec): LaidRibs | Astray {
  const strip = materialOf(site.project, spec.material, "strip");
  if (isAstray(strip)) return strip;
  const place = stationOf(site, spec.at);
  if (isAstray(place)) return place;
  const ask = askOf(site, spec, strip);
  const rib = ribAt(site, place.station, ask);
  if (isAstray(rib)) return rib;
  const under = fittingsUnder(site, rib, ask, 0);
  const doubts = under.length > 0 ? [`it lies on the keep-out of ${overFittings(under)}`] : [];
  const { length } = site.shell.outline.chain;
  for (const { what, from, to } of cornersFor(site, strip.width)) {
    const off = Math.abs(around(place.station - (from + to) / 2, length)) - (to - from) / 2;
    if (off < strip.width / 2) doubts.push(`the strip stands off the shell on ${what}`);
  }
  return laidRibs(site, spec, strip, [{ name: "1", rib }], doubts);
}

/** What a zone asks of each of its ribs. */
export const askOf = (site: Site, spec: RibSpec | RowSpec, strip: Strip): RibAsk => ({
  top: spec.top,
  foot: spec.foot,
  strip,
  bevelMm: bevelOf(strip, site.project.shop.bevelDeg),
});

/** A rib with its name within the zone. */
export interface NamedRib {
  readonly name: string;
  readonly rib: Rib;
}

/** The zone of some ribs. */
export function laidRibs(
  site: Site,
  spec: RibSpec | RowSpec,
  strip: Strip,
  named: readonly NamedRib[],
  doubts: readonly string[],
): LaidRibs {
  const ribs = named.map(({ name, rib }): LaidRib => {
    const { doubts: _, ...laid } = rib;
    return { name, ...laid };
  });
  const surface = ribs.reduce((sum, rib) => sum + rib.surfaceLengthMm, 0);
  return {
    id: spec.id,
    spec,
    kind: spec.kind,
    material: strip,
    areaMm2: surface * strip.width,
    lengthMm: ribs.reduce((sum, rib) => sum + rib.cutLengthMm, 0),
    plies: 1,
    tape: ribs.flatMap((rib) => marksOf(site, spec, rib)),
    doubts: [...doubts, ...gathered(spec, named)],
    ribs,
  };
}

function marksOf(site: Site, spec: RibSpec | RowSpec, rib: LaidRib): TapeMark[] {
  const along = nearestMark(site.marks, rib.rimStationMm, site.shell.outline.chain.length);
  const name = spec.kind === "rib" ? "rib" : `rib ${rib.name}`;
  return [
    { what: `${name}, top`, ...along, downMm: rib.topDownMm },
    { what: `${name}, foot`, ...along, downMm: rib.footDownMm },
  ];
}

/** Doubts of the ribs, those that several share said once. */
function gathered(spec: RibSpec | RowSpec, named: readonly NamedRib[]): string[] {
  const by = new Map<string, string[]>();
  for (const { name, rib } of named)
    for (const doubt of rib.doubts) by.set(doubt, [...(by.get(doubt) ?? []), name]);
  if (spec.kind === "rib") return [...by.keys()];
  return [...by].map(
    ([doubt, names]) => `${names.length > 1 ? "ribs" : "rib"} ${names.join(", ")}: ${doubt}`,
  );
}
