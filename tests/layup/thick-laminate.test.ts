import { expect, test } from "vitest";
import { layUp } from "../../core/layup/lay-up.ts";
import type { Project } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { demoProject } from "../project/demo-files.ts";

const demo = demoProject("turnstone-7");
/** Some zones of the demo under other radii and another thickness of the laminate that is laid first, mm. */
function adrift(zones: readonly string[], nose: number, laidThickness: number) {
  const project: Project = {
    ...demo,
    shell: { ...demo.shell, radii: { ...demo.shell.radii, nose } },
    shop: { ...demo.shop, laidThickness },
    layup: demo.layup.filter(({ id }) => zones.includes(id)),
  };
  expect(project.layup).toHaveLength(zones.length);
  const built = buildShell(project.shell, laidThickness);
  if (!built.ok) throw new Error(JSON.stringify(built.refusals));
  return layUp(project, built.shell).adrift;
}

test("a nose that the laminate fills is told, and under a thinner one the band lies on it", () => {
  const [band] = adrift(["bench-nose"], 10, 12);
  expect(band.why).toMatch(/12 mm of laminate laid first fill the nose .* 10 mm/);
  expect(band.mend).toContain("less than 10 mm");
  expect(adrift(["bench-nose"], 10, 9)).toEqual([]);
});

test("a rim that the laminate fills is told to the ribs that hang from it", () => {
  const { rimRadius } = demo.shell.coping;
  const [ribs] = adrift(["ribs-right"], 30, 30);
  expect(ribs.why).toContain("30 mm of laminate laid first fill the rim");
  expect(ribs.mend).toContain(`less than ${rimRadius} mm`);
});
