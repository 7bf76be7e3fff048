import { chmodSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test, vi } from "vitest";
import { runWindow } from "../../electron/launch/window.mjs";
import { ownFolder } from "./own-folder.ts";

/** A project whose Electron fetches itself, or not, and then ends as it is told to. */
function project({ fetches = true, complaint = "", exitCode = 0 }) {
  const root = ownFolder();
  const electron = join(root, "node_modules/electron");
  mkdirSync(join(electron, "dist"), { recursive: true });
  const binary = join(electron, "dist/electron");
  writeFileSync(
    join(electron, "install.js"),
    `const fs = require("node:fs");
    if (${fetches}) {
      fs.writeFileSync(${JSON.stringify(join(electron, "path.txt"))}, "electron");
      fs.writeFileSync(${JSON.stringify(binary)}, "#!/bin/sh\\nprintf '%s\\\\n' \\"$@\\" > ${root}/asked\\nexit ${exitCode}\\n", { mode: 0o755 });
    } else {
      console.error(${JSON.stringify(complaint)});
      process.exit(1);
    }`,
  );
  return { root, binary };
}

describe.runIf(process.platform === "linux")("the desktop window on a machine with a display", () => {
  const run = async (root: string, file: string | null = null) => {
    vi.stubEnv("DISPLAY", ":0");
    vi.spyOn(console, "log").mockImplementation(() => {});
    try {
      return await runWindow(root, file);
    } finally {
      vi.unstubAllEnvs();
      vi.restoreAllMocks();
    }
  };

  test("fetches Electron, and runs the app on the file", async () => {
    const { root } = project({});
    expect(await run(root, "/pools/tern.ribband.json")).toEqual({ code: 0 });
    expect(readFileSync(join(root, "asked"), "utf8")).toBe(`${root}\n/pools/tern.ribband.json\n`);
  });

  test.each([
    [
      "TypeError: fetch failed\n    at node:internal",
      "Electron cannot be fetched: its server cannot be reached",
    ],
    ["HTTPError: Response code 404 (Not Found)", "Electron cannot be fetched: Response code 404 (Not Found)"],
  ])("says in words why it cannot be fetched: %j", async (complaint, why) => {
    expect(await run(project({ fetches: false, complaint }).root)).toEqual({ why });
  });

  test("says so when Electron ends as it starts, or cannot be started", async () => {
    expect(await run(project({ exitCode: 127 }).root)).toEqual({ why: "Electron ended with code 127" });
    const { root, binary } = project({});
    await run(root);
    chmodSync(binary, 0o644);
    expect(await run(root)).toEqual({ why: expect.stringContaining("Electron cannot be started: spawn") });
    writeFileSync(join(dirname(binary), "../install.js"), "");
    writeFileSync(join(dirname(binary), "../path.txt"), "elsewhere");
    expect(await run(root)).toEqual({
      why: "Electron was fetched, but its binary is not where it should be",
    });
  });
});
