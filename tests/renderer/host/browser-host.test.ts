import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { machine } from "../../../electron/channels/machine.ts";
import { serve } from "../../../electron/loopback/server.ts";
import { launchBrowser, launchProfile } from "../../e2e/browser.ts";
import { ownFolder } from "../../electron/own-folder.ts";

let browser: Browser;
let script: string;
const ends: (() => Promise<unknown>)[] = [];

beforeAll(async () => {
  browser = await launchBrowser();
  const entry = join(import.meta.dirname, "host-page.ts");
  const built = await build({
    entryPoints: [entry],
    bundle: true,
    format: "esm",
    write: false,
    target: "chrome130",
  });
  script = built.outputFiles[0].text;
}, 120_000);
afterAll(() => browser?.close());
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

/** The loopback server over one project file, and a browser that has never been there. */
async function serving(home = ownFolder(), port = 0) {
  const folder = ownFolder();
  writeFileSync(
    join(folder, "index.html"),
    '<!doctype html><title>-</title><script type="module" src="main.js"></script>',
  );
  writeFileSync(join(folder, "main.js"), script);
  const path = join(ownFolder(), "tern.ribband.json");
  writeFileSync(path, "old\n");
  const server = await serve({
    page: folder,
    machine: machine(home),
    port,
    report: (error) => faults.push(error),
  });
  ends.push(() => server.close());
  return { server, path, home, bare: `http://127.0.0.1:${server.port}/` };
}
const faults: unknown[] = [];

async function profile(): Promise<BrowserContext> {
  const context = await browser.newContext();
  ends.push(() => context.close());
  return context;
}

/** A browser as a person has it, with a folder of its own: it can keep the files that were picked in it. */
async function keptProfile(): Promise<BrowserContext> {
  const context = await launchProfile(ownFolder());
  ends.push(() => context.close());
  return context;
}

/** A page whose console stays empty: the security policy stops nothing that the host needs. */
async function visit(context: BrowserContext, address: string, before?: () => void): Promise<Page> {
  const page = await context.newPage();
  page.on("console", (message) => faults.push(message.text()));
  page.on("pageerror", (error) => faults.push(error));
  if (before) await page.addInitScript(before);
  await page.goto(address);
  return page;
}
afterEach(() => {
  expect(faults.splice(0)).toEqual([]);
});

const opening = (page: Page) => page.evaluate(async () => (await window.host).opening());
const open = (page: Page) => page.evaluate(async () => (await window.host).open());
const list = (page: Page) => page.evaluate(async () => (await window.host).autosave.list());
const save = (page: Page, handle: string | null, text: string, seen: string | null) =>
  page.evaluate(async (file) => (await window.host).save({ name: "tern.ribband.json", ...file }), {
    handle,
    text,
    seen,
  });
const put = (page: Page, text: string) =>
  page.evaluate(async (text) => {
    const savedAt = "2031-05-06T07:08:09.000Z";
    const id = crypto.randomUUID();
    await (await window.host).autosave.put({ id, name: "Tern", handle: null, savedAt, text, stamp: null });
    return id;
  }, text);

/** Picks in the place of the person: a true file handle, of a file in the browser's own folder. */
const picksFile = () => {
  const file = async () => {
    const folder = await navigator.storage.getDirectory();
    return folder.getFileHandle("picked.ribband.json", { create: true });
  };
  window.showOpenFilePicker = async () => [await file()];
  window.showSaveFilePicker = file;
};
const writePicked = (page: Page, text: string) =>
  page.evaluate(async (text) => {
    const folder = await navigator.storage.getDirectory();
    const file = await folder.getFileHandle("picked.ribband.json", { create: true });
    const writable = await file.createWritable();
    await writable.write(text);
    await writable.close();
  }, text);
const readPicked = (page: Page) =>
  page.evaluate(async () => {
    const folder = await navigator.storage.getDirectory();
    return (await (await folder.getFileHandle("picked.ribband.json")).getFile()).text();
  });

