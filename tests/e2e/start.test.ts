import { type ChildProcess, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { parseProject } from "../../core/project/parse.ts";
import { smallProject } from "../cli/small-project.ts";
import { launchBrowser } from "./browser.ts";

/** Software graphics on a busy machine take their time. */
const PATIENCE = 60_000;
const root = join(import.meta.dirname, "../..");

let place: string;
let browser: Browser;
const started: ChildProcess[] = [];

beforeAll(async () => {
  place = mkdtempSync(join(tmpdir(), "ribband-start-"));
  browser = await launchBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  for (const child of started) child.kill("SIGKILL");
  rmSync(place, { recursive: true, force: true });
});

/** `npm start` on a machine without a display; resolves with the address that it prints. */
async function start(...args: string[]): Promise<{ child: ChildProcess; address: string; said(): string }> {
  const child = spawn(process.execPath, [join(root, "electron/launch/start.mjs"), ...args], {
    cwd: root,
    env: {
      ...process.env,
      RIBBAND_FOLDER: join(place, "app"),
      DISPLAY: "",
      WAYLAND_DISPLAY: "",
      INIT_CWD: place,
    },
    stdio: ["ignore", "pipe", "pipe"],
  });
  started.push(child);
  let said = "";
  return new Promise((done, fail) => {
    const hear = (text: Buffer) => {
      said += text;
      const address = /http:\S+/.exec(said)?.[0];
      if (address) done({ child, address, said: () => said });
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", hear);
    child.once("close", (code) => fail(new Error(`npm start ended with code ${code}: ${said}`)));
  });
}

async function visit(address: string): Promise<Page> {
  const page = await (await browser.newContext()).newPage();
  page.setDefaultTimeout(PATIENCE);
  await page.goto(address);
  return page;
}

async function setLength(page: Page, length: string): Promise<void> {
  const field = page.getByLabel("length", { exact: true });
  await field.fill(length);
  await field.press("Enter");
}

const kept = (): string[] =>
  readdirSync(join(place, "app/working"))
    .filter((name) => name.endsWith(".json"))
    .map((name) => readFileSync(join(place, "app/working", name), "utf8"));

function lengthIn(text: string): number {
  const parsed = parseProject(text);
  if (!parsed.ok || !("length" in parsed.project.shell.outline)) throw new Error(text.slice(0, 200));
  return parsed.project.shell.outline.length;
}

test("npm start FILE in a browser: the file saves to itself; killed, the work is offered at the next start", {
  timeout: 300_000,
}, async () => {
  mkdirSync(join(place, "app/working"), { recursive: true });
  const path = join(place, "mine.ribband.json");
  writeFileSync(path, JSON.stringify(smallProject()));

  const first = await start("mine.ribband.json");
  const lines = first.said().split("\n");
  expect(lines.filter((line) => line.includes("opens in a browser instead"))).toHaveLength(1);
  const page = await visit(first.address);
  await setLength(page, "4200 mm");
  await expect
    .poll(() => kept().map((text) => lengthIn(JSON.parse(text).text)), { timeout: PATIENCE })
    .toEqual([4200]);
  expect(lengthIn(readFileSync(path, "utf8"))).not.toBe(4200);

  await page.keyboard.press("Control+s");
  await expect.poll(() => lengthIn(readFileSync(path, "utf8")), { timeout: PATIENCE }).toBe(4200);
  await expect.poll(kept, { timeout: PATIENCE }).toEqual([]);
  const saved = readFileSync(path, "utf8");

  await setLength(page, "4300 mm");
  await expect.poll(() => kept().length, { timeout: PATIENCE }).toBe(1);
  first.child.removeAllListeners("close");
  first.child.kill("SIGKILL");
  expect(readFileSync(path, "utf8")).toBe(saved);

  const second = await start("mine.ribband.json");
  const again = await visit(second.address);
  await again.getByRole("alertdialog", { name: "There is unsaved work on mine.ribband.json" }).waitFor();
  await again.getByRole("button", { name: "Open what was saved" }).click();
  await again.locator('[data-dimension="length"]').getByText("4200 mm").waitFor();
  // It waits on the start page, too, until it is taken or thrown away.
  const third = await start();
  const atStart = await visit(third.address);
  await atStart.getByText("mine.ribband.json").first().waitFor();
  await atStart.getByRole("button", { name: "Go on with it" }).waitFor();
  await atStart.close();
  await again.reload();
  await again.getByRole("alertdialog").getByRole("button", { name: "Go on with it" }).click();
  await again.locator('[data-dimension="length"]').getByText("4300 mm").waitFor();
  await again.keyboard.press("Control+s");
  await expect.poll(() => lengthIn(readFileSync(path, "utf8")), { timeout: PATIENCE }).toBe(4300);
  second.child.removeAllListeners("close");
  second.child.kill("SIGINT");
  expect(await new Promise((done) => second.child.once("close", done))).toBe(0);
});
