import { AxeBuilder } from "@axe-core/playwright";
import { expect, test } from "vitest";
import { windows } from "./windows.ts";

const { open } = windows();

test("another size of Dunlin 4: what goes adrift is told with reason and mend before it is made, and starts unsaved", {
  timeout: 180_000,
}, async () => {
  const page = await open();
  await page.getByRole("button", { name: /^Dunlin 4/ }).click();
  await page.locator('[data-total="woven"]').getByText("m²").waitFor();

  await page.getByRole("button", { name: "Make another size" }).click();
  const sheet = page.getByRole("dialog");
  await sheet.getByText("The shallowest depth stays").waitFor();
  const depth = sheet.locator('input[name="another.depth"]');
  await depth.fill("1 m");
  await depth.press("Enter");
  // The fourth tread lies deeper than that: it is not to be seen, and what was laid on it has no place.
  await sheet.getByText(/zones are carried along, \d+ adrift/).waitFor();
  const adrift = sheet.getByRole("listitem").filter({ hasText: "tread-4" });
  expect(await adrift.count()).toBeGreaterThan(0);
  const [name, why, mend] = await adrift.first().locator("strong, span").allTextContents();
  expect(name).not.toBe("");
  expect(Math.min(why.length, mend.length)).toBeGreaterThan(10);
  const { violations } = await new AxeBuilder({ page }).include('[role="dialog"]').analyze();
  expect(violations.map(({ id, help }) => `${id}: ${help}`)).toEqual([]);

  await sheet.getByLabel("name of the new project").fill("Dunlin shallow");
  await sheet.getByRole("button", { name: "Make it" }).click();
  await page.getByRole("heading", { name: "Dunlin shallow", exact: true }).waitFor();
  await page.getByText("not saved yet").waitFor();
  await page.locator('[data-total="woven"]').getByText("m²").waitFor();
  await page.getByRole("button", { name: "Lay-up floor" }).click();
  await page
    .getByText(/adrift/)
    .first()
    .waitFor();
});