const withoutPickers = () => {
  window.showOpenFilePicker = undefined;
  window.showSaveFilePicker = undefined;
};

describe("the file named at npm start", () => {
  test("opens, saves back to itself, and opens again when the page is loaded again", async () => {
    const { server, path } = await serving();
    const page = await visit(await profile(), server.address(path));
    const opened = await opening(page);
    expect(opened).toMatchObject({ name: "tern.ribband.json", text: "old\n" });
    expect(await save(page, opened!.handle, "new – ½\n", opened!.stamp)).toMatchObject({ kind: "saved" });
    expect(readFileSync(path, "utf8")).toBe("new – ½\n");
    expect(new URL(page.url()).hash).toBe("");
    await page.reload();
    expect(await opening(page)).toMatchObject({ handle: opened!.handle, text: "new – ½\n" });
    expect(await page.evaluate(async () => (await window.host).kind)).toBe("browser");
  });

  test("opens in a tab that had another one before, and then that one opens again", async () => {
    const { server, path } = await serving();
    const other = join(ownFolder(), "plover.ribband.json");
    writeFileSync(other, "plover\n");
    const page = await visit(await profile(), server.address(path));
    await opening(page);
    await page.goto("about:blank");
    await page.goto(server.address(other));
    expect(await opening(page)).toMatchObject({ name: "plover.ribband.json" });
    await page.reload();
    expect(await opening(page)).toMatchObject({ name: "plover.ribband.json" });
    await page.evaluate(async () => (await window.host).forgetOpen());
    await page.reload();
    expect(await opening(page)).toBeNull();
  });

  test("a change on disk is told, and overwritten when asked for", async () => {
    const { server, path } = await serving();
    const page = await visit(await profile(), server.address(path));
    const opened = await opening(page);
    writeFileSync(path, "theirs\n");
    const asked = await save(page, opened!.handle, "mine\n", opened!.stamp);
    expect(asked.kind).toBe("changed-on-disk");
    if (asked.kind !== "changed-on-disk") return;
    expect(await save(page, opened!.handle, "mine\n", asked.stamp)).toMatchObject({ kind: "saved" });
    expect(readFileSync(path, "utf8")).toBe("mine\n");
  });
});

describe("coming in", () => {
  const refusal = (page: Page) =>
    page.evaluate(() =>
      window.host.then(
        () => "let in",
        (error: Error) => `${error.name}: ${error.message}`,
      ),
    );

  test("an address works once; the browser that used it comes back without", async () => {
    const { server, path, bare } = await serving();
    const address = server.address(path);
    const context = await profile();
    await opening(await visit(context, address));
    // That browser is let in all the same, and told why the file does not open.
    const second = await visit(context, address);
    expect(await refusal(second)).toBe("let in");
    const used =
      "HostError: This address was used before. Run `npm start` again and use the address that it gives.";
    expect(await opening(second).catch((error: Error) => error.message)).toContain(used);
    const again = await visit(context, bare);
    expect(
      await again.evaluate(async () => (await (await window.host).recent()).map(({ name }) => name)),
    ).toEqual(["tern.ribband.json"]);
    expect(await refusal(await visit(await profile(), address))).toBe(used);
  });

  test("a page of an earlier run is told so, and so is one whose server has ended", async () => {
    const { server, path, home } = await serving();
    const page = await visit(await profile(), server.address(path));
    const opened = await opening(page);
    const again = () =>
      save(page, opened!.handle, "x", opened!.stamp).then(
        () => "saved",
        (error: Error) => error.message,
      );
    await server.close();
    expect(await again()).toContain("Ribband's server has ended.");
    await serving(home, server.port);
    expect(await again()).toContain("Ribband was started anew since.");
    // The browser itself notes the refused connection and the 401 in its console.
    expect(faults.splice(0)).toHaveLength(2);
    expect(readFileSync(path, "utf8")).toBe("old\n");
  });
});

