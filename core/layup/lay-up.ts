import type { SurfaceMesh } from "../mesh/mesh.ts";
import { meshSurface } from "../mesh/mesh-surface.ts";
import type { Project, ZoneSpec } from "../project/schema.ts";
import type { Shell } from "../shell/shell.ts";
import { findTransitions, type Transition } from "../shell/transitions.ts";
import { type Astray, isAstray } from "./adrift.ts";
import { layBand } from "./band.ts";
import { layGussets } from "./gussets.ts";
import type { AdriftZone, LaidZone, Layup } from "./laid.ts";
import { layRib } from "./laid-ribs.ts";
import { layPad } from "./pad.ts";
import { layRibRow } from "./rib-row.ts";
import { openSite, type Site } from "./site.ts";
import { layStiffener } from "./stiffener.ts";
import { layStroke } from "./stroke.ts";

export interface LayupInput {
  /** The transitions of the lay-up surface: `findTransitions(shell, mesh, laidThickness)`. */
  readonly transitions?: readonly Transition[];
  /** A mesh of the shell to find them on, where they are not given. */
  readonly mesh?: SurfaceMesh;
}

/**
 * Places every zone of a project on the lay-up surface of its shell (the gel-coat surface moved out by the laminate already
 * laid), in the order of the file. A zone that finds no place is kept as adrift, with the reason and what would mend it: nothing
 * is dropped. Never throws: a fault of the kernel is a reason too.
 */
export function layUp(project: Project, shell: Shell, input: LayupInput = {}): Layup {
  const site = openSite(project, shell, input.transitions ?? transitionsOf(project, shell, input.mesh));
  return layupOf(project.layup, (spec) => layZone(site, spec));
}

/** The lay-up of zones that are placed, each by itself, in their order. */
export function layupOf(specs: readonly ZoneSpec[], zoneOf: (spec: ZoneSpec) => LaidZone | Astray): Layup {
  const zones: LaidZone[] = [];
  const adrift: AdriftZone[] = [];
  for (const spec of specs) {
    const result = zoneOf(spec);
    if (isAstray(result)) adrift.push({ id: spec.id, spec, why: result.why, mend: result.mend });
    else zones.push(result);
  }
  return { zones, adrift };
}

/** The transitions of a project's lay-up surface. */
export function transitionsOf(project: Project, shell: Shell, mesh?: SurfaceMesh): readonly Transition[] {
  const seen = mesh ?? meshSurface(shell.field, { quality: "preview" });
  return findTransitions(shell, seen, project.shop.laidThickness).transitions;
}

/** Places one zone, or says why it finds no place. */
export function layZone(site: Site, spec: ZoneSpec): LaidZone | Astray {
  try {
    return place(site, spec);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    return {
      why: `The zone could not be worked out: ${error.message}`,
      mend: "A fault of the program: please report it with this project file.",
    };
  }
}

function place(site: Site, spec: ZoneSpec): LaidZone | Astray {
  switch (spec.kind) {
    case "band":
      return layBand(site, spec);
    case "stroke":
      return layStroke(site, spec);
    case "rib":
      return layRib(site, spec);
    case "rib-row":
      return layRibRow(site, spec);
    case "gussets":
      return layGussets(site, spec);
    case "pad":
      return layPad(site, spec);
    case "stiffener":
      return layStiffener(site, spec);
  }
}
