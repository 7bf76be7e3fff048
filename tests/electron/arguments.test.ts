import { spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readArguments } from "../../electron/launch/arguments.mjs";
import { electronBinary, whyNoWindow } from "../../electron/launch/window.mjs";
import { openCommand } from "../../electron/loopback/open-address.ts";
import { ownFolder } from "./own-folder.ts";

test("npm start takes a project, found from the person's own folder, and --browser", () => {
  const folder = ownFolder();
  const path = join(folder, "tern.ribband.json");
  writeFileSync(path, "{}");
  expect(readArguments([], folder)).toEqual({ browser: false, file: null });
  expect(readArguments(["tern.ribband.json"], folder)).toEqual({ browser: false, file: path });
  expect(readArguments([path, "--browser"], "/")).toEqual({ browser: true, file: path });
});

test.each([
  [["--brwoser"], "There is no option --brwoser; the command is npm start [-- [--browser] [FILE]]."],
  [["a.json", "b.json"], "One project at a time: a.json, b.json were given"],
  [["gone.json"], "There is no file"],
  [["sub"], "is a folder; name a project file in it (*.ribband.json)."],
])("%j is refused in one sentence", (args, sentence) => {
  const folder = ownFolder();
  mkdirSync(join(folder, "sub"));
  expect(() => readArguments(args, folder)).toThrow(sentence);
});

test("npm start refuses in one line, before it sets up or builds anything", () => {
  const script = join(import.meta.dirname, "../../electron/launch/start.mjs");
  const folder = ownFolder();
  const { status, stdout, stderr } = spawnSync(process.execPath, [script, "gone.json"], {
    encoding: "utf8",
    env: { ...process.env, INIT_CWD: folder },
  });
  expect({ status, stdout, stderr }).toEqual({
    status: 1,
    stdout: "",
    stderr: `There is no file ${join(folder, "gone.json")}.\n`,
  });
});

test("Electron's binary is where its note says, if it is there", () => {
  const root = ownFolder();
  expect(electronBinary(root, {})).toBeUndefined();
  mkdirSync(join(root, "node_modules/electron/dist"), { recursive: true });
  writeFileSync(join(root, "node_modules/electron/path.txt"), "electron");
  expect(electronBinary(root, {})).toBeUndefined();
  writeFileSync(join(root, "node_modules/electron/dist/electron"), "");
  expect(electronBinary(root, {})).toBe(join(root, "node_modules/electron/dist/electron"));
  expect(electronBinary(root, { ELECTRON_OVERRIDE_DIST_PATH: join(root, "elsewhere") })).toBeUndefined();
});

test("no window is tried without a display, no browser either", () => {
  expect(whyNoWindow("linux", {})).toBe("there is no display");
  for (const env of [{ DISPLAY: ":0" }, { WAYLAND_DISPLAY: "wayland-0" }]) {
    expect(whyNoWindow("linux", env)).toBeUndefined();
    expect(openCommand("linux", env)?.file).toBe("xdg-open");
  }
  expect(openCommand("linux", {})).toBeUndefined();
  for (const platform of ["darwin", "win32"] as const) {
    expect(whyNoWindow(platform, {})).toBeUndefined();
    expect(openCommand(platform, {})).toBeDefined();
  }
});
