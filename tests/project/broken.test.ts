import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkProject, parseProject } from "../../core/project/parse.ts";
import { brokenFiles } from "./broken-files.ts";
import { demoNames, demoText } from "./demo-files.ts";

const files = brokenFiles();

describe("broken project files", () => {
  it("are at least two hundred, no two alike", () => {
    expect(new Set(files.map((each) => each.text)).size).toBe(files.length);
    expect(files.length).toBeGreaterThanOrEqual(200);
  });

  it.each(files)("$name: refused, naming the field", ({ text, names }) => {
    const parsed = parseProject(text);
    if (parsed.ok) throw new Error("was taken for a good file");
    const fields = parsed.problems.map((each) => each.path);
    if (typeof names === "string") expect(fields).toContain(names);
    else expect(fields.some((field) => names.test(field))).toBe(true);
    for (const { path, sentence, found, allowed, place } of parsed.problems) {
      expect(sentence).toContain(path === "" ? "the file" : path.length > 60 ? path.slice(0, 30) : path);
      expect(sentence).toMatch(/^Line \d+, column \d+: .+; .+[.?]$/);
      expect(sentence.length).toBeLessThan(1000);
      expect(found.length).toBeGreaterThan(0);
      expect(allowed.length).toBeGreaterThan(0);
      expect(place?.line).toBeGreaterThan(0);
      expect(place?.line).toBeLessThanOrEqual(text.split("\n").length);
    }
  });

  it("may be broken anywhere, with any value, and are read without an exception", () => {
    const places = fc.array(fc.nat({ max: 1000 }), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(
        fc.constantFrom(...demoNames),
        fc.array(fc.tuple(places, fc.jsonValue())),
        (name, damages) => {
          const file = JSON.parse(demoText(name));
          for (const [picks, value] of damages) overwrite(file, picks, value);
          const parsed = parseProject(JSON.stringify(file));
          const checked = checkProject(file);
          expect(checked.ok).toBe(parsed.ok);
          if (!parsed.ok) expect(parsed.problems.length).toBeGreaterThan(0);
          if (!parsed.ok && !checked.ok) expect(checked.problems.length).toBe(parsed.problems.length);
        },
      ),
      { numRuns: 150 },
    );
  });
});

/** Writes a value over one of the fields; each pick chooses a key on the way down, the last one the field. */
function overwrite(file: object, picks: readonly number[], value: unknown): void {
  let holder: Record<string, unknown> = file as Record<string, unknown>;
  for (const pick of picks.slice(0, -1)) {
    const inner = Object.values(holder).filter((each) => typeof each === "object" && each !== null);
    if (inner.length === 0) break;
    holder = inner[pick % inner.length] as Record<string, unknown>;
  }
  const keys = Object.keys(holder);
  const last = picks[picks.length - 1];
  // Now and then a key that the format does not know, and that no path can be cut from by its marks alone.
  const key = last % 10 === 0 ? "a].b[" : keys[last % Math.max(1, keys.length)];
  if (key !== undefined) holder[key] = value;
}
