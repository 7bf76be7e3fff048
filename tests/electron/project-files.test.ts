import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, rmSync, truncateSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { machine } from "../../electron/channels/machine.ts";
import { HostError, openedFile, saveResult } from "../../renderer/document/host/contract.ts";
import { ownFolder } from "./own-folder.ts";

/** A machine with one project file that a person has opened. */
async function withProject(text = "old\n") {
  const home = ownFolder();
  const path = join(ownFolder(), "tern.ribband.json");
  writeFileSync(path, text);
  const here = machine(home);
  const opened = await here.files.read(path);
  return { home, path, here, opened, handle: opened.handle! };
}

describe("opening", () => {
  test("gives the text, the name and the SHA-256 of the bytes, and no path", async () => {
    const { opened, path } = await withProject("{}\n");
    expect(openedFile.parse(opened)).toEqual({
      handle: expect.stringMatching(/^disk-[0-9a-f]{32}$/),
      name: "tern.ribband.json",
      text: "{}\n",
      stamp: createHash("sha256").update(readFileSync(path)).digest("hex"),
    });
    expect(JSON.stringify(opened)).not.toContain(path);
  });

  test.each<[string, (path: string) => void, string]>([
    ["a missing file", (path) => rmSync(path), "there is no such file any more"],
    [
      "a folder",
      (path) => {
        rmSync(path);
        mkdirSync(path);
      },
      "it is not a file",
    ],
    [
      "bytes that are no text",
      (path) => writeFileSync(path, new Uint8Array([0xff, 0xfe, 0x00])),
      "it is not text",
    ],
    ["a film", (path) => truncateSync(path, 33 * 2 ** 20), "it is larger than 32 MiB"],
  ])("%s is refused in words", async (_, spoil, reason) => {
    const { path, here, handle } = await withProject();
    spoil(path);
    const refused = here.handlers.read(handle);
    await expect(refused).rejects.toBeInstanceOf(HostError);
    await expect(refused).rejects.toThrow(`tern.ribband.json cannot be opened: ${reason}`);
  });

  test.runIf(process.platform !== "win32")("a pipe that nobody fills does not hold the app up", async () => {
    const { path, here, handle } = await withProject();
    rmSync(path);
    expect(spawnSync("mkfifo", [path]).status).toBe(0);
    await expect(here.handlers.read(handle)).rejects.toThrow("it is not a file");
  });
});

describe("saving", () => {
  test("writes the text and gives the stamp with which the next save is asked for", async () => {
    const { path, here, handle, opened } = await withProject();
    const first = saveResult.parse(await here.handlers.save({ handle, text: "one\n", seen: opened.stamp }));
    expect(first).toMatchObject({ kind: "saved", handle, name: "tern.ribband.json" });
    if (first.kind !== "saved") return;
    expect(await here.handlers.save({ handle, text: "two\n", seen: first.stamp })).toMatchObject({
      kind: "saved",
    });
    expect(readFileSync(path, "utf8")).toBe("two\n");
    expect((await here.files.read(path)).text).toBe("two\n");
  });

  test("what somebody else wrote meanwhile stays until it is overwritten on purpose", async () => {
    const { path, here, handle, opened } = await withProject();
    writeFileSync(path, "theirs\n");
    const asked = await here.handlers.save({ handle, text: "mine\n", seen: opened.stamp });
    expect(asked).toEqual({
      kind: "changed-on-disk",
      stamp: createHash("sha256").update("theirs\n").digest("hex"),
    });
    expect(readFileSync(path, "utf8")).toBe("theirs\n");
    if (asked.kind !== "changed-on-disk") return;
    expect(await here.handlers.save({ handle, text: "mine\n", seen: asked.stamp })).toMatchObject({
      kind: "saved",
    });
    expect(readFileSync(path, "utf8")).toBe("mine\n");
  });

  test("a change that the file's time and size do not show is noticed", async () => {
    const { path, here, handle, opened } = await withProject("same length A\n");
    const at = new Date(1_700_000_000_000);
    utimesSync(path, at, at);
    writeFileSync(path, "same length B\n");
    utimesSync(path, at, at);
    expect(await here.handlers.save({ handle, text: "mine\n", seen: opened.stamp })).toMatchObject({
      kind: "changed-on-disk",
    });
  });

  test("a file merely touched, or changed into what is being saved, asks nothing", async () => {
    const { path, here, handle, opened } = await withProject();
    utimesSync(path, new Date(), new Date(Date.now() + 60_000));
    const touched = await here.handlers.save({ handle, text: "mine\n", seen: opened.stamp });
    expect(touched).toMatchObject({ kind: "saved" });
    writeFileSync(path, "both\n");
    expect(await here.handlers.save({ handle, text: "both\n", seen: opened.stamp })).toMatchObject({
      kind: "saved",
    });
  });

  test("a file that is gone is written anew", async () => {
    const { path, here, handle, opened } = await withProject();
    rmSync(path);
    expect(await here.handlers.save({ handle, text: "mine\n", seen: opened.stamp })).toMatchObject({
      kind: "saved",
    });
    expect(readFileSync(path, "utf8")).toBe("mine\n");
  });

  test("saves of one file go one after another: the last one asked for stands", async () => {
    const { path, here, handle, opened } = await withProject();
    const texts = Array.from({ length: 20 }, (_, i) => `${i}\n`);
    const results = await Promise.all(
      texts.map((text) => here.handlers.save({ handle, text, seen: opened.stamp })),
    );
    // The first changes the file, so the others, which have not seen that, are asked about.
    expect(results.map(({ kind }) => kind)).toEqual(["saved", ...Array(19).fill("changed-on-disk")]);
    await Promise.all(texts.map((text) => here.files.saveOver(path, text)));
    expect(readFileSync(path, "utf8")).toBe("19\n");
  });

  test("what cannot be put on the list of recent files is saved all the same", async () => {
    const home = ownFolder();
    mkdirSync(join(home, "recent.json"));
    const path = join(ownFolder(), "tern.ribband.json");
    const reported: unknown[] = [];
    const { files } = machine(home, (error) => reported.push(error));
    expect(await files.saveOver(path, "mine\n")).toMatchObject({ kind: "saved" });
    expect(readFileSync(path, "utf8")).toBe("mine\n");
    expect(reported).toMatchObject([{ code: "EISDIR" }]);
  });

  test("a folder that is gone is told in words", async () => {
    const { path, here, handle, opened } = await withProject();
    rmSync(join(path, ".."), { recursive: true });
    await expect(here.handlers.save({ handle, text: "mine\n", seen: opened.stamp })).rejects.toThrow(
      "tern.ribband.json cannot be saved: there is no such file or folder.",
    );
  });
});

