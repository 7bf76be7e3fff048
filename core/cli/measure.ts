import { measureReport } from "../sheets/measure-report.ts";
import { measureTables } from "../sheets/measure-tables.ts";
import { buildShell } from "../shell/build-shell.ts";
import { measureShell } from "../shell/measure.ts";
import { progressOn } from "./progress.ts";
import { readProject } from "./read-project.ts";
import { refused } from "./refused.ts";
import type { Terminal } from "./terminal.ts";

export interface MeasureOptions {
  readonly json: boolean;
}

/** `ribband measure FILE`: prints what the shell measures, and gives the exit code: 2 when its surface fails the self-check. */
export async function measureCommand(
  file: string,
  options: MeasureOptions,
  terminal: Terminal,
): Promise<number> {
  const project = await readProject(file, terminal);
  const progress = progressOn(terminal);
  progress.stage("building the shell");
  const built = buildShell(project.shell, project.shop.laidThickness);
  if (!built.ok) {
    progress.done();
    throw refused(file, project, built.refusals);
  }
  const measure = measureShell(built.shell, "full", progress.stage);
  progress.done();
  terminal.print(
    options.json
      ? `${JSON.stringify(measureReport(project.name, measure), null, 2)}\n`
      : measureTables(project.name, measure),
  );
  return measure.flaws.length > 0 ? 2 : 0;
}
