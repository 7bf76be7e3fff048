import { readdirSync, readFileSync } from "node:fs";
import { parseProject } from "../../core/project/parse.ts";
import type { Project } from "../../core/project/schema.ts";

const folder = new URL("../../assets/demo/", import.meta.url);
const ending = ".ribband.json";

/** Names of the demo projects, e.g. `dunlin-4`, in the order of the alphabet. */
export const demoNames: readonly string[] = readdirSync(folder)
  .filter((file) => file.endsWith(ending))
  .map((file) => file.slice(0, -ending.length))
  .sort();

export function demoText(name: string): string {
  return readFileSync(new URL(`${name}${ending}`, folder), "utf8");
}

/** A demo project; throws with its problems if it has any. */
export function demoProject(name: string): Project {
  const parsed = parseProject(demoText(name));
  if (!parsed.ok) throw new Error(parsed.problems.map((each) => each.sentence).join("\n"));
  return parsed.project;
}
