import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { windows } from "./windows.ts";

const { open } = windows();

/** The rules of axe that look at colours. */
const OF_COLOURS = ["color-contrast", "link-in-text-block"];

/** What axe finds wrong, by all its rules or only some, with the first places of each. */
async function faults(page: Page, where: string, rules?: string[]): Promise<string[]> {
  // The page has no frames, so that all is done in it: the other way axe is loaded into a page of its own each time.
  const axe = new AxeBuilder({ page }).setLegacyMode();
  const { violations } = await (rules ? axe.withRules(rules) : axe).analyze();
  return violations.map(
    ({ id, help, nodes }) =>
      `${where}: ${id}: ${help}: ${nodes
        .slice(0, 3)
        .map(({ html, failureSummary }) => `${html} ${failureSummary}`)
        .join(" | ")}`,
  );
}

/** The same in both themes, which differ in their colours only. */
async function faultsOfBoth(page: Page, where: string): Promise<string[]> {
  const found: string[] = [];
  for (const [colorScheme, theme, rules] of [
    ["light", "paper", undefined],
    ["dark", "slate", OF_COLOURS],
  ] as const) {
    await page.emulateMedia({ colorScheme });
    await page.locator(`html[data-theme="${theme}"]`).waitFor();
    found.push(...(await faults(page, `${where}, ${theme}`, rules)));
  }
  return found;
}

// WCAG contrast, names and roles as axe-core reads them.
test("axe finds nothing wrong in any place, in either theme, nor while one paints", {
  timeout: 300_000,
}, async () => {
  // Without motion, no colour is looked at on its way from one theme to the other.
  const page = await open({ reducedMotion: "reduce" });
  await page.getByRole("button", { name: /^Dunlin 4/ }).waitFor();
  const found = await faultsOfBoth(page, "start");
  await page.getByRole("button", { name: /^Dunlin 4/ }).click();
  await page.locator('[data-total="glass"]').getByText("kg").waitFor();
  await page.locator('[data-figure="area"]').getByText("m²").waitFor();
  for (const place of ["Drawing office", "Cutting room", "Showroom", "Lay-up floor"]) {
    await page.getByRole("button", { name: place }).click();
    await page.waitForTimeout(300);
    found.push(...(await faultsOfBoth(page, place)));
  }

  await page.getByRole("button", { name: "House rules", exact: true }).click();
  found.push(...(await faults(page, "house rules")));
  await page.getByRole("option", { name: /^rib/ }).first().click();
  await page
    .getByRole("slider", { name: /along the wall/ })
    .first()
    .waitFor();
  found.push(...(await faults(page, "a zone with its handles")));
  await page.getByRole("button", { name: "Band", exact: true }).click();
  await page.getByRole("button", { name: /where by name/ }).click();
  await page.getByRole("listbox", { name: /^Band: where/ }).waitFor();
  await page.keyboard.press("ArrowDown");
  await page.getByRole("button", { name: "Lay it" }).waitFor();
  found.push(...(await faults(page, "places by name")));
  await page.getByRole("button", { name: "Lay up all" }).click();
  await page.getByText(/zones? comes?$|as the house rules ask for/).waitFor();
  found.push(...(await faults(page, "lay up all")));
  await page.getByRole("button", { name: "Leave it" }).click();
  await page.getByRole("button", { name: "Keys of the lay-up floor" }).click();
  await page.getByRole("dialog").waitFor();
  found.push(...(await faults(page, "keys")));
  expect(found).toEqual([]);
});

test("a notice is in the colours of the theme, and axe finds nothing wrong with it", {
  timeout: 120_000,
}, async () => {
  const page = await open({ reducedMotion: "reduce" });
  await page.getByRole("button", { name: /^Dunlin 4/ }).waitFor();
  // What nobody caught is told in a notice.
  await page.evaluate(() => dispatchEvent(new ErrorEvent("error", { error: new Error("The ink ran out.") })));
  const notice = page.locator("[data-sonner-toast]").filter({ hasText: "The ink ran out." });
  await notice.waitFor();
  expect(await faultsOfBoth(page, "a notice")).toEqual([]);
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    await page.locator(`[data-sonner-theme="${colorScheme}"]`).waitFor({ state: "attached" });
    const seen = await notice.evaluate((toast) => {
      const colourOf = (name: string) => {
        const swatch = document.body.appendChild(document.createElement("i"));
        swatch.style.color = `var(${name})`;
        const { color } = getComputedStyle(swatch);
        swatch.remove();
        return color;
      };
      const close = toast.querySelector("[data-close-button]");
      if (!close) throw new Error("The notice has no button to close it.");
      const { backgroundColor, color } = getComputedStyle(toast);
      return {
        own: [backgroundColor, color, getComputedStyle(close).backgroundColor],
        theme: ["--sheet", "--ink", "--sheet"].map(colourOf),
      };
    });
    expect(seen.own).toEqual(seen.theme);
  }
});
