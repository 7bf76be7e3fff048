import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { BadInput } from "../../core/cli/bad-input.ts";
import { type CallCrew, type Crew, type Hand, ownHand, threadsOf } from "../../core/cli/crew.ts";
import { kitCommand } from "../../core/cli/kit.ts";
import type { MaterialTask } from "../../core/cutting/lots/plan-material.ts";
import { unwatched } from "../../core/cutting/lots/watch.ts";
import type { Project } from "../../core/project/schema.ts";
import { pretendTerminal, ribband, root } from "./ribband.ts";
import { lostZone, smallProject } from "./small-project.ts";

let folder = "";
let lot = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "ribband-crew-"));
  lot = join(folder, "two.ribband-lot.json");
  const write = (name: string, content: object) => writeFileSync(join(folder, name), JSON.stringify(content));
  write("knot.ribband.json", smallProject());
  const { shell, ...rest } = smallProject([lostZone]);
  const outline = { kind: "rectangle", length: 4600, width: 2400, cornerRadius: 500 };
  write("stint.ribband.json", { ...rest, name: "Stint 4", shell: { ...shell, outline } });
  write("two.ribband-lot.json", {
    format: "ribband-lot",
    version: 1,
    name: "Two",
    models: [
      { project: "knot.ribband.json", shells: 2 },
      { project: "stint.ribband.json", shells: 1 },
      { project: "gone.ribband.json", shells: 1 },
      { project: "knot.ribband.json", shells: 1 },
    ],
    cutting: { way: "hand" },
    stock: {
      rolls: [{ id: "roll", material: "woven-800", width: 1270, length: 75000 }],
      sheets: [],
      bars: [{ id: "bar", material: "rib-strip", length: 2400 }],
    },
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const contents = (place: string) =>
  Object.fromEntries(
    readdirSync(place, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => {
        const path = join(parentPath, name);
        return [relative(place, path), readFileSync(path, "latin1")];
      }),
  );

describe("a lot of two projects", { timeout: 120_000 }, () => {
  test("gives the same words, files and exit code with threads and without", async () => {
    const sheets = { paper: "a4", templates: "full", labels: "a4-14" } as const;
    const alone = pretendTerminal();
    const out = join(folder, "alone");
    const code = await kitCommand(lot, { shells: 1, out, json: false, sheets }, alone, ownHand);
    const threads = await ribband("kit", lot, "--out", join(folder, "threads"));
    expect(code).toBe(2);
    expect(threads.code).toBe(code);
    expect(threads.out.replace(`${join(folder, "threads")}/`, "")).toBe(alone.out.replace(`${out}/`, ""));
    for (const words of ["Two: lot of 4 shells", "Knot 5 (2)", "Stint 4: zone bench-rise is adrift"])
      expect(threads.out).toContain(words);
    expect(Object.keys(contents(out)).length).toBeGreaterThan(20);
    expect(contents(join(folder, "threads"))).toEqual(contents(out));
    // What a first plan takes is the same as well, whenever it came.
    const plan = /First plan after [\d.]+ s(.*)/;
    expect(plan.exec(threads.err)?.[1]).toBe(plan.exec(alone.err)?.[1]);
  });

  test("is ended by Ctrl-C, threads and all, while there is work left", async () => {
    const child = spawn(process.execPath, ["electron/launch/command.mjs", "kit", lot, "--seconds", "600"], {
      cwd: root,
      stdio: ["ignore", "ignore", "pipe"],
    });
    let err = "";
    const begun = new Promise<void>((done) => {
      child.stderr.on("data", (data) => {
        err += data;
        if (err.includes("First plan")) done();
      });
    });
    const ended = new Promise((done) => child.once("close", (code, signal) => done([code, signal])));
    await Promise.race([begun, ended]);
    child.kill("SIGINT");
    // On a busy machine plans are under way by then, and taken as they are.
    expect(await ended).toEqual(err.includes("Stopped after") ? [2, null] : [null, "SIGINT"]);
  });
});

describe("a fault of ours in one project of a lot", { timeout: 120_000 }, () => {
  /** This thread, but that it has a fault at a step of a project, or at the plan of a material. */
  const faulty =
    (step: string, of: number | string): CallCrew =>
    (wanted, heard) => {
      const { hands, ...crew } = ownHand(wanted, heard);
      const fault = () =>
        Promise.reject(new Error("Stint 4: yarn ran out", { cause: new Error("yarn ran out") }));
      const isOf = (first: unknown) =>
        typeof of === "string" ? (first as MaterialTask).demand.material.id === of : first === of;
      const withFault = (hand: Hand): Hand => {
        return (asked, ...args) => (asked === step && isOf(args[0]) ? fault() : hand(asked, ...args));
      };
      return { ...crew, hands: hands.map(withFault) };
    };
  const words =
    "Something went wrong inside Ribband, not in your input: yarn ran out. Please send the project file";

  test.each([
    ["begin", "stint.ribband.json"],
    ["cut", "Stint 4"],
  ])("has it left out and told, and the rest done: %s", async (step, called) => {
    const terminal = pretendTerminal();
    const out = join(folder, `fault-${step}`);
    const code = await kitCommand(lot, { shells: 1, out, json: false }, terminal, faulty(step, 1));
    expect(code).toBe(1);
    const said = terminal.out.replace(/\s+/g, " ");
    expect(said).toContain("Two: lot of 3 shells");
    expect(said).toContain(`${called}: ${words}`);
    const report = JSON.parse(readFileSync(join(out, "lot.json"), "utf8"));
    expect(report.models.map(({ label }: { label: string }) => label)).toEqual(["Knot 5", "Knot 5 (2)"]);
    expect(report.leftOut.map(({ project }: { project: string }) => project).sort()).toEqual([
      "gone.ribband.json",
      "stint.ribband.json",
    ]);
    expect(readdirSync(out)).toContain("knot-5-cut-list.csv");
  });

  test("leaves a material without a plan, which is told, and the others are written", async () => {
    const terminal = pretendTerminal();
    const out = join(folder, "fault-plan");
    const sheets = { paper: "a4", templates: "full", labels: "a4-14" } as const;
    const options = { shells: 1, out, json: false, sheets };
    expect(await kitCommand(lot, options, terminal, faulty("plan", "woven-800"))).toBe(1);
    expect(terminal.out.replace(/\s+/g, " ")).toContain(`woven-800 is not laid out. ${words}`);
    const report = JSON.parse(readFileSync(join(out, "lot.json"), "utf8"));
    expect(report.findings.join()).toContain("woven-800 is not laid out.");
    expect(readdirSync(out)).toEqual(expect.arrayContaining(["strips.pdf", "strip-plan.csv", "labels.pdf"]));
    expect(readFileSync(join(out, "strip-plan.csv"), "utf8")).toContain("rib-strip");
  });

  test("has what its self-check could not look at told as unsound", async () => {
    const terminal = pretendTerminal();
    const options = { shells: 1, out: undefined, json: true };
    expect(await kitCommand(lot, options, terminal, faulty("check", 1))).toBe(1);
    const { models, flaws } = JSON.parse(terminal.out);
    expect(models).toHaveLength(3);
    expect(flaws).toEqual([{ model: "Stint 4", says: expect.stringContaining(words) }]);
  });

  test("ends a lot in which no project is left, with every reason", async () => {
    const alone = join(folder, "alone.ribband-lot.json");
    const { models: _, ...rest } = JSON.parse(readFileSync(lot, "utf8"));
    writeFileSync(alone, JSON.stringify({ ...rest, models: [{ project: "stint.ribband.json", shells: 1 }] }));
    const options = { shells: 1, out: undefined, json: false };
    const told = await kitCommand(alone, options, pretendTerminal(), faulty("cut", 0)).catch(
      (error) => error,
    );
    expect(told).toBeInstanceOf(BadInput);
    expect(told.message).toContain(`Stint 4: ${words}`);
  });
});

describe("a crew", () => {
  const project = { ...smallProject(), name: "Knot 5" } as Project;
  const thread = (script: string) =>
    threadsOf(new URL(`data:text/javascript,${encodeURIComponent(script)}`), 2);
  const port = 'import { parentPort as port } from "node:worker_threads";';

  test.each([
    [
      "told by a step",
      `${port} port.on("message", ({ id }) => port.postMessage({ id, fault: new TypeError("yarn ran out") }));`,
      "yarn ran out",
    ],
    ["of the thread itself", 'throw new Error("no bench here");', "no bench here"],
    ["of a thread that goes", "process.exit(3);", "the work was ended before it was done"],
  ])("passes on a fault %s, with the name of the project", async (_, script, message) => {
    const crew = thread(script)(2, unwatched);
    const asked = crew.hands.map((hand) => hand("begin", 0, project));
    for (const each of asked) await expect(each).rejects.toThrow(`Knot 5: ${message}`);
    await expect(crew.hands[0]("check", 0)).rejects.toThrow("Knot 5: ");
    crew.dismiss();
  });

  test("hears stages, and steps come back to whoever asked for them", async () => {
    const heard: string[] = [];
    const echo = `${port} let n = 0; port.on("message", ({ id, args }) => {
      port.postMessage({ stage: "stage " + args[0] });
      setTimeout(() => port.postMessage({ id, gives: ["flaw " + args[0]] }), 20 - 10 * n++);
    });`;
    const crew = thread(echo)(5, { ...unwatched, onStage: (stage) => heard.push(stage) });
    expect(crew.hands).toHaveLength(2);
    const asked = [0, 1, 2].map((number) => crew.hands[0]("check", number));
    expect(await Promise.all(asked)).toEqual([["flaw 0"], ["flaw 1"], ["flaw 2"]]);
    expect(heard).toEqual(["stage 0", "stage 1", "stage 2"]);
    crew.dismiss();
  });

  test.each<[string, () => Crew]>([
    ["threads", () => thread(`${port} port.on("message", () => {});`)(2, unwatched)],
    ["this thread", () => ownHand(1, unwatched)],
  ])("that is dismissed ends its work: %s", async (_, call) => {
    const { hands, dismiss } = call();
    const asked = hands[0]("begin", 0, project);
    dismiss();
    await expect(asked).rejects.toThrow("the work was ended before it was done");
  });

  test("in this thread has the same faults", async () => {
    const [hand] = ownHand(1, unwatched).hands;
    await expect(hand("check", 7)).rejects.toThrow("project 7: project 7 of the lot was not begun here");
  });
});
