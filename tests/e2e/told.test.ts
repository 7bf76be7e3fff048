import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Project } from "../../core/project/schema.ts";
import { demoProject } from "../project/demo-files.ts";
import { windows } from "./windows.ts";

const { open, address } = windows();
let place: string;

beforeAll(() => {
  place = mkdtempSync(join(tmpdir(), "ribband-told-"));
});
afterAll(() => {
  rmSync(place, { recursive: true, force: true });
});

/** A file of a project, to be opened. */
function fileOf(project: Project): string {
  const file = join(place, "told.ribband.json");
  writeFileSync(file, JSON.stringify(project));
  return file;
}

test("faults are told apart from notes: a zone adrift and cloth wider than its roll in red, what else there is quietly", {
  timeout: 240_000,
}, async () => {
  const demo = demoProject("dunlin-4");
  const layup = demo.layup.map((zone) =>
    zone.kind === "band" && zone.id === "steps-rise-1"
      ? { ...zone, halfWidths: [400, 400] as [number, number] }
      : zone,
  );
  const materials = demo.materials.map((each) =>
    each.id === "woven-600" ? { ...each, rollWidth: 600 } : each,
  );
  const lost = { kind: "pad", id: "pad-bench", on: "bench/top", margin: 40, material: "core-sheet" } as const;
  const page = await open({ address: address(fileOf({ ...demo, materials, layup: [...layup, lost] })) });
  const faults = page.getByRole("button", { name: "2 faults", exact: true });
  const notes = page.getByRole("button", { name: /^\d+ to look at$/ });
  await Promise.all([faults.waitFor(), notes.waitFor()]);
  const colours = await Promise.all(
    [faults, notes].map((button) => button.evaluate((it) => getComputedStyle(it).color)),
  );
  expect(colours).toEqual(["rgb(168, 50, 42)", "rgb(86, 97, 100)"]);

  await faults.click();
  await page.getByText("Pad bench · adrift").waitFor();
  const wide = page
    .getByRole("listitem")
    .filter({ hasText: "wide, and Woven roving 600 g/m² comes 600 mm wide" });
  await wide.getByText("Steps rise 1").waitFor();
  // In the list, a mark of its own.
  const zones = page.getByRole("listbox", { name: "All zones" });
  await zones.getByRole("option", { name: "steps rise 1" }).getByRole("img", { name: "1 fault" }).waitFor();
  expect(await zones.getByRole("img", { name: /fault/ }).count()).toBe(1);
});