describe("files picked in a browser that can write back", () => {
  test("open, save, open again from the list of recent files in another page", async () => {
    const { server } = await serving();
    const context = await keptProfile();
    const page = await visit(context, server.address(null), picksFile);
    await writePicked(page, "old\n");
    const opened = await open(page);
    expect(opened).toMatchObject({ name: "picked.ribband.json", text: "old\n" });
    expect(opened!.handle).toMatch(/^picked-/);
    const saved = await save(page, opened!.handle, "new\n", opened!.stamp);
    expect(saved).toMatchObject({ kind: "saved", handle: opened!.handle });
    expect(await readPicked(page)).toBe("new\n");
    expect(await open(page)).toMatchObject({ handle: opened!.handle });
    await page.reload();
    expect(await opening(page)).toMatchObject({ handle: opened!.handle, text: "new\n" });

    const other = await visit(context, server.address(null), picksFile);
    const recent = await other.evaluate(async () => (await window.host).recent());
    expect(recent).toEqual([{ handle: opened!.handle, name: "picked.ribband.json", folder: "" }]);
    const reopened = await other.evaluate(
      async (handle) => (await window.host).openRecent(handle),
      recent[0].handle,
    );
    expect(reopened.text).toBe("new\n");
  });

  test("a change by somebody else is told; a new project asks where", async () => {
    const { server } = await serving();
    const page = await visit(await keptProfile(), server.address(null), picksFile);
    await writePicked(page, "old\n");
    const opened = await open(page);
    await writePicked(page, "theirs\n");
    const asked = await save(page, opened!.handle, "mine\n", opened!.stamp);
    expect(asked.kind).toBe("changed-on-disk");
    expect(await readPicked(page)).toBe("theirs\n");
    expect(await save(page, null, "mine\n", null)).toMatchObject({ kind: "saved", handle: opened!.handle });
    expect(await readPicked(page)).toBe("mine\n");
  });

  test("dismissing the browser's dialog is no trouble", async () => {
    const { server } = await serving();
    const page = await visit(await profile(), server.address(null), () => {
      const dismiss = async () => {
        throw new DOMException("dismissed", "AbortError");
      };
      window.showOpenFilePicker = dismiss;
      window.showSaveFilePicker = dismiss;
    });
    expect(await open(page)).toBeNull();
    expect(await save(page, null, "x", null)).toEqual({ kind: "dismissed" });
  });
});

describe("a browser that cannot write back", () => {
  test("reads an upload and saves as a download", async () => {
    const { server } = await serving();
    const page = await visit(await profile(), server.address(null), withoutPickers);
    const chooser = page.waitForEvent("filechooser");
    const opened = open(page);
    await (await chooser).setFiles({
      name: "up.ribband.json",
      mimeType: "application/json",
      buffer: Buffer.from("up ½"),
    });
    expect(await opened).toMatchObject({ handle: null, name: "up.ribband.json", text: "up ½" });
    const download = page.waitForEvent("download");
    const saved = save(page, null, "down ½", (await opened)!.stamp);
    expect(readFileSync(await (await download).path(), "utf8")).toBe("down ½");
    expect((await download).suggestedFilename()).toBe("tern.ribband.json");
    expect(await saved).toMatchObject({ kind: "saved", handle: null });
  });

  test("results are downloads, byte for byte", async () => {
    const { server } = await serving();
    const page = await visit(await profile(), server.address(null));
    const download = page.waitForEvent("download");
    const done = page.evaluate(async () =>
      (await window.host).export({ name: "a.png", bytes: new Uint8Array([0, 255, 10]), type: "image/png" }),
    );
    expect([...readFileSync(await (await download).path())]).toEqual([0, 255, 10]);
    expect(await done).toBe(true);
  });
});

