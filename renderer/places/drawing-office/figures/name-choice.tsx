import { faceIdsOf } from "../../../../core/project/faces.ts";
import type { Material } from "../../../../core/project/schema.ts";
import { useDesk, useProject } from "../../../desk.ts";
import { type FigurePath, setting } from "../../../document/figure-path.ts";
import { Choice } from "../../../parts/choice.tsx";
import { faceName } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import { labelAt } from "./labels.ts";
import { runsOf } from "./starting.ts";

/** A name by which the project speaks of another part of the shell, chosen from those that there are. */
export function NameChoice(props: {
  readonly value: unknown;
  readonly path: FigurePath;
  readonly of: string;
}) {
  const { value, path, of } = props;
  const { project } = useDesk();
  const shell = useProject((s) => s.project.shell);
  const materials = useProject((s) => s.project.materials);
  const key = path[path.length - 1];
  const names = key === "material" ? materialsFor(path, materials) : namesFor(key, path, shell);
  if (!names || typeof value !== "string") return null;
  const label = labelAt(path);
  const known = names.includes(value) ? names : [value, ...names];
  return (
    <Choice
      label={label}
      options={known.map((id) => ({
        id,
        name: materials.find((each) => key === "material" && each.id === id)?.name ?? faceName(id),
      }))}
      chosen={value}
      onChoose={(next) => project.edit(words.steps.change(`${label} of ${of}`), setting(path, next))}
    />
  );
}

/** Materials of the kind that a house rule is laid with. */
function materialsFor(path: FigurePath, materials: readonly Material[]): string[] {
  const rule = String(path[path.length - 2]);
  const kind = rule.endsWith("Band") ? "woven" : rule === "gussets" || rule === "pads" ? "sheet" : "strip";
  return materials.filter((each) => each.kind === kind).map(({ id }) => id);
}

function namesFor(
  key: string | number,
  path: FigurePath,
  shell: Parameters<typeof runsOf>[0],
): readonly string[] | null {
  const { straight, curved } = runsOf(shell);
  if (key === "run") return [...straight, ...curved];
  if (key === "corner") return curved;
  if (path.includes("between")) return faceIdsOf(shell);
  return null;
}
