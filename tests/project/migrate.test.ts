import { describe, expect, it } from "vitest";
import { defaultProject } from "../../core/project/defaults.ts";
import {
  type JsonObject,
  type Migration,
  migrate,
  migrations,
  moveField,
} from "../../core/project/migrate.ts";
import { parseProject } from "../../core/project/parse.ts";
import { printProject } from "../../core/project/print.ts";
import { currentVersion } from "../../core/project/schema.ts";

/** The starting project as a file of version 0 had it. */
function trialFile(): JsonObject {
  const { shell, shop, ...rest } = JSON.parse(printProject(defaultProject()));
  const { draftDeg, ...shellRest } = shell;
  const { laidThickness, cornerTurnDeg: _, trim: _trim, alike: _alike, ...shopRest } = shop;
  return {
    ...rest,
    materials: withoutLocking(rest.materials),
    version: 0,
    shell: { ...shellRest, draft: draftDeg },
    laminate: { laid: laidThickness },
    shop: shopRest,
  };
}

const withoutLocking = (materials: readonly JsonObject[]) =>
  materials.map(({ lockingDeg: _, ...rest }) => rest);

const sinceVersion2 = [
  "every woven material got a lockingDeg of 45, which is usual for plain roving",
  "shop.trim was added with 0, which held for every shop before",
  "shop.alike was added with 3",
];

describe("migrating older project files", () => {
  it("opens a version 0 file as the project it says, and tells what was changed", () => {
    const parsed = parseProject(JSON.stringify(trialFile()));
    expect(parsed).toEqual({
      ok: true,
      project: defaultProject(),
      migrated: [
        "the laid thickness moved from laminate.laid to shop.laidThickness",
        "the draft moved from shell.draft to shell.draftDeg",
        "shop.cornerTurnDeg was added with 10, which held for every shop before",
        ...sinceVersion2,
      ],
    });
  });

  it("opens a version 1 file with the turn of corner pieces that held before it was a figure", () => {
    const { shop, ...rest } = JSON.parse(printProject(defaultProject()));
    const { cornerTurnDeg: _, trim: _trim, alike: _alike, ...shopRest } = shop;
    const materials = withoutLocking(rest.materials);
    const parsed = parseProject(JSON.stringify({ ...rest, materials, version: 1, shop: shopRest }));
    expect(parsed).toEqual({
      ok: true,
      project: defaultProject(),
      migrated: ["shop.cornerTurnDeg was added with 10, which held for every shop before", ...sinceVersion2],
    });
    const own = parseProject(
      JSON.stringify({ ...rest, version: 1, shop: { ...shopRest, cornerTurnDeg: 15 } }),
    );
    expect(own.ok && own.project.shop.cornerTurnDeg).toBe(15);
  });

  it("opens a version 2 file with the figures of cloth that are usual, and keeps what it says itself", () => {
    const { shop, ...rest } = JSON.parse(printProject(defaultProject()));
    const { trim: _trim, alike: _alike, ...shopRest } = shop;
    const materials = withoutLocking(rest.materials);
    const parsed = parseProject(JSON.stringify({ ...rest, materials, version: 2, shop: shopRest }));
    expect(parsed).toEqual({ ok: true, project: defaultProject(), migrated: sinceVersion2 });
    const own = JSON.stringify({
      ...rest,
      materials: rest.materials.map((each: JsonObject) =>
        each.kind === "woven" ? { ...each, lockingDeg: 38 } : each,
      ),
      version: 2,
      shop: { ...shopRest, trim: 12 },
    });
    const kept = parseProject(own);
    expect(kept.ok && kept.project.shop.trim).toBe(12);
    expect(kept.ok && kept.project.materials[0]).toMatchObject({ lockingDeg: 38 });
  });

  it("leaves what a version 0 file has wrong for the schema to name", () => {
    const { shell, laminate: _laminate, shop, ...rest } = trialFile();
    const fields = {
      shell: JSON.stringify({ ...(shell as JsonObject), draft: 30 }),
      laminate: "6",
      shop: JSON.stringify(shop),
    };
    const lines = Object.entries(fields).map(([key, value]) => `"${key}": ${value}`);
    const parsed = parseProject(`{\n${[JSON.stringify(rest).slice(1, -1), ...lines].join(",\n")}\n}`);
    expect(parsed.ok ? [] : parsed.problems.map((each) => each.sentence)).toEqual([
      // Its new name does not stand in the text: the place is that of the object it belongs to.
      "Line 3, column 10: shell.draftDeg is 30; it must be an angle in degrees from 0 to 10.",
      "Line 4, column 13: laminate is not known here; known here: format, version, name, maker, notes, shell, materials, shop, rules or layup.",
      "Line 5, column 9: shop.laidThickness is missing; it must be a length in mm from 0 to 30.",
    ]);
  });

  it("has a way on from every version before the current one", () => {
    for (let version = 0; version < currentVersion; version++) {
      expect(migrations.some((step) => step.from === version)).toBe(true);
    }
    expect(Math.max(...migrations.map((step) => step.from))).toBe(currentVersion - 1);
  });

  it("runs any table's steps in order, over several versions, and leaves the file itself alone", () => {
    const table: Migration[] = [
      {
        from: 3,
        change: "lengths are in mm",
        apply: (file) => ({ ...file, length: Number(file.length) * 1000 }),
      },
      {
        from: 4,
        change: "the length is shell.length",
        apply: ({ length, ...file }) => ({ ...file, shell: { length } }),
      },
      {
        from: 4,
        change: "the width moved",
        apply: (file) => moveField(file, ["plan", "width"], ["shell", "width"]),
      },
    ];
    const file = { version: 3, length: 9, plan: { width: 4, kept: true } };
    const before = structuredClone(file);
    expect(migrate(file, 3, 5, table)).toEqual({
      file: { version: 5, shell: { length: 9000, width: 4 }, plan: { kept: true } },
      changes: ["lengths are in mm", "the length is shell.length", "the width moved"],
    });
    expect(migrate(file, 3, 4, table).file).toEqual({ ...file, version: 4, length: 9000 });
    expect(file).toEqual(before);
    expect(() => migrate(file, 2, 5, table)).toThrow("No migration leads on from version 2.");
  });

  it("moves a field only where it is there and its new place is free", () => {
    const move = (file: JsonObject) => moveField(file, ["a", "x"], ["b", "y"]);
    expect(move({ a: { x: 1 } })).toEqual({ b: { y: 1 } });
    expect(move({ a: { x: 1, z: 2 }, b: { w: 3 } })).toEqual({ a: { z: 2 }, b: { w: 3, y: 1 } });
    for (const left of [
      { a: { x: 1 }, b: { y: 2 } },
      { a: { z: 1 } },
      { a: 5 },
      { a: { x: 1 }, b: [] },
      {},
    ]) {
      expect(move(left)).toEqual(left);
    }
    expect(moveField({ a: { x: 1, z: 2 } }, ["a", "x"], ["a", "y"])).toEqual({ a: { z: 2, y: 1 } });
  });
});
