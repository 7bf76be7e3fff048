import type { Kit } from "../../core/cutting/kit.ts";
import { makeKit } from "../../core/cutting/make-kit.ts";
import type { Layup } from "../../core/layup/laid.ts";
import type { Project } from "../../core/project/schema.ts";
import { demoProject } from "../project/demo-files.ts";

export interface DemoKit {
  readonly project: Project;
  readonly layup: Layup;
  readonly kit: Kit;
  /** What was told while it was made. */
  readonly stages: readonly string[];
}

const made = new Map<string, DemoKit>();

/** The kit of one shell of a demo, made once for all test files of a worker, since its cloth takes seconds. To be read only. */
export function demoKit(name: string): DemoKit {
  const known = made.get(name);
  if (known) return known;
  const project = demoProject(name);
  const stages: string[] = [];
  const kit = { project, ...kitOf(project, (stage) => stages.push(stage)), stages };
  made.set(name, kit);
  return kit;
}

/** The lay-up and the kit of one shell of a project that can be built. */
export function kitOf(project: Project, tell?: (stage: string) => void): { layup: Layup; kit: Kit } {
  const now = makeKit(project, 1, tell);
  if (!now.ok) throw new Error(now.refusals.map(({ why }) => why).join("\n"));
  return now;
}
