import { expect, test } from "vitest";
import type { LaidBand } from "../../core/layup/laid.ts";
import { layUp } from "../../core/layup/lay-up.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { demoProject } from "../project/demo-files.ts";
import { checkOutline } from "./check-outline.ts";
import { checkPieces, cutBand } from "./check-pieces.ts";

// Of cloth that locks at 15° a piece of steps-rise-3 once came to a point in the middle, and was only said to lock.
test("pieces of cloth that all but refuses to shear are drawn soundly, or told", { timeout: 60_000 }, () => {
  const demo = demoProject("dunlin-4");
  const built = buildShell(demo.shell, demo.shop.laidThickness);
  if (!built.ok) throw new Error("The shell is refused.");
  const materials = demo.materials.map((each) =>
    each.kind === "woven" ? { ...each, lockingDeg: 15 } : each,
  );
  const layup = demo.layup.filter(({ id, kind }) => kind === "band" && id !== "foot");
  const { zones } = layUp({ ...demo, materials, layup }, built.shell);
  expect(zones).toHaveLength(6);
  for (const zone of zones as LaidBand[]) {
    const cut = cutBand(zone, demo.shop);
    checkPieces(zone, demo.shop, cut);
    for (const piece of cut.pieces)
      if (!cut.doubts.some(({ fault, says }) => fault && says.startsWith(`${piece.name}: `)))
        checkOutline(piece);
  }
});
