import { expect, test } from "vitest";
import { isAstray } from "../../core/layup/adrift.ts";
import { surfacePoint } from "../../core/layup/anchors.ts";
import { transitionsOf } from "../../core/layup/lay-up.ts";
import { placeOf } from "../../core/layup/place-of.ts";
import { openSite } from "../../core/layup/site.ts";
import type { SurfacePlace } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { demoProject } from "../project/demo-files.ts";

const project = demoProject("dunlin-4");
const built = buildShell(project.shell);
if (!built.ok) throw new Error("The demo cannot be built.");
const site = openSite(project, built.shell, transitionsOf(project, built.shell));

// The inverse of surfacePoint, which the lay-up itself reads places with.
test.each<SurfacePlace>([
  { wall: { run: "left", part: 0.5 }, downPart: 0.4 },
  { wall: { run: "deep", part: 0.25 }, downPart: 0.8 },
  { face: "floor", alongPart: 0.6, acrossPart: 0.5 },
  { face: "steps/tread-1", alongPart: 0.5, acrossPart: 0.3 },
])("%j is found again from its point, to a tenth of a millimetre", (place) => {
  const found = surfacePoint(site, place);
  if (isAstray(found)) throw new Error(found.why);
  const again = placeOf(site, found.point, found.face);
  if (!again) throw new Error("The point has no place.");
  const back = surfacePoint(site, again);
  if (isAstray(back)) throw new Error(back.why);
  expect(Math.hypot(...back.point.map((p, k) => p - found.point[k]))).toBeLessThan(0.1);
});

test("a face that is not to be seen has no places", () => {
  expect(placeOf(site, [0, 0, 0], "grotto/top")).toBeNull();
});
