import { describe, expect, it } from "vitest";
import { z } from "zod";
import { allowedBy } from "../../core/project/allowed.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import { nearestWord } from "../../core/project/nearest-word.ts";
import { checkProject, parseProject } from "../../core/project/parse.ts";
import { printProject } from "../../core/project/print.ts";
import { problem } from "../../core/project/problem.ts";
import { project } from "../../core/project/schema.ts";

type Json = Record<string, unknown>;
/** A field of a JSON value that the test knows to be there. */
const inside = (value: unknown, ...path: (string | number)[]) =>
  path.reduce((held, key) => (held as Json)[key], value) as Json;

/** What is said about the starting project after a change. */
function told(change: (file: Json) => void): string[] {
  const file = JSON.parse(printProject(defaultProject())) as Json;
  change(file);
  const checked = checkProject(file);
  return checked.ok ? [] : checked.problems.map((each) => each.sentence);
}

describe("messages about a project file", () => {
  it("name the range with its unit", () => {
    expect(told((file) => Object.assign(inside(file, "shell"), { draftDeg: 12, waterLine: 700 }))).toEqual([
      "shell.draftDeg is 12; it must be an angle in degrees from 0 to 10.",
      "shell.waterLine is 700; it must be a length in mm from 0 to 600.",
    ]);
    expect(told((file) => Object.assign(inside(file, "shell", "floor"), { crossFall: 90 }))).toEqual([
      "shell.floor.crossFall is 90; it must be a fall in mm a metre from -60 to 60.",
    ]);
    expect(told((file) => Object.assign(inside(file, "materials", 0), { gramsPerM2: 18 }))).toEqual([
      "materials[0].gramsPerM2 (woven-600) is 18; it must be a weight in g/m² from 50 to 3000.",
    ]);
    expect(told((file) => Object.assign(inside(file, "rules", "footBand"), { plies: 1.5 }))).toEqual([
      "rules.footBand.plies is 1.5; it must be a whole number from 1 to 8.",
    ]);
  });

  it("know metres, units and quotes when they see them", () => {
    const outline = (change: Json) =>
      told((file) => Object.assign(inside(file, "shell", "outline"), change))[0];
    expect(outline({ length: 9.1 })).toMatch(/This looks like metres: write 9100\.$/);
    expect(outline({ length: 9100.5 })).toBeUndefined();
    expect(outline({ width: "3.8 m" })).toMatch(
      /Lengths are plain numbers in mm, without quotes: write 3800\.$/,
    );
    expect(outline({ width: `12' 6"` })).toMatch(/write 3810\.$/);
    expect(outline({ width: "3800" })).toMatch(/write 3800\.$/);
    expect(outline({ width: "wide" })).toMatch(/Lengths are plain numbers in mm, without quotes\.$/);
    expect(outline({ cornerRadius: "0.3 m" })).toMatch(/write 300\.$/);
    expect(outline({ cornerRadius: 0.15 })).toMatch(/write 150\.$/);
    expect(told((file) => Object.assign(inside(file, "shell"), { draftDeg: "3°" }))).toEqual([
      'shell.draftDeg is "3°"; it must be an angle in degrees from 0 to 10. Write the number alone, without quotes: 3.',
    ]);
    expect(outline({ length: Number.POSITIVE_INFINITY })).toMatch(/That is too large to read\.$/);
  });

  it("speak only of the branch that was meant", () => {
    const place = (at: unknown) =>
      told((file) => {
        const fitting = { id: "light", kind: "light", at, width: 200, height: 200, clearance: 50 };
        Object.assign(inside(file, "shell"), { fittings: [fitting] });
      });
    expect(place({ wall: { run: "left", part: 0.5 }, depth: 500 })).toEqual([]);
    expect(place({ wall: { run: "left", part: 1.5 }, depth: 500 })).toEqual([
      "shell.fittings[0].at.wall.part (light) is 1.5; it must be a proportion from 0 to 1.",
    ]);
    expect(place({ wall: { run: "left", distanse: 900 }, depth: "0.5 m" })).toEqual([
      "shell.fittings[0].at.wall.part (light) is missing; it must be a proportion from 0 to 1.",
      "shell.fittings[0].at.wall.distanse (light) is not known here; known here: run or part.",
      'shell.fittings[0].at.depth (light) is "0.5 m"; it must be a length in mm from 0 to 2600. Lengths are plain numbers in mm, without quotes: write 500.',
    ]);
    expect(place({ floor: { alongPart: 0.5 } })).toEqual([
      "shell.fittings[0].at.floor.acrossPart (light) is missing; it must be a proportion from 0 to 1.",
    ]);
    expect(place({})).toEqual([
      'shell.fittings[0].at (light) is an object; it must be an object with "wall" and "depth", or an object with "floor".',
    ]);
    expect(place("left")).toEqual([
      'shell.fittings[0].at (light) is "left"; it must be an object with "wall" and "depth", or an object with "floor".',
    ]);
  });

  it("name the zone or feature that a field belongs to, but by no name that is none", () => {
    const zone = { kind: "pad", id: "a", on: "floor", margin: 50, material: "woven-600" };
    const of = (change: Json) => told((file) => Object.assign(file, { layup: [{ ...zone, ...change }] }));
    expect(of({ margin: -1, material: "core-sheet" })).toEqual([
      "layup[0].margin (a) is -1; it must be a length in mm from 0 to 1000.",
    ]);
    expect(of({})).toEqual([
      'layup[0].material (a) is "woven-600", a woven material; it must be the id of a sheet material: core-sheet.',
    ]);
    // A wrong id names nothing, itself least of all; and what is no name is told once, not looked for in the list too.
    const [byId, byMargin, ...rest] = of({ id: "\u001b[31m", margin: -1, material: "core-sheet" });
    expect([byId, byMargin].every((each) => /^layup\[0\]\.(id|margin) is /.test(each))).toBe(true);
    expect(rest).toEqual([]);
    expect(of({ material: "Core Sheet!" })).toEqual([
      expect.stringMatching(
        /^layup\[0\]\.material \(a\) is "Core Sheet!"; it must be a name of small letters/,
      ),
    ]);
  });

  it("list each material that would do once", () => {
    const [, zone] = told((file) => {
      inside(file, "materials", 1).id = inside(file, "materials", 0).id;
      const band = { kind: "band", id: "a", on: "foot", halfWidths: [100, 100], plies: 1, material: "felt" };
      Object.assign(file, { layup: [band], rules: undefined });
    }).filter((each) => each.includes("material"));
    expect(zone).toMatch(/\(a\) is "felt", .*: woven-600\.$/);
  });

  it("list the kinds when the kind is wrong, and nothing of any branch", () => {
    expect(
      told((file) => Object.assign(inside(file, "shell", "features", 0), { kind: "step", depth: "x" })),
    ).toEqual([
      'shell.features[0].kind (steps) is "step"; it must be "steps", "bench", "ledge" or "seat". Did you mean "steps"?',
    ]);
    expect(told((file) => Object.assign(file, { layup: [{ id: "a" }, 7, null] }))).toEqual([
      'layup[0].kind (a) is missing; it must be "band", "stroke", "rib", "rib-row", "gussets", "pad" or "stiffener".',
      'layup[1] is 7; it must be an object whose kind is "band", "stroke", "rib", "rib-row", "gussets", "pad" or "stiffener".',
      'layup[2] is null; it must be an object whose kind is "band", "stroke", "rib", "rib-row", "gussets", "pad" or "stiffener".',
    ]);
  });

  it("name an unknown key by its path and the known key nearest to it", () => {
    expect(
      told((file) => Object.assign(inside(file, "shell", "floor", "stations", 1), { dpeth: 1200 })),
    ).toEqual(["shell.floor.stations[1].dpeth is not known here; did you mean depth? Else known here: at."]);
    expect(told((file) => Object.assign(inside(file, "shop"), { "hand length": 1, zzz: 1 }))).toEqual([
      'shop["hand length"] is not known here; did you mean handlingLength? Else known here: laidThickness, lap, cornerTurnDeg, jointStagger, plyStep, trim, alike, kerf or bevelDeg.',
      "shop.zzz is not known here; known here: laidThickness, handlingLength, lap, cornerTurnDeg, jointStagger, plyStep, trim, alike, kerf or bevelDeg.",
    ]);
  });

  it("list only what an object cannot be without", () => {
    expect(told((file) => Object.assign(inside(file, "shell"), { floor: 3 }))).toEqual([
      'shell.floor is 3; it must be an object with "stations", "breakRadius" and "crossFall".',
    ]);
  });

  it("offer the format that was meant, of a lot, too", () => {
    const format = (name: string) => told((file) => Object.assign(file, { format: name }));
    expect(format("ribband-lott")).toEqual([
      'format is "ribband-lott"; it must be "ribband". Did you mean "ribband-lot", which a lot file says?',
    ]);
    expect(format("riband")).toEqual(['format is "riband"; it must be "ribband". Did you mean "ribband"?']);
    expect(format("xyz")).toEqual([
      'format is "xyz"; it must be "ribband". This is not a Ribband project file.',
    ]);
  });

  it("tell a version that is written as a text to be a number", () => {
    expect(told((file) => Object.assign(file, { version: "1" }))).toEqual([
      'version is "1"; it must be a whole number from 0 to 3. Write the number alone, without quotes: 1.',
    ]);
  });

  it("end in one mark, and shorten a path that nobody can take in", () => {
    const meant = problem({
      path: "at.run",
      found: '"lefft"',
      allowed: "left",
      remedy: "did you mean left?",
    });
    expect(meant.sentence).toBe('at.run is "lefft"; did you mean left?');
    const deep = parseProject(`${"[".repeat(60)}1${"]".repeat(60)}`);
    const [{ sentence, path }] = deep.ok ? [] : deep.problems;
    expect(path).toBe("[0]".repeat(51));
    expect(sentence).toContain(`${"[0]".repeat(10)}…${"[0]".repeat(5)} is nested too deep`);
  });

  it("tell a name that is written wrongly once, not also as missing", () => {
    const renamed = (from: string, to: string) =>
      told((file) => {
        file[to] = file[from];
        delete file[from];
      });
    expect(renamed("name", "Name")).toEqual([
      "Name is not known here; did you mean name? Else known here: format, version, maker, notes, shell, materials, shop, rules or layup.",
    ]);
    // What is not near to it leaves it missing.
    expect(renamed("name", "titel").map((each) => each.slice(0, 15))).toEqual([
      "name is missing",
      "titel is not kn",
    ]);
  });

  it("shorten long values and keep them on one line", () => {
    const [sentence] = told((file) => Object.assign(inside(file, "shell"), { draftDeg: "Ü\n".repeat(500) }));
    expect(sentence).not.toContain("\n");
    expect(sentence.length).toBeLessThan(160);
  });

  it("tell which versions there are when it is none of them", () => {
    for (const [version, found] of [
      [1.5, "is 1.5"],
      ["two", 'is "two"'],
      [undefined, "is missing"],
      [-1, "is -1"],
    ]) {
      expect(told((file) => Object.assign(file, { version }))).toEqual([
        `version ${found}; it must be a whole number from 0 to 3.`,
      ]);
    }
  });

  it("take no word that every object answers to for a kind", () => {
    for (const word of Object.getOwnPropertyNames(Object.prototype)) {
      const zone = { kind: word, id: "a", material: "woven-600" };
      expect(
        told((file) => Object.assign(file, { layup: [zone] })),
        word,
      ).toEqual([expect.stringMatching(/^layup\[0\]\.kind \(a\) is "\w+"; it must be "band", /)]);
    }
  });

  it("tell a newer version, another format and another shape in one sentence each", () => {
    const tell = (text: string) => {
      const parsed = parseProject(text);
      return parsed.ok ? [] : parsed.problems.map((each) => each.sentence);
    };
    expect(tell('{ "format": "ribband", "version": 4, "anything": [] }')).toEqual([
      "Line 1, column 35: version is 4; it must be at most 3. The file was saved by a newer Ribband: open it with that one.",
    ]);
    expect(tell('{ "type": "FeatureCollection" }')).toEqual([
      'Line 1, column 1: format is missing; it must be "ribband". This is not a Ribband project file.',
    ]);
    expect(tell("[1, 2]")).toEqual([
      "Line 1, column 1: the file is a list of 2 entries; it must be a project: one JSON object in braces.",
    ]);
    expect(tell(" \n ")).toEqual(["Line 1, column 1: the file is empty; it must be a JSON object."]);
  });

  it("come all at once, in the order of the file", () => {
    const text = printProject(defaultProject())
      .replace('"length": 7500', '"length": 7.5')
      .replace('"depth": 1700', '"depth": NaN')
      .replace('"cove": 200', '"coev": 200')
      .replace('"material": "rib-strip"', '"material": "rib-trip"')
      .replace('"width": 1220', '"width": 1e999');
    const parsed = parseProject(text);
    expect(parsed.ok ? [] : parsed.problems.map(({ path, found }) => `${path}: ${found}`)).toEqual([
      "shell.outline.length: 7.5",
      "shell.floor.stations[1].depth: NaN",
      'shell.radii.coev: the key "coev"',
      "materials[3].width: Infinity",
      'rules.ribs.material: "rib-trip"',
    ]);
    const nan = parsed.ok ? undefined : parsed.problems[1].sentence;
    expect(nan).toMatch(/depth is NaN; it must be a length in mm from 600 to 2800\. Something worked out/);
  });
});

