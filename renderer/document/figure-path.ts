import { formatPath } from "../../core/project/problem.ts";
import type { Project } from "../../core/project/schema.ts";
import type { Recipe } from "./history.ts";

/** Where a value stands in the project: keys and indices from the top. */
export type FigurePath = readonly (string | number)[];

/** The value at a place in the project; undefined where nothing stands. */
export function valueAt(project: Project, path: FigurePath): unknown {
  let value: unknown = project;
  for (const key of path) {
    if (typeof value !== "object" || value === null) return undefined;
    value = (value as Record<string | number, unknown>)[key];
  }
  return value;
}

/** Puts a value at a place that exists; undefined takes an optional one out. */
export function setting(path: FigurePath, value: unknown): Recipe {
  return (draft) => {
    const owner = valueAt(draft, path.slice(0, -1));
    if (typeof owner !== "object" || owner === null)
      throw new Error(`The project has no ${formatPath(path)} to set.`);
    const key = path[path.length - 1];
    if (value === undefined) delete (owner as Record<string | number, unknown>)[key];
    else (owner as Record<string | number, unknown>)[key] = value;
  };
}
