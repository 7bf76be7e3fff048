import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { type Bridge, desktopChannels } from "../../../renderer/document/host/contract.ts";
import { launchBrowser } from "../../e2e/browser.ts";

/**
 * The desktop's host in a real browser, over a bridge that is played by the test: what the main process does with a question
 * is tested in tests/electron.
 */
let browser: Browser;
let page: Page;
let script: string;
const asked: [string, unknown][] = [];
let answer: (channel: string, question: unknown) => unknown = () => null;

beforeAll(async () => {
  browser = await launchBrowser();
  const entry = fileURLToPath(new URL("host-page.ts", import.meta.url));
  const built = await build({
    entryPoints: [entry],
    bundle: true,
    format: "iife",
    write: false,
    target: "chrome130",
  });
  script = built.outputFiles[0].text;
}, 120_000);
afterAll(() => browser?.close());

beforeEach(async () => {
  asked.length = 0;
  answer = () => undefined;
  const context = await browser.newContext();
  page = await context.newPage();
  await page.exposeFunction("toMain", (channel: string, question: unknown) => {
    asked.push([channel, question]);
    return answer(channel, question);
  });
  await page.addInitScript((channels) => {
    const at = window as unknown as {
      toMain(channel: string, question: unknown): Promise<unknown>;
      ribband: Bridge;
      say(event: string, value?: unknown): void;
    };
    const listeners = new Set<{ event: string; listener: (value: unknown) => void }>();
    const methods = channels.map((name) => [name, (question: unknown) => at.toMain(name, question)]);
    at.say = (event, value) => {
      for (const each of [...listeners]) if (each.event === event) each.listener(value);
    };
    at.ribband = {
      ...(Object.fromEntries(methods) as Omit<Bridge, "on" | "openDropped">),
      openDropped: (file) => at.toMain("openDropped", (file as File).name),
      on(event, listener) {
        const entry = { event, listener };
        listeners.add(entry);
        return () => listeners.delete(entry);
      },
    };
  }, Object.keys(desktopChannels));
  await page.route("http://ribband.example/", (route) =>
    route.fulfill({ contentType: "text/html", body: "<!doctype html>" }),
  );
  await page.goto("http://ribband.example/");
  await page.addScriptTag({ content: script });
});
afterEach(() => page.context().close());

const say = (event: string, value?: unknown) =>
  page.evaluate(
    ([event, value]) => (window as unknown as { say(e: unknown, v: unknown): void }).say(event, value),
    [event, value],
  );

const handle = `disk-${"a".repeat(32)}`;
const stamp = "b".repeat(64);
const file = { handle, name: "tern.ribband.json", text: "{}", stamp };
const saved = { kind: "saved", handle, name: "tern.ribband.json", stamp };

describe("files", () => {
  test("the one named at the start opens, and the same again when the page is loaded again", async () => {
    answer = (channel) => ({ ok: true, value: channel === "named" ? handle : file });
    const opening = () =>
      page.evaluate(async () => [(await window.host).kind, await (await window.host).opening()]);
    expect(await opening()).toEqual(["desktop", file]);
    expect(asked).toEqual([
      ["named", undefined],
      ["read", handle],
    ]);
  });

  test("a new project is saved under a name, a known one by its handle; trouble comes in words", async () => {
    answer = () => ({ ok: true, value: saved });
    const save = (handle: string | null) =>
      page.evaluate(
        async ([handle, seen]) =>
          (await window.host).save({ handle, name: "t.ribband.json", text: "{}", seen }).catch(String),
        [handle, handle && stamp] as const,
      );
    expect([await save(null), await save(handle)]).toEqual([saved, saved]);
    expect(asked).toEqual([
      ["saveAs", { name: "t.ribband.json", text: "{}" }],
      ["save", { handle, text: "{}", seen: stamp }],
    ]);
    answer = () => ({ ok: false, sentence: "The disk is full." });
    expect(await save(handle)).toBe("HostError: The disk is full.");
    answer = () => ({ ok: true, value: { kind: "saved" } });
    expect(await save(handle)).toMatch(/^HostError: Ribband's own answer is not as agreed \(handle: /);
  });

  test("one named while the app runs, or dropped on the window, arrives as a promise", async () => {
    answer = (channel) => ({ ok: true, value: channel === "named" ? handle : file });
    await page.evaluate(async () => {
      const at = window as unknown as { heard: unknown[] };
      at.heard = [];
      (await window.host).onOpenFile((opening) =>
        opening.then(
          (opened) => at.heard.push(opened.name),
          (error) => at.heard.push(String(error)),
        ),
      );
    });
    const heard = () => page.evaluate(() => (window as unknown as { heard: unknown[] }).heard);
    await say("named");
    await expect.poll(heard).toEqual(["tern.ribband.json"]);
    answer = () => ({ ok: false, sentence: "notes.md cannot be opened." });
    await page.evaluate(() => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(["x"], "notes.md"));
      document.body.dispatchEvent(new DragEvent("drop", { dataTransfer, cancelable: true, bubbles: true }));
    });
    await expect.poll(heard).toEqual(["tern.ribband.json", "HostError: notes.md cannot be opened."]);
    expect(asked.at(-1)).toEqual(["openDropped", "notes.md"]);
  });
});

test("the menu's commands reach the app", async () => {
  await page.evaluate(async () => {
    const at = window as unknown as { heard: string[] };
    at.heard = [];
    (await window.host).onCommand((command) => at.heard.push(command));
  });
  for (const command of ["save", "undo", "delete"]) await say("command", command);
  expect(await page.evaluate(() => (window as unknown as { heard: string[] }).heard)).toEqual([
    "save",
    "undo",
    "delete",
  ]);
});

describe("closing", () => {
  test("the app's answer goes back; with nobody there the window may go", async () => {
    answer = () => ({ ok: true });
    await page.evaluate(() => window.host);
    await say("closeAsked");
    await expect.poll(() => asked).toEqual([["answerClose", true]]);
    await page.evaluate(async () => {
      const at = window as unknown as { end: () => void };
      at.end = (await window.host).onCloseAsked(async () => false);
    });
    await say("closeAsked");
    await expect.poll(() => asked.at(-1)).toEqual(["answerClose", false]);
    await page.evaluate(() => (window as unknown as { end: () => void }).end());
    await say("closeAsked");
    await expect.poll(() => asked.length).toBe(3);
    expect(asked.at(-1)).toEqual(["answerClose", true]);
  });
});
