import { expect, test } from "vitest";
import { demoProject } from "../project/demo-files.ts";
import { windows } from "./windows.ts";

const { open, addressOf } = windows();
test("in a small window no handle lies on a name, all tools and views are in sight, and so is what was added", {
  timeout: 240_000,
}, async () => {
  // The shell alone: nothing is looked at that is laid on it.
  const bare = { ...demoProject("dunlin-4"), layup: [] };
  const page = await open({ address: addressOf(bare), viewport: { width: 1024, height: 640 } });
  const boxes = (of: string) =>
    page.locator(of).evaluateAll((all) =>
      all.map((each) => {
        const { left, right, top, bottom } = each.getBoundingClientRect();
        return { name: each.textContent || each.getAttribute("aria-label"), left, right, top, bottom };
      }),
    );
  const inTheWay = async () => {
    const [names, marks] = [
      await boxes("[aria-pressed] text, [data-sheet-dimension], [data-side]"),
      await boxes("[data-handle] :not(circle[r='12'])"),
    ];
    expect(names.length).toBeGreaterThan(7);
    return names.flatMap(({ name, left, right, top, bottom }) =>
      marks.some((at) => at.left < right && at.right > left && at.top < bottom && at.bottom > top)
        ? [name]
        : [],
    );
  };
  const steps = page.getByRole("button", { name: "steps: show its handles" });
  await steps.waitFor();
  const sides = await page.locator("[data-side]").allTextContents();
  expect(sides.sort()).toEqual(["deep", "left", "right", "shallow"]);
  // The names give way when the handles are there.
  await expect.poll(inTheWay).toEqual([]);
  for (const feature of ["steps", "bench right", "bench left"]) {
    await page.getByRole("button", { name: `${feature}: show its handles` }).click();
    await page
      .getByRole("slider", {
        name: feature === "steps" ? "Going of tread 4 of steps" : `Reach of ${feature}`,
      })
      .waitFor();
    await expect.poll(inTheWay, { message: feature }).toEqual([]);
  }

  await page.getByRole("button", { name: "Add", exact: true }).click();
  await page.getByRole("menuitem", { name: "Light" }).click();
  await page.getByRole("status").filter({ hasText: "Add light" }).waitFor();
  await page.getByRole("button", { name: "Add", exact: true }).press("Enter");
  const card = await page.getByLabel("Job card").boundingBox();
  if (!card) throw new Error("The card is not on screen.");
  const added = page.locator('[data-entry="light-2"]');
  await expect
    .poll(async () => {
      const at = await added.boundingBox();
      return at && at.y >= card.y && at.y + 40 < card.y + card.height;
    })
    .toBe(true);

  await page.getByRole("button", { name: "Lay-up floor", exact: true }).click();
  await page.getByRole("toolbar", { name: "Tools" }).waitFor();
  for (const bar of ["Tools", "How the shell is seen"]) {
    const clipped = await page
      .getByRole("toolbar", { name: bar })
      .evaluate((it) => it.scrollWidth - it.clientWidth);
    expect(clipped, bar).toBe(0);
  }
});

test("faults are told apart from notes: a zone adrift and cloth wider than its roll in red, what else there is quietly", {
  timeout: 240_000,
}, async () => {
  const demo = demoProject("dunlin-4");
  // Without the foot of the wall, whose cloth takes longest to cut.
  const layup = demo.layup
    .filter(({ id }) => id !== "foot")
    .map((zone) =>
      zone.kind === "band" && zone.id === "steps-rise-1"
        ? { ...zone, halfWidths: [400, 400] as [number, number] }
        : zone,
    );
  const materials = demo.materials.map((each) =>
    each.id === "woven-600" ? { ...each, rollWidth: 600 } : each,
  );
  const lost = { kind: "pad", id: "pad-bench", on: "bench/top", margin: 40, material: "core-sheet" } as const;
  const page = await open({ address: addressOf({ ...demo, materials, layup: [...layup, lost] }) });
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
