import type { Page } from "playwright-core";
import { beforeEach, expect, test } from "vitest";
import { automaticLayup } from "../../core/layup/house-rules.ts";
import { transitionsOf } from "../../core/layup/lay-up.ts";
import type { Project, ZoneSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { demoProject } from "../project/demo-files.ts";
import { expectTotals, PATIENCE, windows } from "./windows.ts";

const { open } = windows();
let page: Page;

beforeEach(async () => {
  page = await open();
  await page.getByRole("button", { name: /^Whimbrel 9/ }).click();
  await page.getByRole("button", { name: "Lay-up floor" }).click();
  await expectTotals(page, demo);
});

const demo = demoProject("whimbrel-9");

/** The demo without its band on the foot, and with the band that core's house rules lay there. */
const bare: Project = { ...demo, layup: demo.layup.filter(({ id }) => id !== "foot") };
const houseBand = (): ZoneSpec => {
  const built = buildShell(demo.shell);
  if (!built.ok) throw new Error("The demo cannot be built.");
  const zones = automaticLayup(demo, built.shell, transitionsOf(demo, built.shell));
  const band = zones.find((zone) => zone.kind === "band" && zone.on === "foot");
  if (!band) throw new Error("The house rules lay no band on the foot.");
  return band;
};

const lastStep = () =>
  page.getByRole("button", { name: /^(Undo|Nothing to undo)/ }).getAttribute("aria-label");
const expectStep = (name: string | RegExp) => expect.poll(lastStep, { timeout: PATIENCE }).toMatch(name);
const zone = (name: string | RegExp) => page.getByRole("option", { name });

async function removeFoot(): Promise<void> {
  await zone(/^foot/).click();
  await page.keyboard.press("Delete");
  await expectStep("Undo: Delete foot");
}

/** Moves the pointer from the middle of the scene outwards until what is offered has this name. */
async function pointAt(name: RegExp, step: readonly [number, number]): Promise<readonly [number, number]> {
  const box = await page.locator("canvas[data-engine]").boundingBox();
  if (!box) throw new Error("The scene is not on screen.");
  for (let i = 0; i < 60; i++) {
    const [x, y] = [box.x + box.width / 2 + i * step[0], box.y + box.height / 2 + i * step[1]];
    await page.mouse.move(x, y);
    await page.waitForTimeout(120);
    if (await page.locator("[data-readout]").getByText(name).isVisible()) return [x, y];
  }
  throw new Error(`Nothing there is offered as ${name}.`);
}

/** Takes all steps back and does them again, and looks at the totals at both ends. */
async function backAndForth(steps: number): Promise<void> {
  const woven = page.locator('[data-total="woven"]');
  const strips = page.locator('[data-total="ribs"]');
  // What is laid last is cut a moment later.
  await page.waitForTimeout(4000);
  const after = [await woven.textContent(), await strips.textContent()];
  await page.mouse.move(5, 5);
  for (let i = 0; i < steps; i++) await page.keyboard.press("Control+z");
  await expectStep("Nothing to undo");
  await expectTotals(page, demo);
  for (let i = 0; i < steps; i++) await page.keyboard.press("Control+y");
  await expect
    .poll(async () => [await woven.textContent(), await strips.textContent()], { timeout: PATIENCE })
    .toEqual(after);
}

test("by pointer: lay a band on the foot, drag its width, lay a row of ribs, take all back and do it again", {
  timeout: 300_000,
}, async () => {
  await removeFoot();
  await page.getByRole("button", { name: "Above" }).click();
  await page.getByRole("button", { name: "Band", exact: true }).click();
  const spot = await pointAt(/foot of the wall/i, [0, 8]);
  await page.locator("[data-readout]").getByText("m²").waitFor();
  await page.mouse.click(...spot);
  await expectStep("Undo: Lay band foot");
  await expectTotals(page, { ...bare, layup: [...bare.layup, houseBand()] });

  const field = page.getByLabel("up the wall", { exact: true });
  const before = await field.inputValue();
  const knob = await page.getByRole("slider", { name: /up the wall, band foot/i }).boundingBox();
  if (!knob) throw new Error("The band has no handle.");
  const [x, y] = [knob.x + knob.width / 2, knob.y + knob.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.getByRole("button", { name: "Band", exact: true }).waitFor();
  for (let i = 1; i <= 6; i++) await page.mouse.move(x + 3 * i, y + 3 * i);
  for (let i = 1; i <= 6; i++) await page.mouse.move(x + 18, y + 18 - 9 * i);
  await page.mouse.up();
  await expect.poll(() => field.inputValue(), { timeout: PATIENCE }).not.toBe(before);
  await expectStep("Undo: Change half width up the wall of band foot");

  await page.getByRole("button", { name: "Side" }).click();
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Rib", exact: true }).click();
  const from = await pointAt(/^(left|right)$/i, [0, 6]);
  await page.mouse.move(...from);
  await page.mouse.down();
  for (let i = 1; i <= 8; i++) await page.mouse.move(from[0] + 22 * i, from[1]);
  await page.waitForTimeout(400);
  await page.mouse.up();
  await expectStep(/^Undo: Lay ribs (left|right) 2$/);
  await backAndForth(4);
});

test("by keyboard alone: the same", { timeout: 300_000 }, async () => {
  await zone(/^foot/).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Delete");
  await expectStep("Undo: Delete foot");
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press("b");
  await page.keyboard.press("Enter");
  const places = page.getByRole("listbox", { name: /^Band: where/ });
  await places.waitFor();
  await page.keyboard.press("f");
  for (let i = 0; i < 20; i++) {
    if (await places.getByRole("option", { selected: true, name: "Foot of the wall" }).count()) break;
    await page.keyboard.press("ArrowDown");
  }
  await page.keyboard.press("Enter");
  await expectStep("Undo: Lay band foot");
  await expectTotals(page, { ...bare, layup: [...bare.layup, houseBand()] });

  const knob = page.getByRole("slider", { name: /up the wall, band foot/i });
  await knob.focus();
  const before = await knob.getAttribute("aria-valuenow");
  for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowUp");
  await expectStep("Undo: Change half width up the wall of band foot");
  // The last of the presses may still be under way when the step of the first is named.
  await expect
    .poll(async () => Number(await knob.getAttribute("aria-valuenow")), { timeout: 10_000 })
    .toBe(Math.round((Number(before) + 20) / 5) * 5);

  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press("r");
  await page.keyboard.press("Enter");
  const walls = page.getByRole("listbox", { name: /^Rib: where/ });
  await walls.waitFor();
  for (let i = 0; i < 20; i++) {
    if (await walls.getByRole("option", { selected: true, name: "Row of ribs, deep" }).count()) break;
    await page.keyboard.press("ArrowDown");
  }
  await page.keyboard.press("Enter");
  await expectStep("Undo: Lay ribs deep");
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await page.keyboard.press("?");
  await page.getByRole("dialog").getByText("Keys of the lay-up floor").waitFor();
  await page.keyboard.press("Escape");
  for (let i = 0; i < 4; i++) await page.keyboard.press("Control+z");
  await expectStep("Nothing to undo");
  for (let i = 0; i < 4; i++) await page.keyboard.press("Control+y");
  await expectStep("Undo: Lay ribs deep");
});
