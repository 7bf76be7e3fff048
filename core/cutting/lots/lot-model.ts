import type { Project } from "../../project/schema.ts";
import type { Kit } from "../kit.ts";

/** One line of a lot: a project's kit, cut for so many shells of it. */
export interface LotModel {
  /**
   * What its pieces are known by in the lot: the project's name, with a number behind it where another line has the
   * same.
   */
  readonly label: string;
  readonly project: Project;
  /** Of as many shells as the lot wants. */
  readonly kit: Kit;
}

/** Labels for projects by their names, in their order: `Knot 5`, `Knot 5 (2)`. */
export function labelsFor(names: readonly string[]): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    let label = name;
    for (let number = 2; taken.has(label); number++) label = `${name} (${number})`;
    taken.add(label);
    return label;
  });
}
