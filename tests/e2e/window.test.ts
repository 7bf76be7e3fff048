import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { demoFile } from "../cli/ribband.ts";
import { kitOf } from "../cutting/demo-kits.ts";
import { thinDunlin } from "../project/thin-dunlin.ts";
import { expectTotals, PATIENCE, windows } from "./windows.ts";

const { open, address, addressOf } = windows();
let page: Page;

// One window for all: every test leaves the project as it found it.
beforeAll(async () => {
  page = await open({ address: addressOf(thinDunlin()), prepare: countDrawCalls });
  await page.locator('[data-dimension="length"]').waitFor();
});

/** Runs in the page: counts what is sent to the graphics card, and what since the samples of a smooth frame were last put together. */
function countDrawCalls(): void {
  const counted = globalThis as { drawCalls?: number; sinceSmooth?: number };
  const context = WebGL2RenderingContext.prototype;
  const putTogether = context.blitFramebuffer;
  context.blitFramebuffer = function (...bounds) {
    counted.sinceSmooth = 0;
    putTogether.apply(this, bounds);
  };
  for (const name of ["drawElements", "drawElementsInstanced", "drawArrays"] as const) {
    const draw = context[name] as (...args: unknown[]) => void;
    Object.assign(context, {
      [name](this: WebGL2RenderingContext, ...args: unknown[]) {
        counted.drawCalls = (counted.drawCalls ?? 0) + 1;
        counted.sinceSmooth = (counted.sinceSmooth ?? 0) + 1;
        draw.apply(this, args);
      },
    });
  }
}

describe("the window in a browser", () => {
  test("says what is wrong beside the field and keeps the last good shell", {
    timeout: 120_000,
  }, async () => {
    const field = page.getByLabel("length", { exact: true });
    const before = await field.inputValue();
    await field.fill("91m");
    await field.press("Enter");
    await page.getByRole("alert").getByText("it must be from 3000 mm to 15000 mm").waitFor();
    await field.fill("4 metre");
    await field.press("Enter");
    await page.locator('[data-dimension="length"]').getByText("4000 mm").waitFor();
    await field.fill("three");
    await field.press("Enter");
    await page.getByRole("alert").getByText("Write for example").waitFor();
    expect(await page.locator('[data-dimension="length"]').textContent()).toBe("4000 mm");
    await field.press("Escape");
    await page.keyboard.press("Control+z");
    await expect.poll(() => field.inputValue(), { timeout: PATIENCE }).toBe(before);
  });

  test("a drag on a label is one step, and the shell follows it", { timeout: 120_000 }, async () => {
    const dimension = page.locator('[data-dimension="length"]');
    const label = page.getByText("length", { exact: true });
    const box = await label.boundingBox();
    if (!box) throw new Error("The label is not on screen.");
    const [x, y] = [box.x + 10, box.y + box.height / 2];
    const field = page.getByLabel("length", { exact: true });
    const before = Number.parseFloat(await field.inputValue());
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 10; i++) await page.mouse.move(x + 8 * i, y);
    // 80 px are 20 steps of 10 mm.
    await dimension.getByText(`${before + 200} mm`).waitFor();
    await page.mouse.up();
    expect(await field.inputValue()).toBe(`${before + 200} mm`);
    await page.getByRole("button", { name: "Undo: Change length of the outline" }).click();
    expect(await field.inputValue()).toBe(`${before} mm`);
    await page.getByRole("button", { name: "Nothing to undo" }).waitFor();
  });

  test("a part of the shell is added and taken out again in the card", { timeout: 120_000 }, async () => {
    const add = page.getByRole("button", { name: "Add depth" });
    const steps = page.getByRole("button", { name: "Undo: Add depth" });
    await add.click();
    await steps.click();
    await page.getByRole("button", { name: "Nothing to undo" }).waitFor();
  });

  test("lights up and names what is pointed at, and draws no frame when idle", {
    timeout: 120_000,
  }, async () => {
    await expectTotals(page, kitOf(thinDunlin()).kit);
    await page.getByRole("button", { name: "Above" }).click();
    await expect.poll(() => page.locator("canvas").count()).toBe(1);
    const box = await page.locator("canvas").boundingBox();
    if (!box) throw new Error("The scene is not on screen.");
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.getByText("Floor", { exact: true }).last().waitFor();
    // Wait until the measuring, which draws the finest mesh at its end, is over.
    await page.locator('[data-figure="area"]').getByText("m²").waitFor();
    // And the last frame, drawn once all is at rest.
    await page.waitForTimeout(1500);
    const drawn = () => page.evaluate(() => (globalThis as { drawCalls?: number }).drawCalls ?? 0);
    const before = await drawn();
    expect(before).toBeGreaterThan(0);
    await page.waitForTimeout(3000);
    expect(await drawn()).toBe(before);
    // However roughly frames were drawn while things moved: of the last one the smooth sheet was laid on the canvas, and nothing drawn beside.
    expect(await page.evaluate(() => (globalThis as { sinceSmooth?: number }).sinceSmooth)).toBe(1);
  });

  test("a new address entered in the same tab opens what it is for", { timeout: 120_000 }, async () => {
    page.on("dialog", (leaving) => void leaving.accept());
    await page.goto(address(demoFile("turnstone-7")));
    await page.getByRole("heading", { name: "Turnstone 7", exact: true }).waitFor();
  });
});
