import type { Project, ZoneSpec } from "../project/schema.ts";
import type { Shell } from "../shell/shell.ts";
import type { Transition } from "../shell/transitions.ts";
import { blendReach } from "../surface/blend-reach.ts";
import { contestBetween } from "../surface/contest.ts";
import { isAstray } from "./adrift.ts";
import { layGussets, nosesOf } from "./gussets.ts";
import { layPad } from "./pad.ts";
import { bevelOf, leastTop, stopsOnWall } from "./rib.ts";
import { layRibRow } from "./rib-row.ts";
import { materialOf, openSite, type Site } from "./site.ts";
import { treadWidth } from "./tread-width.ts";
import { zoneName } from "./zone-names.ts";

/**
 * The lay-up that the house rules of a project ask for on a shell, as zones in their order: the band all round the foot of the
 * wall, a band on every other re-entrant transition (and on noses if the rules give them plies), a row of ribs on every
 * straight wall, gussets and a pad under every tread, bench and ledge top, a stiffener on every straight run of the coping. What
 * a rule asks for is left out only where the shell has no room for it; `coverage` tells where. Ids are made from names, so the
 * same thing keeps its id on a changed shell. Same input, same zones.
 */
export function automaticLayup(
  project: Project,
  shell: Shell,
  transitions: readonly Transition[],
): ZoneSpec[] {
  const site = openSite(project, shell, transitions);
  const zones = [...bands(site), ...ribRows(site), ...underTreads(site), ...stiffeners(site)];
  const taken = new Set<string>();
  return zones.map(({ zone, of, called }) => {
    const id = zoneName(called, of, taken);
    taken.add(id);
    return { ...zone, id };
  });
}

/** A zone before it has its id: `called` and `of` make it. */
interface Unnamed {
  readonly called: string;
  readonly of: string;
  readonly zone: ZoneSpec;
}

/** Half widths that a project allows, mm. */
const widthIn = (width: number): number => Math.min(1500, Math.max(20, Math.ceil(width - 1e-6)));

/** How the house rules lay a band on a transition; no plies: they lay none of their own accord. */
export interface HouseBand {
  readonly halfWidths: readonly [number, number];
  readonly plies: number;
  readonly material: string;
}

/** The band that the house rules ask for on a transition; null for the edges of the coping, which take none. */
export function houseBand(site: Site, transition: Transition): HouseBand | null {
  const { footBand, stepBand, noseBand } = site.project.rules;
  const { kind } = transition;
  const rule = kind === "foot" ? footBand : kind === "step" ? stepBand : kind === "nose" ? noseBand : null;
  if (!rule) return null;
  const { plies, material } = rule;
  const width = (side: 0 | 1) => widthIn(radiusReach(site, transition, side) + rule.reach);
  return { halfWidths: [width(0), width(1)], plies, material };
}

function bands(site: Site): Unnamed[] {
  const ordered = [...site.transitions].sort((a, b) => Number(b.kind === "foot") - Number(a.kind === "foot"));
  return ordered.flatMap((transition): Unnamed[] => {
    const band = houseBand(site, transition);
    if (!band || band.plies === 0) return [];
    const on = transition.id;
    const { plies, material } = band;
    const halfWidths: [number, number] = [...band.halfWidths];
    return [{ called: "band", of: on, zone: { kind: "band", id: "", on, halfWidths, plies, material } }];
  });
}

/**
 * How far the radius of a transition reaches to one side of its line, mm: the greatest over places along it. Near the ends of an
 * open line other radii run into it, so only its middle part counts; nor does a place whose way runs along another
 * radius: no edge of a shell turns so far that its own would reach further than itself.
 */
