import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { printProject } from "../../core/project/print.ts";
import { root } from "./ribband.ts";
import { smallProject } from "./small-project.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "ribband-ctrl-c-"));
  writeFileSync(join(folder, "knot.ribband.json"), printProject(smallProject()));
  const lot = {
    format: "ribband-lot",
    version: 1,
    name: "Two",
    models: [{ project: "knot.ribband.json", shells: 2 }],
    cutting: { way: "table" },
    stock: {
      rolls: [{ id: "roll", material: "woven-800", width: 1270, length: 75000 }],
      sheets: [],
      bars: [{ id: "bar", material: "rib-strip", length: 2400 }],
    },
  };
  writeFileSync(join(folder, "two.ribband-lot.json"), JSON.stringify(lot));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A process, what it has said on stderr, and how it ends. */
function started(args: readonly string[]) {
  const child = spawn(process.execPath, args, { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
  const said = { out: "", err: "" };
  child.stdout.on("data", (data) => (said.out += data));
  child.stderr.on("data", (data) => (said.err += data));
  const ended = new Promise<readonly [number | null, string | null]>((done) =>
    child.once("close", (code, signal) => done([code, signal])),
  );
  const hears = async (words: string) => {
    const heard = new Promise<void>((done) => {
      const look = () => said.err.includes(words) && done();
      child.stderr.on("data", look);
      look();
    });
    await Promise.race([heard, ended]);
    expect(said.err).toContain(words);
  };
  return { press: () => child.kill("SIGINT"), said, ended, hears };
}

const kit = (...args: string[]) => started(["electron/launch/command.mjs", "kit", ...args]);
const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));

describe("Ctrl-C while plans are improved", { timeout: 120_000 }, () => {
  test.each([
    ["a lot", ["two.ribband-lot.json"]],
    ["a project", ["knot.ribband.json", "--way", "table"]],
  ])("takes them as they are, and writes all files: %s", async (_, [file, ...args]) => {
    const out = join(folder, `out ${file}`);
    const run = kit(join(folder, file), ...args, "--seconds", "600", "--out", out, "--json");
    await run.hears("Ctrl-C takes the plans as they are by then; a second one ends at once.");
    run.press();
    // Whoever started the program may pass the same press on.
    run.press();
    expect(await run.ended).toEqual([0, null]);
    expect(run.said.err).toMatch(
      /^Stopped after \d+\.\d s: each plan is taken as it is by now, and the rest is done\.$/m,
    );
    const lot = JSON.parse(readFileSync(join(out, "lot.json"), "utf8"));
    const wanted = lot.demand.find(({ material }: { material: string }) => material === "woven-800").pieces;
    const [{ markers, missing }] = lot.markers;
    expect(missing).toEqual([]);
    expect(markers.flatMap((marker: { placements: unknown[] }) => marker.placements)).toHaveLength(wanted);
    for (const name of ["markers/woven-800-1.dxf", "markers/woven-800-1.pdf", "labels.pdf", "strips.pdf"])
      expect(existsSync(join(out, name))).toBe(true);
  });

  test("ends at once when it is pressed again, and always where nothing listens any more", async () => {
    const script = (rest: string) => `
      const { onFirstCtrlC } = await import("tsx/esm/api").then(({ tsImport }) => tsImport("./core/cli/first-ctrl-c.ts", import.meta.url));
      const deaf = onFirstCtrlC(() => console.error("first"));
      setInterval(() => {}, 1000);
      ${rest}
      console.error("ready");`;
    const start = (rest: string) => started(["--input-type=module", "--eval", script(rest)]);
    const twice = start("");
    await twice.hears("ready");
    twice.press();
    await twice.hears("first");
    twice.press();
    await pause(600);
    expect(twice.said.err).toBe("ready\nfirst\n");
    twice.press();
    expect(await twice.ended).toEqual([null, "SIGINT"]);
    const once = start("deaf();");
    await once.hears("ready");
    once.press();
    expect(await once.ended).toEqual([null, "SIGINT"]);
  });
});
