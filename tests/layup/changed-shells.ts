/**
 * Random changes of the demo shells, to see what becomes of their lay-ups: each change hangs on its seed alone. Shared by the quick
 * test and by the campaign.
 */
import { automaticLayup } from "../../core/layup/house-rules.ts";
import type { LaidZone, Layup } from "../../core/layup/laid.ts";
import { layUp, transitionsOf } from "../../core/layup/lay-up.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import type { FeatureSpec, OutlineSpec, Project, ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { demoNames, demoProject } from "../project/demo-files.ts";
import { dice } from "../shell/random-shell.ts";

type Dice = ReturnType<typeof dice>;

/** What became of one seed. */
export type Outcome =
  | { readonly kind: "refused"; readonly demo: string; readonly why: string }
  | {
      readonly kind: "laid";
      readonly demo: string;
      readonly laid: number;
      readonly adrift: number;
      readonly faults: readonly string[];
    };

const automatic = new Map<string, Project["layup"]>();

/** The mesh only tells which faces meet where, so a coarse one does. */
const transitionsOfShell = (project: Project, shell: Shell) =>
  transitionsOf(project, shell, meshSurface(shell.field, { quality: "preview", edgeMm: 80, chordMm: 6 }));

/** A demo's own lay-up, or by turns the one that the house rules make for it before the change. */
function layupOf(project: Project, seed: number): Project["layup"] {
  if (seed % 2 === 0) return project.layup;
  const known = automatic.get(project.name);
  if (known) return known;
  const built = buildShell(project.shell);
  if (!built.ok) throw new Error(`${project.name} is refused: ${built.refusals[0].why}`);
  const made = automaticLayup(project, built.shell, transitionsOfShell(project, built.shell));
  automatic.set(project.name, made);
  return made;
}

/** The changed demo of a seed, with the lay-up of the one before the change. */
function changedDemo(seed: number): { demo: string; project: Project } {
  const demo = demoNames[seed % demoNames.length];
  const before = demoProject(demo);
  const layup = layupOf(before, Math.floor(seed / demoNames.length));
  const d = dice(seed * 7877 + 5);
  const shell = changedShell(before.shell, d);
  const laidThickness = d.chance(0.3) ? d.mm(0, 10, 1) : before.shop.laidThickness;
  return { demo, project: { ...before, shell, shop: { ...before.shop, laidThickness }, layup } };
}

/** Changes a demo by a seed and lays its zones on what comes out. */
export function changeAndLay(seed: number): Outcome {
  const { demo, project } = changedDemo(seed);
  const built = buildShell(project.shell);
  if (!built.ok) return { kind: "refused", demo, why: built.refusals[0].why };
  const result = layUp(project, built.shell, { transitions: transitionsOfShell(project, built.shell) });
  return {
    kind: "laid",
    demo,
    laid: result.zones.length,
    adrift: result.adrift.length,
    faults: faultsOf(project, result),
  };
}

/** What is wrong with a lay-up: every zone must be there once, laid with sound figures or adrift with a reason. */
function faultsOf(project: Project, { zones, adrift }: Layup): string[] {
  const ids = new Set([...zones, ...adrift].map(({ id }) => id));
  const faults = project.layup.filter(({ id }) => !ids.has(id)).map(({ id }) => `${id} is dropped`);
  if (zones.length + adrift.length !== project.layup.length) faults.push("zones are doubled or dropped");
  for (const { id, why, mend } of adrift) {
    if (why.length < 20 || mend.length < 10) faults.push(`${id} is adrift without a reason`);
    if (/could not be worked out/.test(why)) faults.push(`${id}: ${why}`);
    if (/undefined|NaN/.test(why + mend)) faults.push(`${id}: ${why} ${mend}`);
  }
  return [...faults, ...zones.flatMap(zoneFaults)];
}

const sound = (figure: number) => Number.isFinite(figure) && figure > 0;

