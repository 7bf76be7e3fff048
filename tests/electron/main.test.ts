import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, test, vi } from "vitest";
import { desktopChannels } from "../../renderer/document/host/contract.ts";
import { ownFolder } from "./own-folder.ts";
import { standIn } from "./stand-in.ts";

const argv = process.argv;
const folder = process.env.RIBBAND_FOLDER;
const signals = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
const before = new Map(signals.map((signal) => [signal, process.listeners(signal)]));

const runs: { windows: readonly { placed: boolean }[]; userData: string }[] = [];

afterEach(async () => {
  // The folder goes after the test; what is still being written into it must be there first.
  for (const { windows, userData } of runs.splice(0)) {
    if (windows.some(({ placed }) => placed))
      await vi.waitFor(() => readFileSync(join(userData, "window.json")));
  }
  process.argv = argv;
  if (folder === undefined) delete process.env.RIBBAND_FOLDER;
  for (const signal of signals) {
    for (const listener of process.listeners(signal)) {
      if (!before.get(signal)!.includes(listener)) process.off(signal, listener);
    }
  }
  vi.doUnmock("electron");
  vi.resetModules();
});

/** Runs the main script on a stand-in for Electron, as `electron . args` does. */
async function run(args: string[] = [], userData = ownFolder(), first = true) {
  const stand = standIn(userData, first);
  runs.push({ windows: stand.windows, userData });
  vi.resetModules();
  vi.doMock("electron", () => stand.electron);
  delete process.env.RIBBAND_FOLDER;
  process.argv = ["electron", ".", ...args];
  await import("../../electron/desktop/main.ts");
  if (first) await vi.waitFor(() => expect(stand.windows[0]?.shown).toBe(true));
  return { ...stand, userData, window: stand.windows[0] };
}

function project(text = "old\n", name = "tern.ribband.json") {
  const path = join(ownFolder(), name);
  writeFileSync(path, text);
  return path;
}

describe("the desktop app starts", () => {
  test("with one walled-off window on its own page, all channels, the protocol and a menu", async () => {
    const { window, windows, channels, protocols, permissions, menus } = await run();
    expect(windows).toHaveLength(1);
    expect(window.address).toBe("app://ribband/index.html");
    expect(window.options).toMatchObject({
      show: false,
      webPreferences: { contextIsolation: true, sandbox: true, webSecurity: true, nodeIntegration: false },
    });
    expect(window.options.webPreferences).toMatchObject({ preload: expect.stringMatching(/preload\.cjs$/) });
    expect([...channels.keys()].sort()).toEqual(
      Object.keys(desktopChannels)
        .map((name) => `ribband:${name}`)
        .sort(),
    );
    expect([...protocols.keys()]).toEqual(["app"]);
    expect([...permissions].sort()).toEqual(["check", "device", "request"]);
    expect(menus).toHaveLength(1);
    for (const event of ["will-navigate", "will-frame-navigate", "will-redirect", "will-attach-webview"]) {
      expect(window.webContents.listenerCount(event)).toBe(1);
    }
  });

  test("as the second of its kind it hands over and goes", async () => {
    const { app, windows } = await run([], ownFolder(), false);
    expect(app.quits).toBe(1);
    expect(windows).toEqual([]);
  });

  test("with a file it gives the page that file, once", async () => {
    const path = project();
    const { window, ask } = await run([path]);
    const named = (await ask(window, "named")) as { value: string };
    expect(await ask(window, "read", named.value)).toMatchObject({ ok: true, value: { text: "old\n" } });
    expect(await ask(window, "named")).toEqual({ ok: true, value: null });
  });

  test("only the window's own frame is answered", async () => {
    const { window, channels } = await run([project()]);
    const listener = channels.get("ribband:named")!;
    expect(
      await listener({ senderFrame: { ...window.webContents.mainFrame, frameToken: "B4" } }),
    ).toMatchObject({
      ok: false,
    });
    expect(await listener({ senderFrame: null })).toMatchObject({ ok: false });
  });
});

