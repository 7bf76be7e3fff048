import { buildOutline } from "../../core/plan/build-outline.ts";
import { faceIdsOf } from "../../core/project/faces.ts";
import type { Project, ZoneSpec } from "../../core/project/schema.ts";
import type { FigurePath } from "../document/figure-path.ts";
import { faceName, lineName } from "../parts/names.ts";
import type { LineView } from "../worker/messages.ts";
import { figureAt } from "./zone-edits.ts";

/** A name in a zone by which it hangs on something else, with those that there are. */
export interface ZoneNameChoice {
  readonly path: FigurePath;
  readonly value: string;
  readonly options: readonly { readonly id: string; readonly name: string }[];
}

const paths: readonly FigurePath[] = [
  ["on"],
  ["under"],
  ["run"],
  ["at", "run"],
  ["from", "run"],
  ["to", "run"],
  ["material"],
];

/** The names that all of some zones have, where one list serves them all. */
export function namesIn(
  zones: readonly ZoneSpec[],
  project: Project,
  lines: readonly Pick<LineView, "id" | "kind">[],
): ZoneNameChoice[] {
  return paths.flatMap((path): ZoneNameChoice[] => {
    const values = zones.map((zone) => figureAt(zone, path));
    const [value] = values;
    if (typeof value !== "string" || values.some((each) => typeof each !== "string")) return [];
    const lists = zones.map((zone) => namesFor(zone, path, project, lines));
    const [first, ...others] = lists;
    const same = others.every((list) => list.length === first.length && list[0]?.id === first[0]?.id);
    if (!same) return [];
    const options = first.some(({ id }) => id === value) ? first : [{ id: value, name: value }, ...first];
    return [{ path, value, options }];
  });
}

/** What else a zone of this kind could lie on. */
export function targetsFor(
  zone: ZoneSpec,
  project: Project,
  lines: readonly Pick<LineView, "id" | "kind">[],
): ZoneNameChoice["options"] {
  if (zone.kind === "stroke") {
    const [first] = zone.path;
    const own = "wall" in first ? first.wall.run : first.face;
    const all =
      "wall" in first ? runsOf(project, false) : faceIdsOf(project.shell).filter((id) => id !== "wall");
    return all.filter((id) => id !== own).map((id) => ({ id, name: faceName(id) }));
  }
  const [choice] = namesIn([zone], project, lines);
  return choice.options.filter(({ id }) => id !== choice.value);
}

function namesFor(
  zone: ZoneSpec,
  path: FigurePath,
  project: Project,
  lines: readonly Pick<LineView, "id" | "kind">[],
) {
  const last = path[path.length - 1];
  const faces = () =>
    faceIdsOf(project.shell)
      .filter((id) => /\/(top|tread-\d+)$/.test(id) && !id.startsWith("coping/"))
      .map((id) => ({ id, name: faceName(id) }));
  if (last === "material")
    return project.materials
      .filter(({ kind }) => kind === materialKind(zone))
      .map(({ id, name }) => ({ id, name }));
  if (last === "run")
    return runsOf(project, zone.kind === "stiffener").map((id) => ({ id, name: faceName(id) }));
  if (last === "under") return faces();
  if (zone.kind === "pad") return [...faces(), { id: "floor", name: "floor" }];
  return lines.map(({ id }) => ({ id, name: lineName(id) }));
}

/** Which kind of material a zone is laid with. */
const materialKind = ({ kind }: Pick<ZoneSpec, "kind">): "woven" | "strip" | "sheet" =>
  kind === "band" || kind === "stroke" ? "woven" : kind === "gussets" || kind === "pad" ? "sheet" : "strip";

function runsOf({ shell }: Project, straight: boolean): string[] {
  const built = buildOutline(shell.outline);
  if (!built.ok) return [];
  return built.outline.runs.filter((run) => !straight || run.kind === "straight").map(({ id }) => id);
}
