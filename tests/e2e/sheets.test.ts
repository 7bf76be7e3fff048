import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { demoProject } from "../project/demo-files.ts";
import { PATIENCE, windows } from "./windows.ts";

const { open, addressOf } = windows();
let page: Page;

const undo = (step: string) => page.getByRole("button", { name: `Undo: ${step}` }).click();
const handle = (name: string) => page.getByRole("slider", { name, exact: true });

/** The middle of a thing on screen. */
async function middle(of: ReturnType<typeof handle>): Promise<{ x: number; y: number }> {
  const box = await of.boundingBox();
  if (!box) throw new Error("It is not on screen.");
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function drag(of: ReturnType<typeof handle>, dx: number, dy: number): Promise<void> {
  const { x, y } = await middle(of);
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 6; i++) await page.mouse.move(x + (dx * i) / 6, y + (dy * i) / 6);
}

test("the plan and the section are worked on by pointer and by keys", { timeout: 180_000 }, async () => {
  // The shell alone: nothing is looked at that is laid on it.
  page = await open({ address: addressOf({ ...demoProject("dunlin-4"), layup: [] }) });
  const dimension = page.locator('[data-dimension="length"]');
  await dimension.getByText("4400 mm").waitFor();
  const field = page.getByLabel("length", { exact: true });

  // The length by dragging: field and scene follow while the pointer is still down; it is one step.
  await drag(handle("Length of the outline"), 60, 0);
  await expect.poll(() => dimension.textContent(), { timeout: PATIENCE }).not.toBe("4400 mm");
  await page.mouse.up();
  const longer = Number.parseFloat(await field.inputValue());
  expect(longer).toBeGreaterThan(4600);
  expect(longer % 10).toBe(0);
  await undo("Change length of the outline");
  expect(await field.inputValue()).toBe("4400 mm");
  await page.getByRole("button", { name: "Nothing to undo" }).waitFor();

  // The same by keys: a press of Shift and an arrow is 100 mm.
  await handle("Length of the outline").focus();
  await page.keyboard.press("Shift+ArrowRight");
  await page.keyboard.press("ArrowRight");
  expect(await field.inputValue()).toBe("4510 mm");
  await page.locator("[data-told]").getByText("4510 mm").waitFor();
  // One step; on a machine so slow that the presses lie far apart, two.
  for (let i = 0; i < 2; i++) await page.keyboard.press("Control+z");
  await expect.poll(() => field.inputValue(), { timeout: PATIENCE }).toBe("4400 mm");

  // The section: a station by keys, another one put in and taken out again.
  const depth = page.getByLabel("depth", { exact: true }).first();
  await handle("Depth 1 of the floor").focus();
  await page.keyboard.press("ArrowDown");
  expect(await depth.inputValue()).toBe("1310 mm");
  await page.keyboard.press("Insert");
  await handle("Depth 2 of the floor").focus();
  await page.keyboard.press("Delete");
  await undo("Remove depth 2 of the floor");
  await undo("Add depth");
  await undo("Change depth 1 of the floor");
  expect(await depth.inputValue()).toBe("1300 mm");
  expect(await handle("Depth 2 of the floor").count()).toBe(0);

  // Depths in the section: a tread's by dragging, a bench's by a key once the bench is chosen on the plan.
  await page.getByRole("button", { name: "steps: show its handles" }).click();
  const tread = handle("Depth of tread 2 of steps");
  const deep = Number(await tread.getAttribute("aria-valuenow"));
  expect(deep).toBe(520);
  await drag(tread, 0, 12);
  await expect.poll(async () => Number(await tread.getAttribute("aria-valuenow"))).toBeGreaterThan(deep + 20);
  await page.mouse.up();
  expect(Number(await tread.getAttribute("aria-valuenow")) % 10).toBe(0);
  await undo("Change depth of tread 2 of steps");
  await expect.poll(() => tread.getAttribute("aria-valuenow")).toBe("520");
  await page.getByRole("button", { name: "bench right: show its handles" }).click();
  await handle("Depth of bench right").focus();
  await page.keyboard.press("ArrowDown");
  await page.locator("[data-told]").getByText("510 mm").waitFor();
  await undo("Change depth of bench right");
  await page.keyboard.press("Escape");

  // A bench by a click on the plan: it lights up under the pointer first. It is made longer by its end, and all is undone.
  const plan = page.getByRole("group", { name: "Plan of the shell" });
  await page.getByRole("button", { name: "Add", exact: true }).click();
  await page.getByRole("menuitem", { name: "Bench" }).click();
  const box = await plan.boundingBox();
  if (!box) throw new Error("The plan is not on screen.");
  const rim = await page.locator('[data-sheet-dimension="width"]').boundingBox();
  if (!rim) throw new Error("The width is not on the plan.");
  await page.mouse.move(box.x + box.width / 2, rim.y + rim.height / 2);
  await page.mouse.move(box.x + box.width * 0.7, rim.y + rim.height / 2);
  await page.getByRole("status").getByText("along deep").waitFor();
  await page.mouse.click(box.x + box.width * 0.7, rim.y + rim.height / 2);
  await handle("Reach of bench").waitFor();
  await handle("Reach of bench").focus();
  await page.keyboard.press("ArrowLeft");
  await page.locator("[data-told]").getByText("460 mm").waitFor();
  await page.keyboard.press("Escape");
  await undo("Add bench");
  await page.getByRole("button", { name: "bench: show its handles" }).waitFor({ state: "detached" });

  // The same by keys alone.
  await page.getByRole("button", { name: "Add", exact: true }).focus();
  await page.keyboard.press("Enter");
  await page.getByRole("menuitem", { name: "Bench" }).focus();
  await page.keyboard.press("Enter");
  const status = page.getByRole("status").filter({ hasText: "Add bench" });
  const first = await status.textContent();
  await page.keyboard.press("ArrowRight");
  await expect.poll(() => status.textContent()).not.toBe(first);
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "bench: show its handles" }).waitFor();
  await undo("Add bench");

  // And by a click on the shell itself: the place follows the pointer there as it does on the plan.
  await page.getByRole("button", { name: "Above" }).click();
  await page.getByRole("button", { name: "Add", exact: true }).click();
  await page.getByRole("menuitem", { name: "Bench" }).click();
  const scene = await page.locator("canvas[data-engine]").boundingBox();
  if (!scene) throw new Error("The scene is not on screen.");
  const [x, y] = [scene.x + scene.width / 2, scene.y + scene.height / 2];
  for (const [dx, side] of [
    [-0.25, "along shallow"],
    [0.25, "along deep"],
  ] as const) {
    await page.mouse.move(x + dx * scene.width, y);
    await expect.poll(() => status.textContent()).toContain(side);
  }
  await page.mouse.click(x + 0.25 * scene.width, y);
  await page.getByRole("button", { name: "bench: show its handles" }).waitFor();
  await undo("Add bench");
});