describe("a file from outside", () => {
  test.each<[string, (app: { emit(event: string, ...args: unknown[]): boolean }, path: string) => void]>([
    ["by a second start", (app, path) => app.emit("second-instance", {}, ["electron", ".", path], "/")],
    ["by the file manager (macOS)", (app, path) => app.emit("open-file", { preventDefault() {} }, path)],
  ])("comes to the open window: %s", async (_, come) => {
    const path = project();
    const { app, window, windows, ask } = await run();
    window.minimised = true;
    come(app, path);
    expect(window.webContents.sent).toEqual([["ribband:named", undefined]]);
    expect([window.minimised, window.focused]).toEqual([false, 1]);
    const { value } = (await ask(window, "named")) as { value: string };
    expect(await ask(window, "read", value)).toMatchObject({ value: { name: "tern.ribband.json" } });
    expect(windows).toHaveLength(1);
  });

  test("and to one window, when it comes while that opens", async () => {
    const { app, window, windows } = await run();
    window.close();
    app.emit("activate");
    app.emit("open-file", { preventDefault() {} }, project());
    app.emit("activate");
    await vi.waitFor(() => expect(windows[1]?.shown).toBe(true));
    await new Promise((done) => setTimeout(done, 50));
    expect(windows).toHaveLength(2);
  });

  test("a second start without one only brings the window to the front", async () => {
    const { app, window } = await run();
    app.emit("second-instance", {}, ["electron", "."], "/");
    expect([window.focused, window.webContents.sent]).toEqual([1, []]);
  });
});

describe("the menu", () => {
  test("sends its commands to the page", async () => {
    const { window, choose } = await run();
    choose("save");
    await vi.waitFor(() => expect(window.webContents.sent).toEqual([["ribband:command", "save"]]));
  });

  test("lists the recent files once the page has another title, and opens them", async () => {
    const path = project();
    const { app, window, ask, menus, choose } = await run([path]);
    const { value } = (await ask(window, "named")) as { value: string };
    await ask(window, "read", value);
    await ask(window, "setTitle", { name: "tern", changed: false });
    await vi.waitFor(() => expect(menus.length).toBe(2));
    expect(app.documents).toEqual([path]);
    choose("tern.ribband.json");
    await vi.waitFor(() => expect(window.webContents.sent).toEqual([["ribband:named", undefined]]));
  });
});

describe("closing", () => {
  test("at once when nothing is unsaved; the next window opens where this one stood", async () => {
    const { app, window, userData } = await run();
    window.maximised = true;
    window.close();
    expect(window.gone).toBe(true);
    const place = join(userData, "window.json");
    await vi.waitFor(() =>
      expect(JSON.parse(readFileSync(place, "utf8"))).toMatchObject({ x: 10, maximised: true }),
    );
    app.emit("window-all-closed");
    const next = await run([], userData);
    expect(next.window.options).toMatchObject({ x: 10, y: 40, width: 1000, height: 700 });
    expect(next.window.maximised).toBe(true);
  });

  test("on unsaved work the page is asked, and stays or goes as it answers", async () => {
    const { window, ask } = await run();
    await ask(window, "setTitle", { name: "Tern", changed: true });
    expect([window.title, window.edited]).toEqual(["• Tern – Ribband", true]);
    window.close();
    expect(window.webContents.sent).toEqual([["ribband:closeAsked", undefined]]);
    expect(window.gone).toBe(false);
    await ask(window, "answerClose", false);
    expect(window.gone).toBe(false);
    window.close();
    await ask(window, "answerClose", true);
    expect(window.gone).toBe(true);
  });

  test("the next window of the same run asks again (macOS keeps the app without one)", async () => {
    const { app, window, windows, ask } = await run();
    await ask(window, "setTitle", { name: "Tern", changed: true });
    window.close();
    await ask(window, "answerClose", true);
    app.emit("activate");
    await vi.waitFor(() => expect(windows[1]?.shown).toBe(true));
    windows[1].close();
    expect(windows[1].gone).toBe(true);
    app.emit("activate");
    await vi.waitFor(() => expect(windows[2]?.shown).toBe(true));
    await ask(windows[2], "setTitle", { name: "Tern", changed: true });
    windows[2].close();
    expect(windows[2].gone).toBe(false);
  });

  test("quitting asks as well", async () => {
    const { app, window, ask } = await run();
    await ask(window, "setTitle", { name: "Tern", changed: true });
    app.quit();
    expect(window.gone).toBe(false);
    await ask(window, "answerClose", true);
    expect(window.gone).toBe(true);
  });

  test("a page that hangs can be waited for or closed", async () => {
    const { window, messages, answerNext } = await run();
    window.emit("unresponsive");
    await vi.waitFor(() => expect(messages).toHaveLength(1));
    expect(window.gone).toBe(false);
    answerNext(messages[0].buttons.indexOf("Close"));
    window.emit("unresponsive");
    await vi.waitFor(() => expect(window.gone).toBe(true));
  });

  test("a page that crashed is loaded again, or closed without being asked", async () => {
    const { window, ask, messages, answerNext } = await run();
    await ask(window, "setTitle", { name: "Tern", changed: true });
    answerNext(0);
    window.webContents.emit("render-process-gone", {}, { reason: "crashed" });
    await vi.waitFor(() => expect(window.webContents.reloads).toBe(1));
    expect(messages[0].message).toContain("has failed");
    window.close();
    expect(window.gone).toBe(true);
  });
});