describe("work between two saves", () => {
  test("is offered once its page is gone, and not while it lives", async () => {
    const { server, home } = await serving();
    const context = await profile();
    const page = await visit(context, server.address(null));
    const id = await put(page, "half a pool");
    expect(await list(page)).toEqual([]);
    const other = await visit(context, server.address(null));
    expect(await list(other)).toEqual([]);
    await page.close();
    await expect.poll(() => list(other)).toMatchObject([{ id, text: "half a pool" }]);
    // It lies on the machine's disk, so the next server and another browser offer it too.
    await server.close();
    const next = await serving(home);
    const elsewhere = await visit(await profile(), next.server.address(null));
    expect(await list(elsewhere)).toMatchObject([{ id, text: "half a pool" }]);
    await elsewhere.evaluate(async (id) => (await window.host).autosave.drop(id), id);
    expect(await list(elsewhere)).toEqual([]);
  });

  test("is offered to the same page when it is loaded again", async () => {
    const { server } = await serving();
    const page = await visit(await profile(), server.address(null));
    const id = await put(page, "half a pool");
    await page.reload();
    await expect.poll(() => list(page)).toMatchObject([{ id }]);
  });
});

describe("a page with no machine behind it", () => {
  test("keeps work, settings and picked files in the browser", async () => {
    const { bare } = await serving();
    const page = await visit(await keptProfile(), bare, picksFile);
    expect(await opening(page)).toBeNull();
    await writePicked(page, "old\n");
    const opened = await open(page);
    expect(await save(page, opened!.handle, "new\n", opened!.stamp)).toMatchObject({ kind: "saved" });
    const id = await put(page, "half a pool");
    await page.evaluate(async () =>
      (await window.host).settings.set({ lengths: "ft-in", theme: "slate", panels: { side: [30, 70] } }),
    );
    await page.reload();
    await expect.poll(() => list(page)).toMatchObject([{ id, text: "half a pool" }]);
    expect(await page.evaluate(async () => (await window.host).settings.get())).toEqual({
      lengths: "ft-in",
      theme: "slate",
      panels: { side: [30, 70] },
    });
    await page.evaluate(async (id) => (await window.host).autosave.drop(id), id);
    expect(await list(page)).toEqual([]);
    expect(await opening(page)).toMatchObject({ text: "new\n" });
  });
});

describe("the window", () => {
  test("a file dropped anywhere on it opens", async () => {
    const { server } = await serving();
    const page = await visit(await profile(), server.address(null));
    const opened = await page.evaluate(async () => {
      const host = await window.host;
      const heard = new Promise<unknown>((done) => {
        host.onOpenFile(done);
      });
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File(["dropped ½"], "dropped.ribband.json"));
      const over = new DragEvent("dragover", { dataTransfer, cancelable: true, bubbles: true });
      document.body.dispatchEvent(over);
      document.body.dispatchEvent(new DragEvent("drop", { dataTransfer, cancelable: true, bubbles: true }));
      return [over.defaultPrevented, await heard];
    });
    expect(opened).toMatchObject([true, { name: "dropped.ribband.json", text: "dropped ½" }]);
  });

  test("has the project's name, and asks before it is closed on unsaved work", async () => {
    const { server } = await serving();
    const page = await visit(await profile(), server.address(null));
    const setTitle = (changed: boolean) =>
      page.evaluate(async (changed) => (await window.host).setTitle({ name: "Tern 7", changed }), changed);
    await page.evaluate(async () => void (await window.host).onCloseAsked(async () => false));
    await setTitle(true);
    expect(await page.title()).toBe("• Tern 7 – Ribband");
    // Browsers ask only once the person has done something on the page.
    await page.mouse.click(5, 5);
    const asked = page.waitForEvent("dialog");
    const closing = page.close({ runBeforeUnload: true });
    expect((await asked).type()).toBe("beforeunload");
    await (await asked).dismiss();
    await closing;
    await setTitle(false);
    expect(await page.title()).toBe("Tern 7 – Ribband");
    const closed = page.waitForEvent("close");
    await page.close({ runBeforeUnload: true });
    await closed;
  });
});
