import type { Project, ZoneSpec } from "../../core/project/schema.ts";
import { type FigurePath, setting } from "../document/figure-path.ts";
import { work } from "../document/history.ts";
import type { Tried } from "../worker/trials.ts";
import { figuresOf } from "./zone-figures.ts";

/** Lays zones for a trial. */
export type Lay = (zones: readonly ZoneSpec[]) => Promise<readonly Tried[]>;

/** One change of a zone that settles what is wrong with it. */
export interface Mend {
  readonly zone: ZoneSpec;
  /** The figure or name that changes, and how. */
  readonly path: FigurePath;
  readonly from: string | number;
  readonly to: string | number;
}

/**
 * What mends a zone: every figure and every name that core speaks of is put where it may go, the least change first, and laid
 * for a trial. Given back is the first with which the complaint is gone and no other has come; null where no single change does.
 * `complaint`: why it is adrift and what core says of a mend, or one of its doubts.
 */
export async function mendFor(
  project: Project,
  zone: ZoneSpec,
  complaint: string,
  lay: Lay,
): Promise<Mend | null> {
  const [before] = await lay([zone]);
  const doubtsBefore = before.ok ? before.zone.doubts : [];
  const mends = [...namesPut(project, zone, complaint), ...figuresPut(zone, complaint)];
  const tried = await lay(mends.map((mend) => mend.zone));
  const good = mends.filter((_, i) => {
    const one = tried[i];
    if (!one.ok) return false;
    if (!before.ok) return true;
    return one.zone.doubts.length < doubtsBefore.length && !one.zone.doubts.includes(complaint);
  });
  return good[0] ?? null;
}

/** Zones with one of their figures set to one that the complaint gives, or eased by half or altogether. */
function figuresPut(zone: ZoneSpec, complaint: string): Mend[] {
  const given = [...complaint.matchAll(/(\d+(?:\.\d+)?) mm/g)].map(([, figure]) => Number(figure));
  const mends = figuresOf([zone]).flatMap(({ path, schema, value }): Mend[] => {
    const least = schema.minValue ?? -Infinity;
    const most = schema.maxValue ?? Infinity;
    const eased = EASED.has(path[path.length - 1]) ? [value / 2, 0] : [];
    return [...given, ...eased]
      .map((to) => Math.floor(to))
      .filter((to) => to !== value && to >= least && to <= most)
      .map((to) => ({ zone: changed(zone, path, to), path, from: value, to }));
  });
  const change = ({ from, to }: Mend) => Math.abs(Number(to) - Number(from)) / Math.max(1, Number(from));
  return mends.sort((a, b) => change(a) - change(b));
}

/** Figures that are asked for to keep off something: less of them makes room. */
const EASED: ReadonlySet<string | number> = new Set(["clear", "margin", "onto", "top"]);

/** Zones with one of their names set to one that the complaint speaks of; the first that it speaks of first. */
function namesPut(project: Project, zone: ZoneSpec, complaint: string): Mend[] {
  const spoken = [...complaint.matchAll(/[a-z0-9][a-z0-9\-/|#]*/g)].map(([word]) => word);
  return namesIn(zone, []).flatMap(({ path, value }) =>
    [...new Set(spoken)]
      .filter((to) => to !== value && looksLike(value, to, project, path))
      .map((to) => ({ zone: changed(zone, path, to), path, from: value, to })),
  );
}

function namesIn(value: unknown, path: FigurePath): { path: FigurePath; value: string }[] {
  if (typeof value === "string") return path[0] === "id" || path.includes("kind") ? [] : [{ path, value }];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => namesIn(inner, [...path, key]));
}

/** Keeps words of the sentence from being tried as names. */
function looksLike(from: string, to: string, { materials }: Project, path: FigurePath): boolean {
  if (path[path.length - 1] === "material") return materials.some(({ id }) => id === to);
  if (path[path.length - 1] === "on" && from.includes("|")) return to.includes("|") || to === "foot";
  if (from.includes("/")) return to.includes("/");
  return !to.includes("/") && !to.includes("|");
}

function changed(zone: ZoneSpec, path: FigurePath, value: unknown): ZoneSpec {
  const whole = { layup: [zone] } as unknown as Project;
  return work(whole, setting(["layup", 0, ...path], value)).layup[0];
}
