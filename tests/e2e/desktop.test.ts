import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { parseProject } from "../../core/project/parse.ts";
import { answering } from "../../electron/channels/answer.ts";
import { machine } from "../../electron/channels/machine.ts";
import { desktopHandlers } from "../../electron/desktop/desktop-handlers.ts";
import { desktopChannels, type MenuCommand } from "../../renderer/document/host/contract.ts";
import { smallProject } from "../cli/small-project.ts";
import { launchBrowser } from "./browser.ts";
import { type Served, serveWindow } from "./serve-window.ts";

/** Software graphics on a busy machine take their time. */
const PATIENCE = 60_000;
const root = join(import.meta.dirname, "../..");

let browser: Browser;
let served: Served;
let place: string;

beforeAll(async () => {
  place = mkdtempSync(join(tmpdir(), "ribband-desktop-"));
  [served, browser] = await Promise.all([serveWindow(), launchBrowser()]);
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await served?.close();
  rmSync(place, { recursive: true, force: true });
});

/**
 * The desktop app without Electron: the real window in a browser, the real bridge of the preload script in it, the real
 * handlers of the main process here; only what Electron itself does between them is played.
 */
async function desktop(named: string) {
  const told = { chosen: "", title: "", closed: [] as boolean[] };
  const handlers = desktopHandlers(
    machine(join(place, "app")),
    { open: async () => told.chosen, save: async () => told.chosen },
    {
      setTitle({ name, changed }) {
        told.title = `${changed ? "• " : ""}${name}`;
      },
      answerClose: (mayClose) => void told.closed.push(mayClose),
    },
    () => {
      const path = named;
      named = "";
      return path || undefined;
    },
  );
  const faults: unknown[] = [];
  const answer = answering(desktopChannels, handlers, (error) => faults.push(error));

  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  page.setDefaultTimeout(PATIENCE);
  page.on("pageerror", (error) => faults.push(error));
  await page.exposeFunction("toMain", (channel: string, question: unknown) =>
    answer(channel.replace("ribband:", ""), question ?? undefined),
  );
  const preload = await build({
    stdin: {
      contents: `
        import { bridge } from "./electron/desktop/bridge.ts";
        const heard = new Map();
        window.say = (channel, value) => { for (const listener of heard.get(channel) ?? []) listener({}, value); };
        window.ribband = bridge({
          invoke: (channel, question) => window.toMain(channel, question),
          on: (channel, listener) => heard.set(channel, (heard.get(channel) ?? new Set()).add(listener)),
          off: (channel, listener) => heard.get(channel)?.delete(listener),
        }, () => "");`,
      resolveDir: root,
    },
    bundle: true,
    format: "iife",
    write: false,
  });
  await page.addInitScript(preload.outputFiles[0].text);
  await page.goto(served.address());
  const say = (event: string, value?: MenuCommand) =>
    page.evaluate(
      ([channel, value]) => (window as unknown as { say(c: unknown, v: unknown): void }).say(channel, value),
      [`ribband:${event}`, value] as const,
    );
  return { page, say, told, faults };
}

async function setLength(page: Page, length: string): Promise<void> {
  const field = page.getByLabel("length", { exact: true });
  await field.fill(length);
  await field.press("Enter");
}

function lengthIn(path: string): number {
  const parsed = parseProject(readFileSync(path, "utf8"));
  if (!parsed.ok || !("length" in parsed.project.shell.outline))
    throw new Error(`${path} is no such project`);
  return parsed.project.shell.outline.length;
}

test("a file named at the start: changed, saved, saved elsewhere by the menu, asked about when the window closes", {
  timeout: 300_000,
}, async () => {
  const mine = join(place, "mine.ribband.json");
  const other = join(place, "other.ribband.json");
  writeFileSync(mine, JSON.stringify(smallProject()));
  const { page, say, told, faults } = await desktop(mine);
  const before = lengthIn(mine);

  await setLength(page, "4200 mm");
  await expect.poll(() => told.title, { timeout: PATIENCE }).toMatch(/^• /);
  await say("command", "save");
  await expect.poll(() => lengthIn(mine), { timeout: PATIENCE }).toBe(4200);
  await expect.poll(() => told.title, { timeout: PATIENCE }).not.toMatch(/^• /);

  // While a text is typed, undo is the text's; afterwards it is the project's.
  const field = page.getByLabel("length", { exact: true });
  await field.focus();
  await page.keyboard.type("1");
  const typed = await field.inputValue();
  await say("command", "undo");
  expect(await field.inputValue()).not.toBe(typed);
  await field.press("Escape");
  await page.locator('[data-dimension="length"]').getByText("4200 mm").waitFor();
  await say("command", "undo");
  await page.locator('[data-dimension="length"]').getByText(`${before} mm`).waitFor();
  told.chosen = other;
  await say("command", "save-as");
  await expect.poll(() => existsSync(other), { timeout: PATIENCE }).toBe(true);
  await expect.poll(() => told.title, { timeout: PATIENCE }).not.toMatch(/^• /);
  expect([lengthIn(mine), lengthIn(other)]).toEqual([4200, before]);

  await say("closeAsked");
  await expect.poll(() => told.closed).toEqual([true]);
  await setLength(page, "4300 mm");
  await expect.poll(() => told.title, { timeout: PATIENCE }).toMatch(/^• /);
  await say("closeAsked");
  await page.getByRole("alertdialog").getByRole("button", { name: "Stay here" }).click();
  await expect.poll(() => told.closed).toEqual([true, false]);
  await say("closeAsked");
  await page.getByRole("alertdialog").getByRole("button", { name: "Save" }).click();
  await expect.poll(() => told.closed, { timeout: PATIENCE }).toEqual([true, false, true]);
  expect(lengthIn(other)).toBe(4300);

  told.chosen = mine;
  await say("command", "open");
  await page.locator('[data-dimension="length"]').getByText("4200 mm").waitFor();
  expect(faults).toEqual([]);
});
