import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect } from "vitest";
import type { Kit } from "../../core/cutting/kit.ts";
import type { Project } from "../../core/project/schema.ts";
import { totalsOf } from "../../renderer/frame/totals.ts";
import { launchBrowser } from "./browser.ts";
import { type Served, serveWindow } from "./serve-window.ts";

/** Long enough for a full result on a busy machine of two cores with graphics in software, ms. */
export const PATIENCE = 60_000;

export interface Windows {
  /** As `Served.address`. */
  address(file?: string): string;
  /** The same for a project, from a file of its own. */
  addressOf(project: Project): string;
  /**
   * A window of its own, 1152 × 720 unless told otherwise (without a graphics card time goes by pixels), at a fresh address or the one
   * given. `prepare` is run on the page before it goes there. The test fails if the page throws or complains on its console. A window
   * opened in a test is closed after it; one opened in `beforeAll` serves all tests of the file, since every opening costs seconds of
   * working out the shell anew.
   */
  open(options?: BrowserContextOptions & { address?: string; prepare?: () => void }): Promise<Page>;
}

/** Serves the app and starts a browser, as `launchBrowser` does, for the tests of one file. Call it once, at the top of the file. */
export function windows({ timed = false } = {}): Windows {
  let served: Served;
  let browser: Browser;
  const own: Page[] = [];
  const place = mkdtempSync(join(tmpdir(), "ribband-windows-"));
  let inTest = false;
  const complaints: string[] = [];
  beforeAll(async () => {
    [served, browser] = await Promise.all([serveWindow(), launchBrowser({ timed })]);
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
    rmSync(place, { recursive: true, force: true });
  });
  return {
    address: (file) => served.address(file),
    addressOf(project) {
      const file = join(mkdtempSync(join(place, "of-")), "own.ribband.json");
      writeFileSync(file, JSON.stringify(project));
      return served.address(file);
    },
    async open({ address = served.address(), prepare, ...options } = {}) {
      const context = await browser.newContext({ viewport: { width: 1152, height: 720 }, ...options });
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

/** Waits until the window shows on top the totals of a kit that core, and so the command line, cuts. */
export async function expectTotals(page: Page, kit: Kit): Promise<void> {
  for (const [key, text] of Object.entries(totalsOf(kit, "mm")))
    await page.locator(`[data-total="${key}"]`).getByText(text, { exact: true }).waitFor();
}
