import { expose } from "comlink";
import { afterEach, expect, test, vi } from "vitest";
import { makeProjectStore } from "../../renderer/document/project-store.ts";
import { keepResults } from "../../renderer/worker/client.ts";
import type { Job, Part, ShellView } from "../../renderer/worker/messages.ts";
import { makeResultsStore } from "../../renderer/worker/results.ts";
import { demoProject } from "../project/demo-files.ts";

afterEach(() => {
  vi.unstubAllGlobals();
});

const shape: Part = { kind: "shell", shell: {} as ShellView, lines: [] };
type Tell = (part: Part) => Promise<void>;

test("the next shape of a drag is asked for at once where frames are quick, and where they are slow once the one before is drawn", async () => {
  const jobs: { job: Job; tell: Tell }[] = [];
  const { port1, port2 } = new MessageChannel();
  const run = (job: Job, tell: Tell) => {
    jobs.push({ job, tell });
    return new Promise<never>(() => {});
  };
  expose({ run, cutAt() {} }, port2);
  vi.stubGlobal(
    "Worker",
    class {
      postMessage = port1.postMessage.bind(port1);
      addEventListener = port1.addEventListener.bind(port1);
      removeEventListener = port1.removeEventListener.bind(port1);
      terminate(): void {}
    },
  );
  port1.start();
  let frames: (() => void)[] = [];
  vi.stubGlobal("requestAnimationFrame", (act: () => void) => frames.push(act));
  const draw = () => {
    const now = frames;
    frames = [];
    for (const act of now) act();
  };
  const pause = (ms: number) => new Promise((resume) => setTimeout(resume, ms));
  const store = makeProjectStore(demoProject("dunlin-4"));
  const keeping = keepResults(store, makeResultsStore());
  try {
    const shown = (depth: number) =>
      drag.show((project) => {
        project.shell.floor.stations[0].depth = depth;
      });
    const answer = (n: number) => jobs[n - 1].tell(shape);
    const count = (n: number) => vi.waitFor(() => expect(jobs.length).toBe(n));
    await count(1);
    // The first job is the full one: it is seen with its lines.
    await jobs[0].tell({ kind: "lines", lines: [] });
    const drag = store.drag("Change the depth");
    shown(1101);
    await count(2);
    shown(1102);
    await answer(2);
    await count(3);
    // A frame of 60 ms.
    await pause(60);
    draw();
    await pause(20);
    shown(1103);
    await answer(3);
    await pause(50);
    expect(jobs.length).toBe(3);
    shown(1104);
    draw();
    await count(4);
    expect(jobs.map(({ job }) => job.quality)).toEqual(["full", "shape", "shape", "shape"]);
    expect(jobs[3].job.project.shell.floor.stations[0].depth).toBe(1104);
  } finally {
    keeping.end();
    port1.close();
    port2.close();
  }
});
