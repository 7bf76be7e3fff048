import { ownerOf } from "../project/owner.ts";
import { ownedField, shorten } from "../project/problem.ts";
import type { Project } from "../project/schema.ts";
import type { Refusal } from "../shell/shell.ts";
import { BadFile } from "./bad-input.ts";

/** What a shell that cannot be built comes to: every reason, with the figure that would work. */
export function refused(file: string, project: Project, refusals: readonly Refusal[]): BadFile {
  return new BadFile(
    file,
    ...refusals.map(
      ({ path, value, why, wouldWork }) =>
        `${ownedField(path, ownerOf(path, project))} is ${shorten(value)}: ${why.replace(/\.$/, "")}. What would work: ${wouldWork}.`,
    ),
  );
}