describe("handles", () => {
  test("one that was never given out opens and writes nothing", async () => {
    const { here } = await withProject();
    const secret = join(ownFolder(), "diary.json");
    writeFileSync(secret, "private");
    const guessed = `disk-${createHash("sha256").update(secret).digest("hex").slice(0, 32)}`;
    await expect(here.handlers.read(guessed)).rejects.toThrow("not known any more");
    await expect(here.handlers.save({ handle: guessed, text: "x", seen: null })).rejects.toThrow(
      "not known any more",
    );
    expect(readFileSync(secret, "utf8")).toBe("private");
  });

  test("recent files are known in the next run, newest first, twelve at most, each once", async () => {
    const { home, here, path } = await withProject();
    const folder = ownFolder();
    const names = Array.from({ length: 13 }, (_, i) => `pool-${i}.ribband.json`);
    for (const name of names) {
      writeFileSync(join(folder, name), name);
      await here.files.read(join(folder, name));
    }
    await here.files.read(join(folder, names[5]));
    const next = machine(home);
    const recent = await next.handlers.recent();
    const expected = [
      names[5],
      ...names
        .slice(2)
        .filter((name) => name !== names[5])
        .reverse(),
      names[1],
    ];
    expect(recent.map(({ name }) => name)).toEqual(expected.slice(0, 12));
    expect(recent.every((file) => file.folder === folder)).toBe(true);
    for (const { handle, name } of recent)
      expect((await machine(home).handlers.read(handle)).text).toBe(name);
    await expect(next.handlers.read(here.known.know(path))).rejects.toThrow("not known any more");
  });

  test("a list of recent files that cannot be understood is set aside, not lost and not in the way", async () => {
    const { home, here, path } = await withProject();
    writeFileSync(join(home, "recent.json"), '["a.json", 3');
    expect(await machine(home).handlers.recent()).toEqual([]);
    expect(readFileSync(join(home, "recent.json.unreadable"), "utf8")).toBe('["a.json", 3');
    await here.files.read(path);
    expect(await machine(home).handlers.recent()).toHaveLength(1);
  });
});

describe("settings", () => {
  test("are kept from run to run", async () => {
    const home = ownFolder();
    const { handlers } = machine(home);
    expect(await handlers.getSettings()).toEqual({ lengths: "mm", theme: "system", panels: {} });
    await handlers.setSettings({ lengths: "ft-in", theme: "slate", panels: { sides: [20, 60, 20] } });
    expect(await machine(home).handlers.getSettings()).toEqual({
      lengths: "ft-in",
      theme: "slate",
      panels: { sides: [20, 60, 20] },
    });
  });

  test("one figure that is wrong falls back alone", async () => {
    const home = ownFolder();
    writeFileSync(
      join(home, "settings.json"),
      '{ "lengths": "furlong", "theme": "slate", "panels": { "a": [200] } }',
    );
    expect(await machine(home).handlers.getSettings()).toEqual({ lengths: "mm", theme: "slate", panels: {} });
  });
});