function radiusReach(site: Site, { curve, sides, closed }: Transition, side: 0 | 1): number {
  const { cove, step, nose, pairs } = site.shell.spec.radii;
  const most =
    Math.max(cove, step, nose, ...pairs.map(({ radius }) => radius)) + site.project.shop.laidThickness;
  const contest = contestBetween(site.field, sides[0], sides[1]);
  const [from, part] = closed ? [0, 1] : [0.25, 0.5];
  const places = closed ? Math.max(9, Math.ceil(curve.length / 1000)) : 5;
  let reach = 0;
  for (let i = 0; i < places; i++) {
    const at = curve.length * (from + (part * (i + 0.5)) / places);
    const here = blendReach(site.reader.field, contest, curve, at, side) ?? 0;
    if (here <= most) reach = Math.max(reach, here);
  }
  return reach;
}

function ribRows(site: Site): Unnamed[] {
  const { leastWall } = site.project.rules.ribs;
  return site.shell.outline.runs.flatMap((run): Unnamed[] => {
    if (run.kind !== "straight" || run.length < leastWall) return [];
    const zone = ribRowOn(site, run.id);
    return isAstray(layRibRow(site, zone)) ? [] : [{ called: "ribs", of: run.id, zone }];
  });
}

/**
 * The row of ribs that the house rules ask for on a run of the rim, as it can be laid there: lower down where its tops would lie on the rim's
 * radius, and stopping above the radius at its foot where the strip bends to it nowhere along the run.
 */
export function ribRowOn(site: Site, run: string): RowSpec {
  const { pitch, clear, top, onto, overCove, material } = site.project.rules.ribs;
  const strip = materialOf(site.project, material, "strip");
  const bevel = isAstray(strip) ? 0 : bevelOf(strip, site.project.shop.bevelDeg);
  const [from, to] = [
    { run, part: 0 },
    { run, part: 1 },
  ];
  // A rib that stops at the cove keeps its bevelled end off it.
  const stopping = { kind: "to", clear: Math.ceil(bevel) } as const;
  const foot = overCove ? ({ kind: "over", onto } as const) : stopping;
  const zone: RowSpec = { kind: "rib-row", id: "", from, to, pitch, clear, top, foot, material };
  const row = layRibRow(site, zone);
  if (isAstray(row)) return zone;
  const tops = row.ribs.map(({ rimStationMm }) => leastTop(site, rimStationMm, bevel));
  const stopped = row.ribs.every((rib) => stopsOnWall(site, rib));
  return { ...zone, top: Math.max(top, ...tops), foot: stopped ? stopping : foot };
}

type RowSpec = Extract<ZoneSpec, { kind: "rib-row" }>;

function underTreads(site: Site): Unnamed[] {
  const { gussets, pads } = site.project.rules;
  return site.shell.faces.flatMap((face): Unnamed[] => {
    if (face.kind !== "tread") return [];
    const noses = nosesOf(site, face.id);
    if (isAstray(noses)) return [];
    const { width, nose } = treadWidth(site, noses);
    const zones: Unnamed[] = [];
    if (width >= gussets.leastWidth && nose >= 2 * gussets.margin) {
      const { pitch, margin, reach, drop, material } = gussets;
      const under = face.id;
      const zone = { kind: "gussets" as const, id: "", under, pitch, margin, reach, drop, material };
      if (!isAstray(layGussets(site, zone))) zones.push({ called: "gussets", of: face.id, zone });
    }
    if (width >= pads.leastWidth) {
      const { margin, material } = pads;
      const zone = { kind: "pad" as const, id: "", on: face.id, margin, material };
      if (!isAstray(layPad(site, zone))) zones.push({ called: "pad", of: face.id, zone });
    }
    return zones;
  });
}

function stiffeners(site: Site): Unnamed[] {
  const { margin, leastRun, material } = site.project.rules.stiffeners;
  const strip = materialOf(site.project, material, "strip");
  const least = Math.max(leastRun, 2 * margin + (isAstray(strip) ? 0 : strip.width));
  return site.shell.outline.runs.flatMap((run): Unnamed[] => {
    if (run.kind !== "straight" || run.length < least) return [];
    const zone: ZoneSpec = { kind: "stiffener", id: "", run: run.id, margin, material };
    return [{ called: "stiffener", of: run.id, zone }];
  });
}
