import { expect, test } from "vitest";
import type { LaidBand } from "../../core/layup/laid.ts";
import { layUp } from "../../core/layup/lay-up.ts";
import type { Project } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { demoProject } from "../project/demo-files.ts";
import { checkOutline } from "./check-outline.ts";
import { checkPieces, cutBand } from "./check-pieces.ts";

const gannet = demoProject("gannet-11");

/** Gannet 11's foot in one ply, so wide to each side, from rolls of 1000 mm that lock at so many degrees. */
function footOf(halfWidth: number, lockingDeg: number, shop: Partial<Project["shop"]>) {
  const built = buildShell(gannet.shell, gannet.shop.laidThickness);
  if (!built.ok) throw new Error("The shell is refused.");
  const materials = gannet.materials.map((each) =>
    each.kind === "woven" ? { ...each, rollWidth: 1000, lockingDeg } : each,
  );
  const layup = gannet.layup.flatMap((zone) =>
    zone.kind === "band" && zone.id === "foot"
      ? [{ ...zone, halfWidths: [halfWidth, halfWidth] as [number, number], plies: 1 }]
      : [],
  );
  const project = { ...gannet, materials, layup, shop: { ...gannet.shop, ...shop } };
  const [zone] = layUp(project, built.shell).zones;
  return { zone: zone as LaidBand, shop: project.shop };
}

test.each([
  // Short ends were once split off five times over, and the rest was left as wide as it had been.
  ["long pieces with long laps", footOf(314, 50, { handlingLength: 4551, lap: 145 })],
  // Pieces once filled the roll before their trim was set off.
  ["trim", footOf(274, 35, { handlingLength: 1849, lap: 47, trim: 25 })],
])("a band narrower than its roll is divided until its pieces are, too: %s", (_, { zone, shop }) => {
  const cut = cutBand(zone, shop);
  checkPieces(zone, shop, cut);
  cut.pieces.forEach(checkOutline);
  for (const piece of cut.pieces) expect(piece.widthMm, piece.name).toBeLessThanOrEqual(1000);
  expect(cut.doubts.filter(({ fault }) => fault)).toEqual([]);
});
