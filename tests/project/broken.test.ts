import { describe, expect, it } from "vitest";
import { parseProject } from "../../core/project/parse.ts";
import { brokenFiles } from "./broken-files.ts";

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
      expect(sentence).toContain(path === "" ? "the file" : path);
      expect(sentence).toMatch(/^Line \d+, column \d+: .+; .+[.?]$/);
      expect(sentence.length).toBeLessThan(1000);
      expect(found.length).toBeGreaterThan(0);
      expect(allowed.length).toBeGreaterThan(0);
      expect(place?.line).toBeGreaterThan(0);
      expect(place?.line).toBeLessThanOrEqual(text.split("\n").length);
    }
  });
});
