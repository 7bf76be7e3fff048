import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { thinDunlin } from "../project/thin-dunlin.ts";
import { PATIENCE, windows } from "./windows.ts";

const { open, addressOf } = windows();
let page: Page;

/** Where the tape reads a point of the canvas: along and down, mm. */
async function readAt(x: number, y: number): Promise<{ what: string; along: number; down: number }> {
  const readout = page.locator("output");
  await page.mouse.move(x, y);
  await page.mouse.move(x + 1, y);
  await page.mouse.move(x, y);
  await expect.poll(() => readout.isVisible(), { timeout: PATIENCE }).toBe(true);
  await page.waitForTimeout(120);
  const [what, place] = await readout.locator("strong, span").allTextContents();
  const found = /^(\d+) mm along, (\d+) mm down/.exec(place);
  if (!found) throw new Error(`The tape reads ${JSON.stringify(place)}.`);
  return { what, along: Number(found[1]), down: Number(found[2]) };
}

const field = (name: string) => page.locator(`input[name="tape.${name}"]`);
const lengthIn = async (name: string) => Number.parseFloat(await field(name).inputValue());
const undoOf = (step: string) => page.getByRole("button", { name: `Undo: ${step}` });

// The rib of Dunlin 4 by the shallow end, told by the demo file: part 0.74 of the straight stretch of that end.
test("on the tape ribs, bands and stiffeners are laid; what lies there is nudged, typed, dragged: each one step", {
  timeout: 240_000,
}, async () => {
  page = await open({ address: addressOf(thinDunlin()), viewport: { width: 1440, height: 900 } });
  await page.getByRole("button", { name: "Lay-up floor" }).click();
  await page.getByText("The wall is being unrolled").waitFor({ state: "hidden" });
  const canvas = page.locator("canvas[aria-label^='The tape']");

  await canvas.focus();
  for (let i = 0; i < 20 && (await field("at").count()) === 0; i++) {
    await page.keyboard.press(".");
    await page.waitForTimeout(60);
  }
  const before = await lengthIn("at");
  for (let i = 0; i < 3; i++) await page.keyboard.press("Alt+ArrowRight");
  await expect.poll(() => lengthIn("at"), { timeout: PATIENCE }).toBeCloseTo(before + 30, 1);
  await undoOf("Slide rib shallow").waitFor();

  await field("at").fill("0.55 m");
  await field("at").press("Enter");
  await expect.poll(() => lengthIn("at"), { timeout: PATIENCE }).toBeCloseTo(550, 1);

  // Two places read off the tape give its scale: from there a place is found by its distances.
  const box = await canvas.boundingBox();
  if (!box) throw new Error("The tape is not on screen.");
  const [x1, x2, y] = [box.x + 0.4 * box.width, box.x + 0.6 * box.width, box.y + 75];
  const [one, two] = [await readAt(x1, y), await readAt(x2, y)];
  const scale = (x2 - x1) / (two.along - one.along);
  const at = (along: number, down: number): [number, number] => [
    x1 + (along - one.along) * scale,
    y + (down - one.down) * scale,
  ];
  await expect
    .poll(async () => (await readAt(...at(550, 400))).what, { timeout: PATIENCE })
    .toBe("Rib shallow");
  await page.mouse.down();
  await page.mouse.move(...at(500, 400));
  await page.mouse.move(...at(450, 400));
  await page.mouse.up();
  await expect.poll(() => lengthIn("at"), { timeout: PATIENCE }).toBeCloseTo(450, 0);
  await undoOf("Slide rib shallow").click();
  await expect.poll(() => lengthIn("at"), { timeout: PATIENCE }).toBeCloseTo(550, 1);
  // Nudges with a pause between them, as on a busy machine, are steps of their own.
  for (let i = 0; i < 4; i++) await page.keyboard.press("Control+z");
  await expect.poll(() => lengthIn("at"), { timeout: PATIENCE }).toBeCloseTo(before, 1);

  await page.getByRole("button", { name: "Rib", exact: true }).click();
  await page.mouse.click(...at(5700, 400));
  await undoOf("Lay rib").first().waitFor();
  await expect.poll(() => lengthIn("at"), { timeout: PATIENCE }).toBeCloseTo(5700, -1.3);
  await page.mouse.move(...at(1800, 200));
  await page.mouse.down();
  await page.mouse.move(...at(3000, 200));
  await page.mouse.move(...at(4600, 200));
  await page.mouse.up();
  await undoOf("Lay ribs right").waitFor();
  await expect.poll(() => lengthIn("to"), { timeout: PATIENCE }).toBeCloseTo(4600, -1.3);

  // Along the foot of the deep end, 1219 mm down: a part of a band, its end then dragged and typed.
  await page.getByRole("button", { name: "Band", exact: true }).click();
  await page.mouse.move(...at(5600, 1215));
  await page.mouse.down();
  await page.mouse.move(...at(6500, 1215));
  await page.mouse.move(...at(7400, 1215));
  await page.mouse.up();
  await undoOf("Lay band foot").waitFor();
  await page.keyboard.press("c");
  await expect.poll(() => lengthIn("to"), { timeout: PATIENCE }).toBeCloseTo(7400, -1.3);
  const end = await lengthIn("to");
  await page.mouse.move(...at(end, 1219));
  await page.mouse.down();
  await page.mouse.move(...at(end - 200, 1219));
  await page.mouse.move(...at(end - 400, 1219));
  await page.mouse.up();
  await undoOf("Change an end of band foot").waitFor();
  await expect.poll(() => lengthIn("to"), { timeout: PATIENCE }).toBeCloseTo(end - 400, -1.3);
  await field("from").fill("5.8 m");
  await field("from").press("Enter");
  await expect.poll(() => lengthIn("from"), { timeout: PATIENCE }).toBeCloseTo(5800, 0);
  await page.mouse.click(...at(6500, -60));
  await page.keyboard.press("Delete");
  await undoOf("Delete stiffener deep").waitFor();
  await page.getByRole("button", { name: "Stiffener", exact: true }).click();
  await page.mouse.click(...at(6500, -60));
  await undoOf("Lay stiffener deep").waitFor();
  await page.close();
});

