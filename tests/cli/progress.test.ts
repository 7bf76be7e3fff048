import { expect, test, vi } from "vitest";
import { type Progress, progressOn } from "../../core/cli/progress.ts";

/** What a terminal hears of the progress of a job whose clock the job itself sets, ms. */
function heard(watched: boolean, job: (progress: Progress, at: (ms: number) => void) => void): string {
  let text = "";
  let time = 0;
  const terminal = {
    print: () => expect.unreachable(),
    say: (words: string) => (text += words),
    flash: (line: string) => (text += `[${line}]`),
    watched,
  };
  job(
    progressOn(terminal, () => time),
    (ms) => {
      time = ms;
    },
  );
  return text;
}

const said = (watched: boolean, stages: readonly (readonly [string, number])[]): string =>
  heard(watched, (progress, at) => {
    for (const [stage, ms] of stages) {
      at(ms);
      progress.stage(stage);
    }
    progress.done();
  });

test("in a log, only what begins after a second is told", () => {
  expect(
    said(false, [
      ["building", 0],
      ["meshing", 900],
      ["laying up", 1400],
      ["cutting", 2500],
    ]),
  ).toBe("laying up … (1.4 s)\ncutting … (2.5 s)\n");
  expect(
    said(false, [
      ["building", 0],
      ["meshing", 900],
    ]),
  ).toBe("");
});

test("what is at work is told again when nothing has been told for a while", () => {
  const job = (progress: Progress, at: (ms: number) => void) => {
    progress.stage("cutting");
    for (let ms = 100; ms <= 5000; ms += 100) {
      at(ms);
      progress.part(ms < 2000 ? "cutting foot" : "cutting seat");
    }
    progress.done();
  };
  expect(heard(false, job)).toBe("cutting foot … (1.6 s)\ncutting seat … (3.2 s)\ncutting seat … (4.8 s)\n");
  expect(heard(true, job)).toBe(
    "[cutting …][cutting foot … (1.6 s)][cutting seat … (3.2 s)][cutting seat … (4.8 s)][]",
  );
});

test("where this thread waits for others, the time goes on by itself", () => {
  vi.useFakeTimers();
  try {
    const said: string[] = [];
    const terminal = {
      print: () => {},
      say: (words: string) => said.push(words),
      flash: () => {},
      watched: false,
    };
    const progress = progressOn(terminal, () => Date.now());
    progress.stage("laying out woven-800");
    for (let second = 0; second < 9; second++) {
      const before = said.length;
      vi.advanceTimersByTime(2000);
      expect(said.length).toBeGreaterThan(before);
    }
    progress.done();
    const told = said.length;
    vi.advanceTimersByTime(9000);
    expect(said.length).toBe(told);
  } finally {
    vi.useRealTimers();
  }
});

test("a line break in a project's name does not break a line", () => {
  const name = "Knot 5\nlaying up … (9.9 s)\u001b[2J";
  const written = "Knot 5\\u000alaying up … (9.9 s)\\u001b[2J";
  expect(said(false, [[`${name}: cutting cloth`, 2000]])).toBe(`${written}: cutting cloth … (2.0 s)\n`);
  expect(said(true, [[name, 0]])).toBe(`[${written} …][]`);
  expect(heard(false, (progress) => progress.tell(() => name))).toBe(`${written}\n`);
});

test("watched, one line tells the stage and goes away", () => {
  const text = said(true, [
    ["building", 0],
    ["cutting", 10],
  ]);
  expect(text).toBe("[building …][cutting …][]");
});

test("better plans are shown as they come, in a log now and then", () => {
  const better = (metres: number) => ({
    material: "woven-800",
    takes: `${metres} m of roll`,
    cost: [0, 1e6 * metres, 0] as const,
  });
  const job = (progress: Progress, at: (ms: number) => void) => {
    for (const [ms, metres] of [
      [4000, 40],
      [5500, 39],
      [5600, 41],
      [6000, 38],
      [11000, 37],
    ]) {
      at(ms);
      progress.better(better(metres));
    }
    progress.done();
  };
  expect(heard(false, job)).toBe(
    "woven-800: 39 m of roll so far … (5.5 s)\nwoven-800: 37 m of roll so far … (11.0 s)\n",
  );
  // That of 41 m comes from another seed.
  expect(heard(true, job)).toBe(
    `${[40, 39, 38, 37].map((metres) => `[woven-800: ${metres} m of roll so far …]`).join("")}[]`,
  );
});

test("nothing done, nothing said", () => {
  expect(said(true, [])).toBe("");
});

test.each([
  [true, "[laying up …][]"],
  [false, ""],
])("watched: %s, what is told stays on a line of its own, with the time", (watched, before) => {
  const text = heard(watched, (progress, at) => {
    progress.stage("laying up");
    at(1840);
    progress.tell((seconds) => `a first plan after ${seconds} s`);
  });
  expect(text).toBe(`${before}a first plan after 1.8 s\n`);
});
