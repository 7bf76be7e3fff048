import { expect, test } from "vitest";
import { measureReport } from "../../core/sheets/measure-report.ts";
import { measureTables } from "../../core/sheets/measure-tables.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { type Measure, measureShell } from "../../core/shell/measure.ts";
import { demoProject } from "../project/demo-files.ts";

const built = buildShell(demoProject("dunlin-4").shell);
if (!built.ok) throw new Error("the demo must build");
const measured = measureShell(built.shell, "preview");
const measure: Measure = {
  ...measured,
  mesh: {
    ...measured.mesh,
    tears: [{ faces: ["wall", "floor"], point: [1, 2, 3], size: 0.2 }],
    kinks: [{ faces: ["wall", "floor"], point: [1, 2, 3], size: (2 * Math.PI) / 180 }],
  },
  adjustments: [
    {
      id: "corner/deep-right",
      what: "plan radius",
      asked: 150,
      used: 276.5,
      unit: "mm",
      why: "draft",
    },
  ],
  flaws: ["the surface has holes: 3 edges of its mesh are open inside the coping's outer edge"],
  doubts: ["a and b meet nowhere on this shell: the radius of 80 mm given for them has no place"],
};

test("the report has the keys that others read, unrounded", () => {
  const report = measureReport("Knot 5", measure);
  expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  expect(report).toMatchObject({ report: "measure", version: 1, name: "Knot 5" });
  expect(Object.keys(report.shell)).toEqual(["areaM2", "volumeToRimM3", "volumeToWaterM3", "rimLengthMm"]);
  expect(report.shell.areaM2).toBe(measure.areaMm2 / 1e6);
  expect(report.faces.map(({ id }) => id)).toEqual(built.shell.faces.map(({ id }) => id));
  for (const transition of report.transitions) {
    for (const key of ["id", "between", "lengthMm", "closed"]) expect(transition).toHaveProperty(key);
  }
  expect(new Set(report.transitions.map(({ id }) => id)).size).toBe(report.transitions.length);
  expect(report.mesh).toMatchObject({ triangles: measure.mesh.triangles, openEdges: measure.mesh.openEdges });
  expect(report.mesh.tears).toEqual([{ between: ["wall", "floor"], at: [1, 2, 3], gapMm: 0.2 }]);
  expect(report.mesh.kinks[0].turnDeg).toBeCloseTo(2, 12);
  expect(report.adjustments).toEqual(measure.adjustments);
});

test("the tables read well in 80 columns and leave nothing out", () => {
  const tables = measureTables("Knot 5", measure);
  for (const line of tables.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  for (const { id } of measure.faces) expect(tables).toContain(`  ${id} `);
  for (const { id } of measure.transitions) expect(tables).toContain(`  ${id} `);
  expect(tables).toContain("- corner/deep-right: plan radius: asked 150 mm, used 276.5 mm: draft");
  expect(tables).toContain("The surface failed its self-check\n  - the surface has holes: 3 edges");
  expect(tables).toContain("To look at\n  - a and b meet nowhere");
});
