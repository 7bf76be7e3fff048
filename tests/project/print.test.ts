import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { defaultProject } from "../../core/project/defaults.ts";
import { checkProject, parseProject } from "../../core/project/parse.ts";
import { printProject } from "../../core/project/print.ts";
import { arbitraryProject } from "./arbitrary-project.ts";
import { demoNames, demoProject, demoText } from "./demo-files.ts";

describe("printing a project", () => {
  it("gives a text that reads back to an equal project, and then prints to the same bytes", () => {
    fc.assert(
      fc.property(arbitraryProject, (project) => {
        const text = printProject(project);
        const parsed = parseProject(text);
        expect(parsed).toEqual({ ok: true, project, migrated: [] });
        if (parsed.ok) expect(printProject(parsed.project)).toBe(text);
      }),
      { numRuns: 150 },
    );
  });

  it("does not hang on the order in which the keys were written", () => {
    fc.assert(
      fc.property(arbitraryProject, (project) => {
        expect(printProject(reversed(project) as typeof project)).toBe(printProject(project));
      }),
      { numRuns: 40 },
    );
  });

  it("is plain JSON with two spaces a level and a line break at the end", () => {
    const project = defaultProject();
    const text = printProject(project);
    expect(text).toBe(`${JSON.stringify(JSON.parse(text), null, 2)}\n`);
    expect(Object.keys(JSON.parse(text))).toEqual([
      "format",
      "version",
      "name",
      "shell",
      "materials",
      "shop",
      "rules",
      "layup",
    ]);
  });

  it("keeps every character of a text, also the ones that spoil files", () => {
    for (const name of ["é ü ñ ½", "\uFFFD", "\u0000\u001f", "\ud800", "\u2028", '"\\', "🐦"]) {
      const parsed = parseProject(printProject({ ...defaultProject(), name }));
      expect(parsed.ok && parsed.project.name).toBe(name);
    }
  });

  it("refuses to write what could not be read again, and says why", () => {
    const project = defaultProject();
    project.shell.waterLine = Number.NaN;
    expect(() => printProject(project)).toThrow(
      /shell\.waterLine is NaN; it must be a length in mm from 0 to 600/,
    );
  });

  it.each(demoNames)("leaves the demo %s as it stands", (name) => {
    expect(printProject(demoProject(name))).toBe(demoText(name));
  });
});

describe("checking a project that comes from elsewhere than a file", () => {
  it("finds nothing wrong with random valid projects", () => {
    fc.assert(
      fc.property(arbitraryProject, (project) => {
        const checked = checkProject(project);
        expect(checked.ok ? [] : checked.problems.map((each) => each.sentence)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});

/** The same value with the keys of every object in the opposite order. */
function reversed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reversed);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, reversed(inner)]),
  );
}
