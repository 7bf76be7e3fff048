import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchBrowser } from "./browser.ts";
import { serveWindow } from "./serve-window.ts";

let served: Awaited<ReturnType<typeof serveWindow>>;
let browser: Browser;

beforeAll(async () => {
  [served, browser] = await Promise.all([serveWindow(), launchBrowser()]);
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await served?.close();
});

/** What axe finds wrong, with the first places of each. */
async function faults(page: Page, where: string): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(
    ({ id, help, nodes }) =>
      `${where}: ${id}: ${help}: ${nodes
        .slice(0, 3)
        .map(({ html, failureSummary }) => `${html} ${failureSummary}`)
        .join(" | ")}`,
  );
}

// WCAG contrast, names and roles as axe-core reads them, in every place.
test.each(["light", "dark"] as const)(
  "axe finds nothing wrong in any place, %s",
  { timeout: 180_000 },
  async (colorScheme) => {
    const context = await browser.newContext({ colorScheme, viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    page.setDefaultTimeout(60_000);
    await page.goto(served.address());
    await page.getByRole("button", { name: /^Dunlin 4/ }).waitFor();
    const found = await faults(page, "start");
    await page.getByRole("button", { name: /^Dunlin 4/ }).click();
    await page.locator('[data-figure="area"]').getByText("m²").waitFor();
    for (const place of ["Drawing office", "Lay-up floor", "Cutting room", "Showroom"]) {
      await page.getByRole("button", { name: place }).click();
      await page.waitForTimeout(300);
      found.push(...(await faults(page, place)));
    }
    expect(found).toEqual([]);
    await context.close();
  },
);
