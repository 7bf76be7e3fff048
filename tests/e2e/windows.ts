import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect } from "vitest";
import { makeKit } from "../../core/cutting/make-kit.ts";
import type { Project } from "../../core/project/schema.ts";
import { totalsOf } from "../../renderer/frame/totals.ts";
import { launchBrowser } from "./browser.ts";
import { type Served, serveWindow } from "./serve-window.ts";

/** Long enough for a full result on a busy machine of two cores with graphics in software, ms. */
export const PATIENCE = 60_000;

export interface Windows {
  /** As `Served.address`. */
  address(file?: string): string;
  /**
   * A window of its own, 1440 × 900 unless told otherwise, at a fresh address or the one given. `prepare` is run on the page before
   * it goes there. The test fails if the page throws or complains on its console. A window opened in a test is closed after it; one
   * opened in `beforeAll` serves all tests of the file, since every opening costs seconds of working out the shell anew.
   */
  open(options?: BrowserContextOptions & { address?: string; prepare?: () => void }): Promise<Page>;
}

/** Serves the app and starts a browser for the tests of one file. Call it once, at the top of the file. */
export function windows(): Windows {
  let served: Served;
  let browser: Browser;
  const own: Page[] = [];
  let inTest = false;
  const complaints: string[] = [];
  beforeAll(async () => {
    [served, browser] = await Promise.all([serveWindow(), launchBrowser()]);
  }, 120_000);
  beforeEach(() => {
    inTest = true;
  });
  afterEach(async () => {
    inTest = false;
    for (const page of own.splice(0)) await page.context().close();
    expect(complaints.splice(0)).toEqual([]);
  });
  afterAll(async () => {
    await browser?.close();
    await served?.close();
  });
  return {
    address: (file) => served.address(file),
    async open({ address = served.address(), prepare, ...options } = {}) {
      const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
      const page = await context.newPage();
      if (inTest) own.push(page);
      page.setDefaultTimeout(PATIENCE);
      page.on("pageerror", (error) => complaints.push(error.message));
      page.on("console", (message) => {
        // A browser without a graphics card warns of that; what three or React warn of is ours.
        const ours = message.type() === "warning" && /THREE|React/.test(message.text());
        if (message.type() === "error" || ours) complaints.push(message.text());
      });
      if (prepare) await page.addInitScript(prepare);
      await page.goto(address);
      return page;
    },
  };
}

/** Waits until the window shows on top the totals that core, and so the command line, comes to for a project. */
export async function expectTotals(page: Page, project: Project): Promise<void> {
  const made = makeKit(project, 1);
  if (!made.ok) throw new Error("The project cannot be built.");
  for (const [key, text] of Object.entries(totalsOf(made.kit, "mm")))
    await page.locator(`[data-total="${key}"]`).getByText(text, { exact: true }).waitFor();
}