describe("the words for what is allowed", () => {
  it("exist for every field of the schema, with both ends of each range", () => {
    let fields = 0;
    const visit = (schema: z.core.$ZodType): void => {
      fields++;
      expect(allowedBy(schema)).not.toMatch(/undefined|null from|NaN|Infinity|null to/);
      if (schema instanceof z.ZodOptional) visit(schema.unwrap());
      else if (schema instanceof z.ZodObject) Object.values(schema.shape).forEach(visit);
      else if (schema instanceof z.ZodArray) visit(schema.element);
      else if (schema instanceof z.ZodTuple) schema.def.items.forEach(visit);
      else if (schema instanceof z.ZodUnion) schema.options.forEach(visit);
    };
    visit(project);
    expect(fields).toBeGreaterThan(200);
  });

  it("find the word that was meant", () => {
    const words = ["depth", "going", "draftDeg", "cornerRadius"];
    expect(nearestWord("dpeth", words)).toBe("depth");
    expect(nearestWord("DEPTH", words)).toBe("depth");
    expect(nearestWord("draft", words)).toBe("draftDeg");
    expect(nearestWord("corner-radius", words)).toBe("cornerRadius");
    expect(nearestWord("colour", words)).toBeUndefined();
    expect(nearestWord("", words)).toBeUndefined();
  });
});
