import { afterEach, expect, test, vi } from "vitest";
import { words } from "../../renderer/words.ts";
import { startThread } from "../../renderer/worker/thread.ts";
import { demoProject } from "../project/demo-files.ts";

afterEach(() => {
  vi.unstubAllGlobals();
});

/** A worker whose program is not there, as when the app was built anew while a window of the old one is open: it only tells an error. */
class NotThere extends EventTarget {
  postMessage(): void {}
  terminate(): void {}
  constructor() {
    super();
    queueMicrotask(() => this.dispatchEvent(Object.assign(new Event("error"), { message: "" })));
  }
}

test("a worker that cannot be loaded is told, and keeps nobody waiting", async () => {
  vi.stubGlobal("Worker", NotThere);
  const thread = startThread("stages");
  const job = { project: demoProject("dunlin-4"), quality: "full", shells: 1 } as const;
  await expect(thread.run(job, () => {})).rejects.toThrow(words.lostWorker);
  thread.end();
});
