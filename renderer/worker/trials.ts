import { isAstray } from "../../core/layup/adrift.ts";
import { surfacePoint } from "../../core/layup/anchors.ts";
import { automaticLayup, type HouseBand, houseBand } from "../../core/layup/house-rules.ts";
import { placeOf } from "../../core/layup/place-of.ts";
import type { Project, SurfacePlace, ZoneSpec } from "../../core/project/schema.ts";
import { drawZone } from "./drawing/draw-zone.ts";
import type { LaidZoneView } from "./results.ts";
import type { Stages } from "./stages.ts";
import { zoneView } from "./views.ts";

/** What a zone would come to on a project's shell: laid and drawn, or why it finds no place. */
export type Tried =
  | { readonly ok: true; readonly zone: LaidZoneView }
  | { readonly ok: false; readonly why: string; readonly mend: string };

/** Answers what would be if: the project itself is left as it is. All on the shell as exactly as it is known. */
export interface Trials {
  /** Lays zones that the project need not have. */
  lay(project: Project, zones: readonly ZoneSpec[]): Tried[];
  /** How the house rules lay a band on each transition that takes one, by its id. */
  bands(project: Project): Record<string, HouseBand>;
  /** Points (mm) with the faces that own them, as places by name and proportion; null where there is none. */
  places(project: Project, points: readonly Pointed[]): (SurfacePlace | null)[];
  /** Where places lie on the lay-up surface, mm; null for a place that is lost. */
  points(project: Project, places: readonly SurfacePlace[]): (readonly [number, number, number] | null)[];
  /** The zones that the house rules ask for. */
  automatic(project: Project): ZoneSpec[];
}

/** A point of the shell and the face that owns it. */
export interface Pointed {
  readonly point: readonly [number, number, number];
  readonly face: string;
}

export function makeTrials(stages: Stages): Trials {
  let drawn = 0;
  return {
    lay(project, zones) {
      const built = stages.shell(project);
      if (!built.ok) return zones.map(() => ({ ok: false, ...NO_SHELL }));
      const ground = stages.ground(project, built.shell, "preview");
      return zones.map((spec): Tried => {
        const laid = ground.lay(spec);
        if (isAstray(laid)) return { ok: false, why: laid.why, mend: laid.mend };
        return { ok: true, zone: zoneView(laid, ++drawn, drawZone(laid, project.shop)) };
      });
    },
    bands(project) {
      const built = stages.shell(project);
      if (!built.ok) return {};
      const { site } = stages.ground(project, built.shell, "preview");
      // The ground is shared by projects that differ in their rules.
      const ruled = { ...site, project };
      return Object.fromEntries(
        site.transitions.flatMap((transition) => {
          const band = houseBand(ruled, transition);
          return band ? [[transition.id, band]] : [];
        }),
      );
    },
    places(project, points) {
      const built = stages.shell(project);
      if (!built.ok) return points.map(() => null);
      const { site } = stages.ground(project, built.shell, "preview");
      return points.map(({ point, face }) => placeOf(site, point, face));
    },
    points(project, places) {
      const built = stages.shell(project);
      if (!built.ok) return places.map(() => null);
      const { site } = stages.ground(project, built.shell, "preview");
      return places.map((place) => {
        const found = surfacePoint(site, place);
        return isAstray(found) ? null : found.point;
      });
    },
    automatic(project) {
      const built = stages.shell(project);
      if (!built.ok) return [];
      return automaticLayup(project, built.shell, stages.transitions(project, built.shell, "preview"));
    },
  };
}

const NO_SHELL = { why: "The shell cannot be built.", mend: "Mend the shell first." };
