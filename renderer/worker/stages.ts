import { type Astray, isAstray } from "../../core/layup/adrift.ts";
import type { AdriftZone, LaidZone, Layup } from "../../core/layup/laid.ts";
import { layZone } from "../../core/layup/lay-up.ts";
import { openSite, type Site } from "../../core/layup/site.ts";
import type { SurfaceMesh } from "../../core/mesh/mesh.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import type { Project, ZoneSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { type Measure, measureMesh } from "../../core/shell/measure.ts";
import type { Shell, ShellResult } from "../../core/shell/shell.ts";
import { findTransitions, type Transition } from "../../core/shell/transitions.ts";
import { remember } from "./remember.ts";

/** Meshes for each use. `sketch` only has to keep up with the pointer. */
const MESHES = {
  sketch: { quality: "preview", edgeMm: 190, chordMm: 30 },
  preview: { quality: "preview" },
  full: { quality: "full" },
} as const;
export type Fineness = keyof typeof MESHES;

/**
 * The stages from a project to its lay-up, each remembered by the figures it hangs on, so that a change works out again only what
 * it touches: a zone's width one zone, a name nothing.
 */
export interface Stages {
  shell(project: Project): ShellResult;
  mesh(project: Project, shell: Shell, fineness: Fineness): SurfaceMesh;
  /** The transitions of the lay-up surface. */
  transitions(project: Project, shell: Shell, fineness: Fineness): readonly Transition[];
  /** The shell ready to be laid up. What was laid on it is remembered. */
  ground(project: Project, shell: Shell, fineness: Fineness): Ground;
  /** Lays the zones one by one, so that the caller may pause or stop in between; returns the whole lay-up. */
  layup(project: Project, shell: Shell, fineness: Fineness): Generator<void, Layup>;
  measure(project: Project, shell: Shell): Measure;
}

export function makeStages(): Stages {
  const shells = remember<ShellResult>();
  const meshes = remember<SurfaceMesh>(6);
  const lines = remember<readonly Transition[]>(4);
  const grounds = remember<Ground>(4);
  const measures = remember<Measure>();

  const stages: Stages = {
    shell: ({ shell, shop }) => shells(builtFrom(shell, shop), () => buildShell(shell, shop.laidThickness)),
    mesh: ({ shell: spec, shop }, shell, fineness) =>
      meshes(`${fineness} ${builtFrom(spec, shop)}`, () => meshSurface(shell.field, MESHES[fineness])),
    transitions(project, shell, fineness) {
      const out = project.shop.laidThickness;
      return lines(`${fineness} ${out} ${JSON.stringify(project.shell)}`, () => {
        const { transitions } = findTransitions(shell, stages.mesh(project, shell, fineness), out);
        return transitions;
      });
    },
    ground(project, shell, fineness) {
      const { shell: spec, materials, shop } = project;
      return grounds(`${fineness} ${JSON.stringify([spec, materials, shop])}`, () =>
        openGround(openSite(project, shell, stages.transitions(project, shell, fineness))),
      );
    },
    *layup(project, shell, fineness) {
      const ground = stages.ground(project, shell, fineness);
      const zones: LaidZone[] = [];
      const adrift: AdriftZone[] = [];
      for (const zone of project.layup) {
        const known = ground.knows(zone);
        const result = ground.lay(zone);
        if (!known) yield;
        if (isAstray(result)) adrift.push({ id: zone.id, spec: zone, why: result.why, mend: result.mend });
        else zones.push(result);
      }
      ground.forgetOthers(project);
      return { zones, adrift };
    },
    measure: (project, shell) =>
      measures(builtFrom(project.shell, project.shop), () =>
        measureMesh(shell, stages.mesh(project, shell, "full")),
      ),
  };
  return stages;
}

/** The figures that a shell is built from: its own, and the laminate that comes first. */
const builtFrom = (shell: Project["shell"], { laidThickness }: Project["shop"]): string =>
  JSON.stringify([shell, laidThickness]);

/** A shell ready to be laid up, with the zones laid on it so far by their figures. */
interface Ground {
  readonly site: Site;
  knows(zone: ZoneSpec): boolean;
  lay(zone: ZoneSpec): LaidZone | Astray;
  /** Forgets the oldest of the zones that a project does not have. */
  forgetOthers(project: Project): void;
}

/** Zones kept beyond those of the project, for trials, steps back and drags to and fro. */
const SPARE_ZONES = 200;

/** A zone's figures without its name. */
const figuresKey = ({ id: _, ...figures }: ZoneSpec): string => JSON.stringify(figures);

function openGround(site: Site): Ground {
  const laid = new Map<string, LaidZone | Astray>();
  return {
    site,
    knows: (zone) => laid.has(JSON.stringify(zone)),
    lay(zone) {
      const key = JSON.stringify(zone);
      const known = laid.get(key);
      if (known) return known;
      // The same figures under another name lie the same.
      const alike = figuresKey(zone);
      const result = laid.get(alike) ?? layZone(site, zone);
      laid.set(alike, result);
      const own = isAstray(result) || result.id === zone.id ? result : { ...result, id: zone.id, spec: zone };
      laid.set(key, own);
      return own;
    },
    forgetOthers(project) {
      const wanted = new Set(project.layup.flatMap((zone) => [JSON.stringify(zone), figuresKey(zone)]));
      let spare = laid.size - wanted.size - SPARE_ZONES;
      for (const key of laid.keys()) {
        if (spare <= 0) return;
        if (wanted.has(key)) continue;
        laid.delete(key);
        spare--;
      }
    },
  };
}