function zoneFaults(zone: LaidZone): string[] {
  const faults: string[] = [];
  const fault = (what: string) => faults.push(`${zone.id}: ${what}`);
  if (!sound(zone.areaMm2) || !sound(zone.lengthMm)) fault(`area ${zone.areaMm2}, length ${zone.lengthMm}`);
  for (const { what, from, alongMm, downMm } of zone.tape) {
    const along = alongMm === null || Number.isFinite(alongMm);
    const down = downMm === null || (Number.isFinite(downMm) && downMm > -400 && downMm < 12000);
    if (!from || !along || !down) fault(`tape of ${what}: ${from} ${alongMm} ${downMm}`);
  }
  switch (zone.kind) {
    case "band":
    case "stroke": {
      // A band's area is its length × width, less where it meets itself and more or less in corners.
      const flat = zone.lengthMm * (zone.plyWidths[0][0] + zone.plyWidths[0][1]);
      if (zone.areaMm2 > 1.5 * flat || zone.areaMm2 < 0.15 * flat)
        fault(`area ${zone.areaMm2} of ${flat} flat`);
      const thicker = zone.plyAreasMm2.some((area, i) => i > 0 && area > zone.plyAreasMm2[i - 1] + 1);
      if (thicker) fault(`plies of ${zone.plyAreasMm2.join(", ")}`);
      break;
    }
    case "rib":
    case "rib-row":
      for (const rib of zone.ribs) {
        if (!(rib.footDownMm > rib.topDownMm)) fault(`rib ${rib.name} ends above its top`);
        if (rib.surfaceLengthMm > 6000) fault(`rib ${rib.name} is ${rib.surfaceLengthMm} long`);
        if (Math.abs(rib.curve.length - rib.surfaceLengthMm) > 1e-3) fault(`rib ${rib.name}'s line`);
      }
      break;
    case "gussets":
      for (const { name, shape } of zone.gussets)
        if (!sound(shape.areaMm2) || shape.points.length < 6) fault(`web ${name}`);
      break;
    case "pad":
      for (const { shape } of zone.shapes) if (!sound(shape.areaMm2)) fault("a patch without area");
      break;
    case "stiffener":
      if (!sound(zone.cutLengthMm)) fault(`cut to ${zone.cutLengthMm}`);
  }
  return faults;
}

/** A shell that a designer might make of another: new sizes, depths, radii, another tread, a feature less, a new outline. */
function changedShell(spec: ShellSpec, d: Dice): ShellSpec {
  const [long, wide] = [d.between(0.85, 1.2), d.between(0.88, 1.15)];
  const depth = d.between(0.9, 1.12);
  const { floor, radii, coping } = spec;
  return {
    ...spec,
    outline: changedOutline(spec.outline, long, wide, d),
    floor: {
      ...floor,
      stations: floor.stations.map(({ at, depth: was }) => ({
        at: tens(at * long),
        depth: tens(was * depth),
      })),
      crossFall: d.chance(0.1) ? d.mm(-10, 10, 5) : floor.crossFall,
    },
    draftDeg: d.chance(0.4) ? d.pick([1, 2, 3, 4]) : spec.draftDeg,
    radii: {
      ...radii,
      cove: d.chance(0.4) ? d.mm(120, 240, 10) : radii.cove,
      step: d.chance(0.4) ? d.mm(35, 80, 5) : radii.step,
      nose: d.chance(0.4) ? d.mm(20, 45, 5) : radii.nose,
    },
    features: spec.features.flatMap((feature) => (d.chance(0.12) ? [] : [changedFeature(feature, d)])),
    coping: { ...coping, flange: tens(coping.flange * d.between(0.9, 1.2)) },
  };
}

const tens = (value: number) => Math.round(value / 10) * 10;

function changedOutline(outline: OutlineSpec, long: number, wide: number, d: Dice): OutlineSpec {
  switch (outline.kind) {
    case "rectangle": {
      const [length, width] = [tens(outline.length * long), tens(outline.width * wide)];
      if (d.chance(0.08)) return { kind: "stadium", length, width };
      const cornerRadius = d.chance(0.4) ? d.mm(150, 500, 10) : outline.cornerRadius;
      return { kind: "rectangle", length, width, cornerRadius };
    }
    case "ell":
      return {
        ...outline,
        length: tens(outline.length * long),
        width: tens(outline.width * wide),
        cutLength: tens(outline.cutLength * long * d.between(0.8, 1.1)),
        cutWidth: tens(outline.cutWidth * wide * d.between(0.8, 1.1)),
      };
    case "freeform":
      return { ...outline, points: outline.points.map(([x, y]) => [tens(x * long), tens(y * wide)]) };
    default:
      return outline;
  }
}

function changedFeature(feature: FeatureSpec, d: Dice): FeatureSpec {
  if (feature.kind === "steps") {
    const rise = d.between(0.92, 1.1);
    const treads = feature.treads.map((tread) => ({
      depth: tens(tread.depth * rise),
      going: tens(tread.going * d.between(0.9, 1.15)),
    }));
    return { ...feature, treads: d.chance(0.2) && treads.length > 1 ? treads.slice(0, -1) : treads };
  }
  const depth = tens(feature.depth * d.between(0.88, 1.15));
  if (feature.kind === "bench")
    return { ...feature, depth, width: tens(feature.width * d.between(0.9, 1.15)) };
  return { ...feature, depth, reach: tens(feature.reach * d.between(0.9, 1.15)) };
}
