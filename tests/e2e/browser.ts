import { existsSync } from "node:fs";
import { type Browser, chromium } from "playwright-core";

/** Where systems keep a Chromium of their own. */
const SYSTEM = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

/** WebGL in software, so that pictures are the same on every machine. */
const ARGS = [
  "--no-sandbox",
  "--use-angle=swiftshader",
  "--enable-unsafe-swiftshader",
  "--ignore-gpu-blocklist",
  "--font-render-hinting=none",
  "--force-color-profile=srgb",
];

/** A real browser: RIBBAND_BROWSER if set, the system's, or else the one that comes through the npm registry. */
export async function launchBrowser(): Promise<Browser> {
  const named = process.env.RIBBAND_BROWSER;
  const executablePath = named ?? SYSTEM.find((path) => existsSync(path)) ?? (await packedBrowser());
  return chromium.launch({ executablePath, args: ARGS });
}

async function packedBrowser(): Promise<string> {
  const { default: packed } = await import("@sparticuz/chromium");
  return packed.executablePath();
}
