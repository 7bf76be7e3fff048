import { explain } from "./explain.ts";
import { isObject, type JsonObject, migrate, migrations, oldestVersion } from "./migrate.ts";
import { nearestWord } from "./nearest-word.ts";
import { nowhere, type Places, problemsAt, withReaders } from "./place-problems.ts";
import { type Problem, type ProblemParts, shorten } from "./problem.ts";
import { readJson } from "./read-json.ts";
import { checkReferences } from "./references.ts";
import { currentVersion, type Project, project as schema } from "./schema.ts";

export type ParsedProject =
  | {
      readonly ok: true;
      readonly project: Project;
      /** What was changed to bring an older file up to date, in plain words; empty for a current one. */
      readonly migrated: readonly string[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * Reads the text of a project file. Never throws: a file that is not right comes back with every problem in it, each
 * naming the field, the value, what is allowed, and the line and column. Older versions are migrated first; a field that a
 * migration moved is named by its new path.
 */
export function parseProject(text: string): ParsedProject {
  const json = readJson(text);
  if (json.value === undefined) return { ok: false, problems: json.problems };
  const checked = checkProject(json.value, json.placeOf);
  if (json.problems.length === 0) return checked;
  return { ok: false, problems: withReaders(json.problems, checked.ok ? [] : checked.problems) };
}

/**
 * Checks a value that may be a project: the same checks as for a file's text. For projects that come from elsewhere
 * than a file, and before one is saved.
 */
export function checkProject(value: unknown, placeOf: Places = nowhere): ParsedProject {
  let file: unknown = value;
  const refuse = (...parts: ProblemParts[]): ParsedProject => ({
    ok: false,
    problems: problemsAt(parts, file, placeOf),
  });

  if (!isObject(value)) {
    return refuse({ path: "", found: shorten(value), allowed: "a project: one JSON object in braces" });
  }
  if (value.format !== "ribband") {
    const found = shorten(value.format);
    const fault = value.format === undefined ? "is missing" : `is ${found}`;
    const lot = value.format === "ribband-lot";
    const meant =
      typeof value.format === "string" ? nearestWord(value.format, ["ribband", "ribband-lot"]) : undefined;
    const hint = lot
      ? "This is a lot file, which names projects."
      : meant
        ? `Did you mean "${meant}"${meant === "ribband-lot" ? ", which a lot file says" : ""}?`
        : "This is not a Ribband project file.";
    return refuse({ path: "format", found, fault, allowed: '"ribband"', hint });
  }
  const { version } = value;
  const numbered = typeof version === "number" && Number.isInteger(version);
  if (numbered && version > currentVersion) {
    const hint = "The file was saved by a newer Ribband: open it with that one.";
    return refuse({ path: "version", found: shorten(version), allowed: `at most ${currentVersion}`, hint });
  }
  if (numbered && version < oldestVersion(migrations, currentVersion)) {
    return refuse({
      path: "version",
      found: shorten(version),
      allowed: versions,
    });
  }
  const current = bringUpToDate(value, numbered ? version : currentVersion);
  file = current.file;
  const parsed = schema.safeParse(file);
  const references = checkReferences(file);
  if (!parsed.success) {
    const problems = explain(schema, file, parsed.error.issues);
    return refuse(...problems.map((each) => (each.path === "version" ? unread(each) : each)), ...references);
  }
  if (references.length > 0) return refuse(...references);
  return { ok: true, project: parsed.data, migrated: current.changes };
}

const versions = `a whole number from ${oldestVersion(migrations, currentVersion)} to ${currentVersion}`;

/** A version that is no number of a version: the schema knows its own only, but older ones are read too. */
const unread = (version: ProblemParts): ProblemParts => ({ ...version, allowed: versions });

function bringUpToDate(file: JsonObject, version: number) {
  return version === currentVersion ? { file, changes: [] } : migrate(file, version, currentVersion);
}
