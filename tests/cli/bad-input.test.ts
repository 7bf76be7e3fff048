import { spawn } from "node:child_process";
import {
  closeSync,
  existsSync,
  mkdtempSync,
  openSync,
  readdirSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { BadInput } from "../../core/cli/bad-input.ts";
import { kitCommand } from "../../core/cli/kit.ts";
import { type BrokenFile, brokenFiles } from "../project/broken-files.ts";
import { demoProject } from "../project/demo-files.ts";
import { demoFile, pretendTerminal, type Ran, ribband, root } from "./ribband.ts";

let place: string;
beforeAll(() => {
  place = mkdtempSync(join(tmpdir(), "ribband-cli-"));
});
afterAll(() => {
  rmSync(place, { recursive: true, force: true });
});

const broken = brokenFiles();

/** Whether the sentences name the field that the file was broken at; an empty one is the file as a whole. */
function namesField(sentences: readonly string[], { names }: BrokenFile): boolean {
  if (typeof names === "string") return sentences.some((sentence) => sentence.includes(names));
  if (names.test("")) return sentences.some((sentence) => /[Tt]he file\b/.test(sentence));
  return sentences.some((sentence) => sentence.split(/[\s:]+/).some((word) => names.test(word)));
}

/** Writes a broken file and gives its path. */
function written({ text }: BrokenFile, i: number): string {
  const file = join(place, `broken-${i}.ribband.json`);
  writeFileSync(file, text);
  return file;
}

test("of thousands of faults the first are told, and how many more there are", async () => {
  const project = JSON.parse(JSON.stringify(demoProject("whimbrel-9")));
  const file = join(place, "thousands.ribband.json");
  project.layup = Array.from({ length: 20_000 }, (_, i) => ({
    ...project.layup[0],
    id: `zone-${i}`,
    material: "none",
  }));
  writeFileSync(file, JSON.stringify(project));
  const told = await kitCommand(file, { shells: 1, out: undefined, json: true }, pretendTerminal()).catch(
    (error) => error,
  );
  expect(told).toBeInstanceOf(BadInput);
  const { sentences } = told as BadInput;
  expect(sentences).toHaveLength(21);
  expect(sentences[1]).toContain("layup[0].material (zone-0)");
  expect(sentences[20]).toBe(`${file}: 19981 more faults of this kind or others are in it.`);
});

const noStack = (err: string) => expect(err).not.toMatch(/^\s+at .*:\d+:\d+/m);

test("each of the broken files is refused by sentences that name the field, and nothing is written", async () => {
  expect(broken.length).toBeGreaterThanOrEqual(200);
  for (const [i, each] of broken.entries()) {
    const file = written(each, i);
    const terminal = pretendTerminal();
    const out = join(place, "out");
    const told = await kitCommand(file, { shells: 1, out, json: true }, terminal).catch((error) => error);
    expect(told, each.name).toBeInstanceOf(BadInput);
    const { sentences } = told as BadInput;
    expect(namesField(sentences, each), `${each.name}: ${sentences.join("\n")}`).toBe(true);
    for (const sentence of sentences) expect(sentence.startsWith(`${file}: `), sentence).toBe(true);
    expect(terminal.out).toBe("");
    expect(existsSync(out)).toBe(false);
  }
});

test("so it is from the command line: exit code 1, nothing on stdout, no stack, no folder", async () => {
  const sample = broken.filter((_, i) => i % Math.ceil(broken.length / 10) === 3);
  expect(sample.length).toBeGreaterThanOrEqual(8);
  const runs: Ran[] = [];
  for (let i = 0; i < sample.length; i += 2) {
    const pair = sample.slice(i, i + 2).map((each, k) => written(each, 1000 + i + k));
    runs.push(
      ...(await Promise.all(
        pair.map((file, k) =>
          ribband(k === 0 ? "measure" : "kit", file, ...(k === 0 ? [] : ["--out", join(place, "spawned")])),
        ),
      )),
    );
  }
  runs.forEach(({ code, out, err }, i) => {
    expect(code, err).toBe(1);
    expect(out).toBe("");
    expect(namesField(err.split("\n"), sample[i]), `${sample[i].name}: ${err}`).toBe(true);
    noStack(err);
  });
  expect(existsSync(join(place, "spawned"))).toBe(false);
}, 60_000);

describe("a file that is none", () => {
  test.each<[string, () => string, RegExp]>([
    [
      "missing",
      () => join(place, "nowhere.ribband.json"),
      /nowhere\.ribband\.json: cannot be read: there is no such file/,
    ],
    ["a folder", () => place, /cannot be read: it is a folder/],
    [
      "a link that leads nowhere",
      () => {
        symlinkSync(join(place, "nowhere"), join(place, "dangling"));
        return join(place, "dangling");
      },
      /dangling: cannot be read: it is a link that leads nowhere/,
    ],
    ["a device", () => "/dev/zero", /(it is a device|there is no such file)/],
    ["beneath a file", () => join(demoFile("dunlin-4"), "inner"), /a part of its path is a file/],
  ])("%s", async (_, file, sentence) => {
    const { code, out, err } = await ribband("kit", file(), "--out", join(place, "out"));
    expect([code, out]).toEqual([1, ""]);
    expect(err).toMatch(sentence);
    expect(err.trim().split("\n")).toHaveLength(1);
    expect(existsSync(join(place, "out"))).toBe(false);
  });
});

test("a shell that cannot be built is refused with every reason and the figures that would work", async () => {
  const project = demoProject("whimbrel-9");
  const { shell } = project;
  const coping = {
    ...shell.coping,
    flange: 75,
    rimRadius: 60,
    edge: { kind: "dropped", radius: 60, drop: 20 },
  };
  const file = join(place, "impossible.ribband.json");
  writeFileSync(file, JSON.stringify({ ...project, shell: { ...shell, coping } }));
  for (const args of [
    ["measure", file],
    ["kit", file, "--json", "--out", join(place, "out")],
  ]) {
    const { code, out, err } = await ribband(...args);
    expect([code, out]).toEqual([1, ""]);
    expect(err).toMatch(/shell\.coping\.flange is 75: .*\. What would work: a flange of at least \d+ mm\./);
    expect(err).toMatch(/shell\.coping\.edge\.drop is 20: .*\. What would work: a drop of at least 60 mm\./);
    noStack(err);
  }
  expect(existsSync(join(place, "out"))).toBe(false);
});

test("a refusal names the feature that its figure belongs to", async () => {
  const project = demoProject("dunlin-4");
  const [steps, ...others] = project.shell.features;
  const file = join(place, "no-corner.ribband.json");
  const features = [
    { ...steps, place: { kind: "corner", corner: "shallow-lef", shape: "round" } },
    ...others,
  ];
  writeFileSync(file, JSON.stringify({ ...project, shell: { ...project.shell, features } }));
  const options = { shells: 1, out: undefined, json: false };
  await expect(kitCommand(file, options, pretendTerminal())).rejects.toThrow(
    'json: shell.features[0].place.corner (steps) is "shallow-lef": ',
  );
});

test("the name of a file cannot command the terminal", async () => {
  const { code, err } = await ribband("kit", join(place, "\u001b[2J\u0007.ribband.json"));
  expect(code).toBe(1);
  expect(err).toContain("\\u001b[2J\\u0007.ribband.json: cannot be read");
});

describe("what is asked wrongly", () => {
  test.each<[string, string[], RegExp]>([
    ["no shells", ["kit", demoFile("dunlin-4"), "--shells", "0"], /whole number from 1 to 1000/],
    ["too many shells", ["kit", demoFile("dunlin-4"), "--shells", "1001"], /whole number from 1 to 1000/],
    ["half a shell", ["kit", demoFile("dunlin-4"), "--shells", "1.5"], /whole number from 1 to 1000/],
    ["a word for a number", ["kit", demoFile("dunlin-4"), "--shells", "two"], /whole number from 1 to 1000/],
    ["no folder", ["kit", demoFile("dunlin-4"), "--out", ""], /The name of a folder is wanted/],
    ["no file", ["measure"], /missing required argument 'file'/],
    [
      "an unknown command",
      ["mesure", demoFile("dunlin-4")],
      /unknown command 'mesure'[\s\S]*Did you mean measure/,
    ],
    ["an unknown option", ["kit", demoFile("dunlin-4"), "--jsn"], /unknown option '--jsn'/],
  ])("%s", async (_, args, sentence) => {
    const { code, out, err } = await ribband(...args);
    expect([code, out]).toEqual([1, ""]);
    expect(err).toMatch(sentence);
    noStack(err);
  });
});

test("help is plain and tells the exit codes", async () => {
  const { code, out, err } = await ribband("--help");
  expect([code, err]).toEqual([0, ""]);
  for (const word of ["measure", "kit", "Exit codes:", "0  fine", "1  bad input", "2  done, with findings"])
    expect(out).toContain(word);
  for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  expect(readdirSync(place).filter((name) => !name.endsWith(".json"))).toEqual(["dangling"]);
});

test("a full disk behind stdout is told in a sentence", async ({ skip }) => {
  if (!existsSync("/dev/full")) skip("this system has no /dev/full");
  const full = openSync("/dev/full", "w");
  const child = spawn(process.execPath, ["electron/launch/command.mjs", "--help"], {
    cwd: root,
    stdio: ["ignore", full, "pipe"],
  });
  let err = "";
  child.stderr?.on("data", (data) => {
    err += data;
  });
  const code = await new Promise((done) => child.once("close", done));
  closeSync(full);
  expect([code, err]).toEqual([1, "The results could not be printed: the disk is full.\n"]);
});
