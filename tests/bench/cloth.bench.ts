/** How long cloth takes to drape: `npm run bench -- --only cloth`. */
import { readFileSync } from "node:fs";
import { Net } from "../../core/cloth/net.ts";
import { geodesicYarn } from "../../core/cloth/yarn.ts";
import { parseProject } from "../../core/project/parse.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { type FieldNear, fieldNear } from "../../core/surface/bricks.ts";
import { movedField } from "../../core/surface/moved.ts";
import { projectOnto } from "../../core/surface/project.ts";
import type { Stage } from "./stage.ts";

const demo = new URL("../../assets/demo/whimbrel-9.ribband.json", import.meta.url).pathname;

/** The lay-up surface of the straight-edged demo, and a point in the cove of its deep-left corner. */
function corner(): { near: FieldNear; point: Float64Array } {
  const parsed = parseProject(readFileSync(demo, "utf8"));
  if (!parsed.ok) throw new Error(parsed.problems.map((problem) => problem.sentence).join(" "));
  const built = buildShell(parsed.project.shell);
  if (!built.ok) throw new Error(built.refusals.map((refusal) => refusal.why).join(" "));
  const field = movedField(built.shell.field, parsed.project.shop.laidThickness);
  const point = Float64Array.of(8850, 1650, -1450);
  if (!projectOnto(field, point, 0, 1e-6)) throw new Error("The corner of the demo has no surface.");
  return { near: fieldNear(field), point };
}

let place: ReturnType<typeof corner>;

/** 1,000 nodes at 25 mm to each side of a warp that runs level through the corner: 2 × 500 in rows of 25. */
function drape(): number {
  const { near, point } = place;
  let there = 0;
  for (const side of [1, -1] as const) {
    const warp = geodesicYarn(near, { point, direction: [-1, 1, 0] }, 25);
    const weft = geodesicYarn(near, { point, direction: [side, side, -side] }, 25);
    if (!warp || !weft) throw new Error("The corner of the demo has no surface.");
    const net = new Net(near, warp, weft, side, 25, { ahead: 12, back: 12, rows: 19 });
    for (const end of [-12, 12]) if (net.ask(end, 19) === 1) there++;
  }
  return there;
}

export const stages: Stage[] = [
  {
    name: "cloth: a net of 1,000 nodes over a corner",
    prepare: () => {
      place = corner();
    },
    run: drape,
  },
];
