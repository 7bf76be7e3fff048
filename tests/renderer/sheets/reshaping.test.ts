import { describe, expect, test } from "vitest";
import { layUp } from "../../../core/layup/lay-up.ts";
import { buildOutline } from "../../../core/plan/build-outline.ts";
import { pointAt } from "../../../core/plan/point-at.ts";
import type { Project } from "../../../core/project/schema.ts";
import { buildShell } from "../../../core/shell/build-shell.ts";
import { work } from "../../../renderer/document/history.ts";
import { startingOutline } from "../../../renderer/places/drawing-office/figures/starting.ts";
import { ofAnotherKind, outOfCorners } from "../../../renderer/places/drawing-office/reshaping.ts";
import { stationOf } from "../../../renderer/tools/rim-places.ts";
import { demoProject } from "../../project/demo-files.ts";

const kinds = ["rectangle", "stadium", "round-ended", "ell", "polygon", "freeform", "path"] as const;
type Kind = (typeof kinds)[number];

const as = (project: Project, kind: Kind): Project =>
  work(project, ofAnotherKind(project, startingOutline(kind, project.shell)));

function spotsOf({ shell }: Project) {
  const built = buildOutline(shell.outline);
  if (!built.ok) throw new Error("The outline cannot be built.");
  return shell.fittings.flatMap(({ id, at }) => {
    const station = "wall" in at ? stationOf(built.outline, at.wall) : null;
    return station === null ? [] : [{ id, ...pointAt(built.outline.chain, station) }];
  });
}

describe.each(["whimbrel-9", "gannet-11", "dunlin-4", "turnstone-7"])("%s", (demo) => {
  // Of a dozen fittings and zones each was once refused by itself, for a run that the new outline did not have.
  test.each(kinds)("as a %s keeps what is placed by its rim on the rim", (kind) => {
    const project = demoProject(demo);
    const after = as(project, kind);
    const before = new Map(spotsOf(project).map((spot) => [spot.id, spot]));
    const spots = spotsOf(after);
    expect(spots.length).toBe(before.size);
    for (const { id, x, y } of spots) {
      const was = before.get(id);
      // Within what a corner is cut off or rounded by.
      expect(Math.hypot(x - (was?.x ?? NaN), y - (was?.y ?? NaN)), id).toBeLessThan(2600);
    }
    // What may be left is about sizes: where a fitting came to lie over steps, or a pair of outlets in the cove.
    const built = buildShell(after.shell);
    const refused = built.ok ? [] : built.refusals.map(({ path }) => path);
    expect(refused.filter((path) => !path.includes(".at.floor.")).length).toBeLessThanOrEqual(1);
    expect(refused.length).toBeLessThanOrEqual(2);
    expect(refused.filter((path) => /\.(run|corner)$/.test(path))).toEqual([]);
  });
});

test("steps in a corner go to the end where the new outline has no corner, and that is told; ribs and stiffeners find their walls", () => {
  const project = demoProject("dunlin-4");
  const stadium = as(project, "stadium");
  expect(stadium.shell.features[0].place).toEqual({ kind: "end", end: "shallow" });
  expect(outOfCorners(project.shell, stadium.shell)).toEqual(["steps"]);
  expect(outOfCorners(project.shell, as(project, "polygon").shell)).toEqual([]);

  const whimbrel = as(demoProject("whimbrel-9"), "stadium");
  const built = buildShell(whimbrel.shell, whimbrel.shop.laidThickness);
  if (!built.ok) throw new Error(JSON.stringify(built.refusals));
  const { adrift } = layUp(whimbrel, built.shell);
  expect(adrift.filter(({ why }) => /no run/.test(why))).toEqual([]);
});
