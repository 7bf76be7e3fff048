/** What a designer and the cutting room wait for, on any project file: `npm run bench -- shell FILE…`. */
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { makeKit } from "../../core/cutting/make-kit.ts";
import { layUp } from "../../core/layup/lay-up.ts";
import { checkMesh } from "../../core/mesh/check.ts";
import { measureSurface } from "../../core/mesh/measure.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { parseProject } from "../../core/project/parse.ts";
import type { Project, ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { findTransitions } from "../../core/shell/transitions.ts";
import { type Row, type Stage, timeStage } from "./stage.ts";

const demos = ["dunlin-4", "turnstone-7", "whimbrel-9", "gannet-11"];
const demoPath = (name: string) =>
  new URL(`../../assets/demo/${name}.ribband.json`, import.meta.url).pathname;

function read(path: string): Project {
  const parsed = parseProject(readFileSync(path, "utf8"));
  if (!parsed.ok) throw new Error(`${path}: ${parsed.problems.map((p) => p.sentence).join(" ")}`);
  return parsed.project;
}

/** A shell with no caches behind it: fields remember what they are asked. */
function fresh(spec: ShellSpec): Shell {
  const built = buildShell(spec);
  if (!built.ok) throw new Error(built.refusals.map((r) => r.why).join(" "));
  return built.shell;
}

interface Timed extends Stage {
  readonly note?: () => string;
}

function stagesOf(name: string, project: Project): Timed[] {
  const { shell: spec } = project;
  const angle = (rad: number) => `${((rad * 180) / Math.PI).toFixed(1)}°`;
  const meshNote = (quality: "preview" | "full") => () => {
    const { field } = fresh(spec);
    const check = checkMesh(field, meshSurface(field, { quality }));
    return `${check.triangles} triangles, least angle ${angle(check.smallestAngle)}, gap ${check.chordGapMm.toFixed(2)} mm`;
  };
  return [
    { name: `${name}: build`, run: () => fresh(spec) },
    {
      name: `${name}: preview mesh`,
      run: () => meshSurface(fresh(spec).field, { quality: "preview" }),
      note: meshNote("preview"),
    },
    {
      name: `${name}: full mesh`,
      run: () => meshSurface(fresh(spec).field, { quality: "full" }),
      note: meshNote("full"),
    },
    {
      name: `${name}: measure`,
      run: () => {
        const shell = fresh(spec);
        const mesh = meshSurface(shell.field, { quality: "preview" });
        measureSurface(shell.field, mesh);
        return findTransitions(shell, mesh);
      },
    },
    {
      name: `${name}: changed figure to areas of all zones`,
      run: () => {
        // Draft moves the wall, every tread edge and every zone.
        const shell = fresh({ ...spec, draftDeg: spec.draftDeg + 0.01 * (1 + Math.random()) });
        return layUp(project, shell, { mesh: meshSurface(shell.field, { quality: "preview" }) });
      },
      note: () => `${project.layup.length} zones`,
    },
    { name: `${name}: whole kit`, run: () => makeKit(project, 1) },
  ];
}

/** Rows for one project file. */
export async function benchFile(path: string, options: { readonly runs?: number } = {}): Promise<Row[]> {
  const rows: Row[] = [];
  for (const stage of stagesOf(basename(path).replace(/\.ribband\.json$|\.json$/, ""), read(path))) {
    const row = await timeStage(stage, { runs: options.runs ?? 7 });
    rows.push(stage.note ? { ...row, note: stage.note() } : row);
  }
  return rows;
}

export const stages: Stage[] = demos.flatMap((name) => stagesOf(name, read(demoPath(name))));
