import { existsSync } from "node:fs";
import { type Browser, type BrowserContext, chromium } from "playwright-core";

/** Where systems keep a Chromium of their own. */
const SYSTEM = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

/** WebGL in software, so that pictures are the same on every machine; the page about it put together without WebGL, at half the work. */
const ARGS = [
  "--no-sandbox",
  "--use-angle=swiftshader",
  "--enable-unsafe-swiftshader",
  "--ignore-gpu-blocklist",
  "--disable-gpu-compositing",
  "--font-render-hinting=none",
  "--force-color-profile=srgb",
];

/**
 * The engine's last and dearest compiler left out: each page's workers start it anew, and on two cores it took a quarter of a test's
 * time for code that is run a few times. What is timed (tests/campaign) leaves it in.
 */
const COMPILED_PLAINLY = "--js-flags=--no-turbofan";

/**
 * A real browser: RIBBAND_BROWSER if set, the system's, or else the one that comes through the npm registry. `timed`: as people have it,
 * and not made quick to start.
 */
export async function launchBrowser({ timed = false } = {}): Promise<Browser> {
  return chromium.launch({
    executablePath: await browserPath(),
    args: timed ? ARGS : [...ARGS, COMPILED_PLAINLY],
  });
}

/**
 * The same browser on a profile kept in a folder, as a person's is. Without one, the headless browser crashes when a page
 * reads a file handle back from IndexedDB (153.0.8010.0).
 */
export async function launchProfile(folder: string): Promise<BrowserContext> {
  return chromium.launchPersistentContext(folder, {
    executablePath: await browserPath(),
    args: [...ARGS, COMPILED_PLAINLY],
  });
}

async function browserPath(): Promise<string> {
  const named = process.env.RIBBAND_BROWSER;
  return named ?? SYSTEM.find((path) => existsSync(path)) ?? (await packedBrowser());
}

async function packedBrowser(): Promise<string> {
  const { default: packed } = await import("@sparticuz/chromium");
  return packed.executablePath();
}