test("a free band that is drawn over the shell is seen on the tape while it is drawn", {
  timeout: 120_000,
}, async () => {
  page = await open({ address: addressOf(thinDunlin()) });
  await page.getByRole("button", { name: "Lay-up floor" }).click();
  await page.getByText("The wall is being unrolled").waitFor({ state: "hidden" });
  await page.getByRole("button", { name: "Side", exact: true }).click();
  await page.getByRole("button", { name: "Free band", exact: true }).click();
  /** Where on the tape anything is in the colour of what one is about to do. */
  const amber = () =>
    page.locator("canvas[aria-label^='The tape']").evaluate((canvas: HTMLCanvasElement) => {
      const swatch = document.body.appendChild(document.createElement("i"));
      swatch.style.color = "var(--amber)";
      const wanted = getComputedStyle(swatch).color.match(/\d+/g)?.map(Number) ?? [];
      swatch.remove();
      const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
      let count = 0;
      for (let i = 0; i < data.length; i += 4)
        if ([0, 1, 2].every((k) => Math.abs(data[i + k] - wanted[k]) < 6)) count++;
      return count;
    });
  const scene = await page.locator("canvas[data-engine]").boundingBox();
  if (!scene) throw new Error("The scene is not on screen.");
  const [x, y] = [scene.x + scene.width / 2, scene.y + scene.height / 2];
  await page.mouse.move(x - 60, y);
  expect(await amber()).toBe(0);
  await page.mouse.down();
  for (let i = 1; i <= 10; i++) await page.mouse.move(x - 60 + 12 * i, y + (i % 5));
  await expect.poll(amber, { timeout: PATIENCE }).toBeGreaterThan(10);
  expect(await page.getByRole("button", { name: "Nothing to undo" }).count()).toBe(1);
  await page.mouse.up();
  await page.getByRole("button", { name: /^Undo: Lay/ }).waitFor();
  await page.close();
});
