/**
 * `npm run shots`: opens the app in a browser with the demo projects and takes the pictures of README, as files in assets/pictures.
 * Drawn in software with the fonts that the app brings, so that the same app gives the same pictures.
 */
import { mkdirSync, statSync } from "node:fs";
import { join } from "node:path";
import type { BrowserContextOptions, Page } from "playwright-core";
import sharp from "sharp";
import { launchBrowser } from "../browser.ts";
import { serveWindow } from "../serve-window.ts";

const folder = join(import.meta.dirname, "../../../assets/pictures");
/** README is fetched whole. */
const LARGEST_BYTES = 250_000;
const PATIENCE_MS = 120_000;

interface Shot {
  readonly name: string;
  readonly demo: string;
  readonly dark?: boolean;
  /** What is done to the open project, until the picture is as it should be. */
  arrange(page: Page): Promise<void>;
}

const goTo = (page: Page, room: string) => page.getByRole("button", { name: room, exact: true }).click();

const shots: readonly Shot[] = [
  {
    name: "drawing-office",
    demo: "Whimbrel 9",
    arrange: (page) => goTo(page, "Drawing office"),
  },
  {
    name: "lay-up-floor",
    demo: "Whimbrel 9",
    async arrange(page) {
      await goTo(page, "Lay-up floor");
      await page.getByRole("listbox", { name: "All zones" }).getByText("foot", { exact: true }).click();
    },
  },
  {
    name: "lay-up-floor-slate",
    demo: "Turnstone 7",
    dark: true,
    arrange: (page) => goTo(page, "Lay-up floor"),
  },
  {
    name: "cutting-room",
    demo: "Gannet 11",
    async arrange(page) {
      await goTo(page, "Cutting room");
      await page.getByLabel("shells in the lot").fill("6");
      await page.getByLabel("shells in the lot").press("Enter");
      await page.locator('[role="row"]:has([data-column])').nth(2).click();
    },
  },
  {
    name: "showroom",
    demo: "Whimbrel 9",
    async arrange(page) {
      await goTo(page, "Showroom");
      for (const kind of ["Woven bands", "Ribs"]) await page.locator("label", { hasText: kind }).click();
    },
  },
];

async function take(page: Page, { name, demo, arrange }: Shot, address: string): Promise<string> {
  await page.goto(address);
  await page.getByRole("button", { name: new RegExp(`^${demo}`) }).click();
  // The measures come last, and with them the finest mesh.
  await page.locator('[data-figure="area"]').getByText("m²").waitFor();
  await page.locator('[data-total="woven"]').getByText("m²").waitFor();
  await arrange(page);
  await page.mouse.move(0, 0);
  const path = join(folder, `${name}.png`);
  for (let before: Buffer = Buffer.alloc(0), tries = 0; ; tries++) {
    await page.waitForTimeout(500);
    const now = await page.screenshot({ animations: "disabled", caret: "hide" });
    if (now.equals(before)) {
      // Paper and ink are few colours: a palette of 256 holds them.
      await sharp(now).png({ palette: true, colours: 256, effort: 10, compressionLevel: 9 }).toFile(path);
      return path;
    }
    if (tries === 40) throw new Error(`${name} does not come to rest.`);
    before = now;
  }
}

mkdirSync(folder, { recursive: true });
const [served, browser] = await Promise.all([serveWindow(), launchBrowser()]);
try {
  for (const shot of shots) {
    const options: BrowserContextOptions = {
      viewport: { width: 1280, height: 800 },
      colorScheme: shot.dark ? "dark" : "light",
      reducedMotion: "reduce",
    };
    const context = await browser.newContext(options);
    const page = await context.newPage();
    page.setDefaultTimeout(PATIENCE_MS);
    const path = await take(page, shot, served.address());
    await context.close();
    const { size } = statSync(path);
    console.log(`${shot.name}: ${Math.round(size / 1000)} kB`);
    if (size > LARGEST_BYTES) throw new Error(`${path} has ${size} bytes; ${LARGEST_BYTES} are enough.`);
  }
} finally {
  await browser.close();
  await served.close();
}
