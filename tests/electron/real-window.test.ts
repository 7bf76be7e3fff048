import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { _electron as electron } from "playwright-core";
import { expect, test } from "vitest";
import { buildApp } from "../../electron/launch/build.mjs";
import { electronBinary, whyNoWindow } from "../../electron/launch/window.mjs";
import type { Bridge } from "../../renderer/document/host/contract.ts";
import { ownFolder } from "./own-folder.ts";

const root = join(import.meta.dirname, "../..");
const binary = electronBinary(root, process.env);
const missing = binary ? whyNoWindow(process.platform, process.env) : "Electron's binary is not there";

test(`the real desktop window${missing ? ` (not run: ${missing})` : ""}`, { timeout: 180_000 }, async ({
  skip,
}) => {
  if (missing) return skip(missing);
  await buildApp(root);
  const home = ownFolder();
  const path = join(ownFolder(), "whimbrel.ribband.json");
  writeFileSync(path, readFileSync(join(root, "assets/demo/whimbrel-9.ribband.json")));
  const start = async () => {
    // Chromium's own sandbox refuses to run for root; the page's walls below do not depend on it.
    const asRoot = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
    const app = await electron.launch({
      executablePath: binary,
      args: [...asRoot, root, path],
      env: { ...(process.env as Record<string, string>), RIBBAND_FOLDER: home },
    });
    return { app, page: await app.firstWindow() };
  };
  type Lent = { ribband: Bridge };

  const { app, page } = await start();
  expect(page.url()).toBe("app://ribband/index.html");
  expect(await page.evaluate(() => [typeof globalThis.require, typeof globalThis.process])).toEqual([
    "undefined",
    "undefined",
  ]);
  const text = readFileSync(path, "utf8");
  const named = await page.evaluate(async () => {
    const { ribband } = globalThis as unknown as Lent;
    const recent = (await ribband.recent()) as { value: { handle: string; name: string }[] };
    return (await ribband.read(recent.value[0].handle)) as { ok: boolean; value: { text: string } };
  });
  expect(named).toMatchObject({ ok: true, value: { name: "whimbrel.ribband.json", text } });
  expect(
    await page.evaluate(() => (globalThis as unknown as Lent).ribband.read("/etc/passwd")),
  ).toMatchObject({
    ok: false,
  });
  expect(
    await page.evaluate(() => fetch("app://ribband/..%2f..%2fpackage.json").then(({ status }) => status)),
  ).toBe(404);
  await page.evaluate(() => {
    location.href = "https://example.org/";
  });
  expect(page.url()).toBe("app://ribband/index.html");

  const state = {
    id: "11111111-2222-4333-8444-555555555555",
    name: "whimbrel",
    handle: null,
    savedAt: "2031-05-06T07:08:09.000Z",
    text: "not saved",
    stamp: null,
  };
  await page.evaluate((state) => (globalThis as unknown as Lent).ribband.putWorking(state), state);
  app.process().kill("SIGKILL");
  const again = await start();
  expect(await again.page.evaluate(() => (globalThis as unknown as Lent).ribband.listWorking())).toEqual({
    ok: true,
    value: [state],
  });
  await again.app.close();
});
