import type { Page } from "playwright-core";
import { beforeEach, expect, test } from "vitest";
import { automaticLayup } from "../../core/layup/house-rules.ts";
import { transitionsOf } from "../../core/layup/lay-up.ts";
import type { Project, ZoneSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { kitOf } from "../cutting/demo-kits.ts";
import { thinDunlin } from "../project/thin-dunlin.ts";
import { expectTotals, PATIENCE, windows } from "./windows.ts";

const { open, addressOf } = windows();
let page: Page;

const demo = thinDunlin();

beforeEach(async () => {
  page = await open({ address: addressOf(demo) });
  await page.getByRole("button", { name: "Lay-up floor" }).click();
  await expectTotals(page, kitOf(demo).kit);
});

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

test("by keyboard alone: lay a band on the foot, widen it, lay a row of ribs, take all back and do it again", {
  timeout: 300_000,
}, async () => {
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
  await expectTotals(page, kitOf({ ...bare, layup: [...bare.layup, houseBand()] }).kit);

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
  // Until the sheet is gone its keys are its own.
  await page.getByRole("dialog").waitFor({ state: "detached" });
  // Four steps; on a machine so slow that the presses of an arrow lie far apart, they are steps of their own.
  for (let i = 0; i < 7; i++) await page.keyboard.press("Control+z");
  await expectStep("Nothing to undo");
  for (let i = 0; i < 7; i++) await page.keyboard.press("Control+y");
  await expectStep("Undo: Lay ribs deep");
});
