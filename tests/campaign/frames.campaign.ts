import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { printProject } from "../../core/project/print.ts";
import type { Project } from "../../core/project/schema.ts";
import { demoKit } from "../cutting/demo-kits.ts";
import { dragLength, hoverAnswers, idleDraws, watchFrames } from "../e2e/frames.ts";
import { expectTotals, windows } from "../e2e/windows.ts";
import { demoProject } from "../project/demo-files.ts";

const { open, address } = windows({ timed: true });
const place = mkdtempSync(join(tmpdir(), "ribband-frames-"));
afterAll(() => rmSync(place, { recursive: true, force: true }));

/** Its times hang on the pixels that are drawn: always the same. */
const SCREEN = { width: 1440, height: 900 };

/** The value that so many percent do not exceed. */
function percentile(values: readonly number[], percent: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil((percent / 100) * sorted.length) - 1)];
}
const tell = (name: string, values: readonly number[]) =>
  `${name}: ${values.length} of them, median ${percentile(values, 50).toFixed(0)} ms, 95 % within ${percentile(values, 95).toFixed(0)} ms`;

test("the length of Whimbrel 9 dragged: the shell follows, the full result comes after, idle draws nothing", async () => {
  const page = await open({ viewport: SCREEN, prepare: watchFrames });
  await page.getByRole("button", { name: /^Whimbrel 9/ }).click();
  await expectTotals(page, demoKit("whimbrel-9").kit);
  await page.locator('[data-figure="area"]').getByText("m²").waitFor();
  const { answers, laidMs, kitMs } = await dragLength(page, 60);
  // From the input to its answer in the page, without and with what the page drew of answers before; then the frame; then all of it.
  const columns = {
    computing: answers.map(({ computingMs }) => computingMs),
    "computing and frames before": answers.map(({ computingMs, drewMs }) => computingMs + drewMs),
    "its frame": answers.map(({ frameMs }) => frameMs),
    "in all": answers.map(({ computingMs, drewMs, frameMs }) => computingMs + drewMs + frameMs),
  };
  for (const [name, values] of Object.entries(columns)) console.info(tell(`previews, ${name}`, values));
  console.info(
    `after letting go: shell and areas in ${laidMs.toFixed(0)} ms, the kit with its cloth in ${kitMs.toFixed(0)} ms`,
  );
  expect(laidMs).toBeLessThan(kitMs);
  expect(answers.length).toBeGreaterThan(5);
  await page.locator('[data-figure="area"]:not([data-stale])').waitFor();
  await page.waitForTimeout(2000);
  expect(await idleDraws(page, 10_000)).toBe(0);
});

test("300 zones: the pointer is answered at once", async () => {
  const demo = demoProject("whimbrel-9");
  const ribs = Array.from({ length: 300 }, (_, i): Project["layup"][number] => ({
    kind: "rib",
    id: `rib-${i}`,
    at: { run: i % 2 === 0 ? "left" : "right", part: 0.2 + (0.6 * i) / 300 },
    top: 60,
    foot: { kind: "to", clear: 20 },
    material: "rib-strip",
  }));
  const file = join(place, "many.ribband.json");
  writeFileSync(file, printProject({ ...demo, layup: ribs }));
  const page = await open({ viewport: SCREEN, address: address(file) });
  await page.getByRole("button", { name: "Lay-up floor" }).click();
  await page.getByText("300 zones").waitFor();
  await page.locator('[data-total="ribs"]').getByText(" m").waitFor();
  const times = await hoverAnswers(page, 60);
  console.info(tell("hover answers", times));
  expect(times.length).toBeGreaterThan(10);
});
