import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { BadInput } from "../../core/cli/bad-input.ts";
import { kitCommand } from "../../core/cli/kit.ts";
import { printProject } from "../../core/project/print.ts";
import { pretendTerminal } from "./ribband.ts";
import { smallProject } from "./small-project.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "ribband-lot-"));
  writeFileSync(join(folder, "knot-5.ribband.json"), printProject(smallProject()));
  writeFileSync(join(folder, "broken.ribband.json"), '{ "format": "ribband", "version": 3 }');
  const { shell, ...rest } = smallProject();
  const edge = { kind: "dropped", radius: 60, drop: 20 } as const;
  const coping = { ...shell.coping, flange: 75, rimRadius: 60, edge };
  writeFileSync(
    join(folder, "narrow.ribband.json"),
    printProject({ ...rest, name: "Narrow", shell: { ...shell, coping } }),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Writes a lot of these projects and cuts it. */
async function cut(
  models: readonly { project: string; shells: number }[],
  options: object = {},
  change: object = {},
) {
  const file = join(folder, "week.ribband-lot.json");
  const lot = {
    format: "ribband-lot",
    version: 1,
    name: "Week 14",
    models,
    cutting: { way: "hand" },
    stock: {
      rolls: [{ id: "roll", material: "woven-800", width: 1270, length: 75000 }],
      sheets: [],
      bars: [{ id: "bar", material: "rib-strip", length: 2400 }],
    },
    ...change,
  };
  writeFileSync(file, JSON.stringify(lot, null, 2));
  const terminal = pretendTerminal();
  const code = await kitCommand(file, { shells: 1, out: undefined, json: false, ...options }, terminal);
  return { code, ...terminal };
}

const knot = { project: "knot-5.ribband.json", shells: 3 };

describe("ribband kit LOT", { timeout: 120_000 }, () => {
  test("prints what the lot takes and writes its lists, the same each time", async () => {
    const out = join(folder, "lists");
    const first = await cut([knot], { out });
    expect(first.out).toContain("Week 14: lot of 3 shells");
    expect(first.out).toMatch(/rib-strip: \d+ bars, proved to be the least/);
    // About what it comes to, told before any cloth is laid.
    const [, metres, bars] =
      /^First plan after \d+\.\d s, .*: woven-800 (\d+\.\d) m of roll, rib-strip (\d+) bars\.$/m.exec(
        first.err,
      ) ?? [];
    expect(first.out).toContain(`rib-strip: ${bars} bars`);
    const files = readdirSync(out).sort();
    expect(files).toEqual([
      "demand.csv",
      "knot-5-cut-list.csv",
      "knot-5-cut-list.xlsx",
      "knot-5-sheets.csv",
      "knot-5-strips.csv",
      "knot-5-totals.csv",
      "lot.json",
      "markers.csv",
      "stock-use.csv",
      "strip-plan.csv",
      "strip-plan.txt",
    ]);
    const again = join(folder, "again");
    await cut([knot], { out: again });
    for (const file of files) {
      expect(readFileSync(join(again, file), "utf8")).toBe(readFileSync(join(out, file), "utf8"));
    }
    const report = JSON.parse(readFileSync(join(out, "lot.json"), "utf8"));
    const [roll] = report.use.find(({ material }: { material: string }) => material === "woven-800").stock;
    expect(Number(metres) / (roll.lengthMm / 1000)).toBeGreaterThan(0.7);
    expect(Number(metres) / (roll.lengthMm / 1000)).toBeLessThan(1.4);
    expect(report).toMatchObject({
      report: "lot",
      version: 1,
      models: [{ label: "Knot 5", shells: 3 }],
      leftOut: [],
    });
  });

  test("a project twice is cut once and told apart", async () => {
    const { out } = await cut([knot, { ...knot, shells: 1 }], { json: true });
    const { models, demand } = JSON.parse(out);
    expect(models).toEqual([
      { label: "Knot 5", shells: 3 },
      { label: "Knot 5 (2)", shells: 1 },
    ]);
    const ids = demand[0].list.map(({ model, name }: { model: string; name: string }) => `${model} ${name}`);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test("what cannot be read or built is left out in a clear sentence, and the rest is done: exit code 2", async () => {
    const { code, out } = await cut([
      knot,
      { project: "gone.ribband.json", shells: 1 },
      { project: "broken.ribband.json", shells: 1 },
      { project: "narrow.ribband.json", shells: 1 },
    ]);
    expect(code).toBe(2);
    expect(out).toContain("Week 14: lot of 3 shells");
    const words = out.replace(/\s+/g, " ");
    expect(words).toContain("Left out of the lot - gone.ribband.json: ");
    expect(words).toMatch(/gone\.ribband\.json: cannot be read: there is no such file or folder\./);
    expect(words).toContain("broken.ribband.json: ");
    expect(words).toMatch(
      /narrow\.ribband\.json: shell\.coping\.flange is 75: .*What would work: a flange of at least/,
    );
  });

  test("a lot of which nothing can be done writes nothing: exit code 1", async () => {
    const out = join(folder, "nothing");
    const run = cut([{ project: "gone.ribband.json", shells: 1 }], { out });
    await expect(run).rejects.toThrow(BadInput);
    await expect(run).rejects.toThrow(/gone\.ribband\.json: cannot be read: there is no such file or folder/);
    expect(readdirSync(folder)).not.toContain("nothing");
  });

  test("a lot that is not right is refused with every problem, and --shells is the lot's own business", async () => {
    await expect(cut([knot], {}, { cutting: { way: "hand", gap: -1 }, name: "" })).rejects.toThrow(
      /name is ""; it must be a text of 1 to 120 characters\.\n.*cutting\.gap is -1; it must be a length in mm from 0 to 100/,
    );
    await expect(cut([knot], { shells: 4 })).rejects.toThrow(/is a lot, .* leave out --shells/);
    await expect(cut([knot], { way: "table" })).rejects.toThrow(/is a lot, .* leave out --way/);
  });
});
