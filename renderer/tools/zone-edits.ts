import { zoneName } from "../../core/layup/zone-names.ts";
import type { Project, ZoneSpec } from "../../core/project/schema.ts";
import { type FigurePath, setting, valueAt } from "../document/figure-path.ts";
import type { Recipe } from "../document/history.ts";

/** Edits of zones that are laid already: pure recipes, for the store to make steps of. */

/** A zone that is not laid yet: the id is given when it is. */
export type NewZone = ZoneSpec extends infer Z ? (Z extends ZoneSpec ? Omit<Z, "id"> : never) : never;

/** What a zone is called for, and what it lies on. */
function nameFor(zone: NewZone): [string, string] {
  switch (zone.kind) {
    case "band":
      return ["band", zone.on];
    case "stroke":
      return ["free-band", ""];
    case "rib":
      return ["rib", zone.at.run];
    case "rib-row":
      return ["ribs", zone.from.run];
    case "gussets":
      return ["gussets", zone.under];
    case "pad":
      return ["pad", zone.on];
    case "stiffener":
      return ["stiffener", zone.run];
  }
}

/** Gives zones their ids, made from what they are and where they lie; none that the project has already. */
export function named(project: Pick<Project, "layup">, zones: readonly NewZone[]): ZoneSpec[] {
  const taken = new Set(project.layup.map(({ id }) => id));
  return zones.map((zone) => {
    const id = zoneName(...nameFor(zone), taken);
    taken.add(id);
    const { kind, id: _, ...figures } = zone as ZoneSpec;
    // The order of keys in the file: kind, id, figures.
    return { kind, id, ...figures } as ZoneSpec;
  });
}

export const laying =
  (zones: readonly ZoneSpec[]): Recipe =>
  (draft) => {
    draft.layup.push(...structuredClone(zones as ZoneSpec[]));
  };

export const removing =
  (ids: Iterable<string>): Recipe =>
  (draft) => {
    const gone = new Set(ids);
    draft.layup = draft.layup.filter(({ id }) => !gone.has(id));
  };

/** Puts a zone in the place of the one of the same id. */
export const replacing =
  (zone: ZoneSpec): Recipe =>
  (draft) => {
    const at = draft.layup.findIndex(({ id }) => id === zone.id);
    if (at < 0) throw new Error(`The project has no zone ${zone.id}.`);
    draft.layup[at] = structuredClone(zone);
  };

/** Sets one figure of several zones; one that has no such figure stays as it is. */
export const settingOf =
  (ids: Iterable<string>, path: FigurePath, value: unknown): Recipe =>
  (draft) => {
    const meant = new Set(ids);
    draft.layup.forEach((zone, i) => {
      if (meant.has(zone.id) && ownerAt(zone, path) !== undefined)
        setting(["layup", i, ...path], value)(draft);
    });
  };

const ownerAt = (zone: ZoneSpec, path: FigurePath): unknown => {
  const owner = path.slice(0, -1).reduce<unknown>((value, key) => {
    return typeof value === "object" && value !== null ? (value as Record<string, unknown>)[key] : undefined;
  }, zone);
  return typeof owner === "object" && owner !== null && path[path.length - 1] in owner ? owner : undefined;
};

/** The zones of these ids, in the order of the file. */
export const zonesOf = ({ layup }: Pick<Project, "layup">, ids: Iterable<string>): ZoneSpec[] => {
  const meant = new Set(ids);
  return layup.filter(({ id }) => meant.has(id));
};

/** The same zones once more, under names of their own. */
export const duplicates = (project: Pick<Project, "layup">, ids: Iterable<string>): ZoneSpec[] =>
  named(project, zonesOf(project, ids));

/** The figure of a zone at a path within it. */
export const figureAt = (zone: ZoneSpec, path: FigurePath): unknown =>
  valueAt(zone as unknown as Project, path);

/** Whether the very same zone, by whatever name, is laid already. */
export function isLaid(layup: readonly ZoneSpec[], zone: NewZone): boolean {
  const figures = (of: NewZone) => JSON.stringify({ ...of, id: "" });
  const wanted = figures(zone);
  return layup.some((each) => each.kind === zone.kind && figures(each) === wanted);
}
