import { checkProject } from "./parse.ts";
import type { Project } from "./schema.ts";

/**
 * A project as the text of its file: JSON with the keys in the schema's order, two spaces a level and a line break at
 * the end, so that equal projects give equal bytes. `parseProject` reads it back to an equal project.
 * Throws a RangeError that lists the problems if the project is not valid: a file that could not be opened again must
 * never be written.
 */
export function printProject(project: Project): string {
  const checked = checkProject(project);
  if (!checked.ok) {
    const problems = checked.problems.map((each) => each.sentence).join("\n");
    throw new RangeError(`This project cannot be saved:\n${problems}`);
  }
  // The schema's own copy has its keys in order. U+FFFD is written as an escape: read bare, it means a spoilt file.
  return `${JSON.stringify(checked.project, null, 2).replaceAll("\uFFFD", "\\ufffd")}\n`;
}
