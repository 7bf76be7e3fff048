import { expose } from "comlink";
import { afterEach, expect, test, vi } from "vitest";
import type { Job, Part } from "../../renderer/worker/messages.ts";
import { startThread } from "../../renderer/worker/thread.ts";
import { demoProject } from "../project/demo-files.ts";

afterEach(() => {
  vi.unstubAllGlobals();
});

const part: Part = { kind: "stage", name: "shell" };
type Told = (part: Part) => Promise<void>;

test("what a worker told just before it was ended, and comes in after that, is not heard", async () => {
  const { port1, port2 } = new MessageChannel();
  const told = new Promise<Told>((resolve) => {
    expose({ run: (_: Job, tell: Told) => resolve(tell) }, port2);
  });
  // A worker at the other end of a channel. What it had sent when it was ended is under way on a port of its own: that cannot be called back.
  vi.stubGlobal(
    "Worker",
    class {
      postMessage = port1.postMessage.bind(port1);
      addEventListener = port1.addEventListener.bind(port1);
      removeEventListener = port1.removeEventListener.bind(port1);
      terminate(): void {}
    },
  );
  try {
    const thread = startThread("stages");
    port1.start();
    const heard: Part[] = [];
    void thread.run({ project: demoProject("dunlin-4"), quality: "full", shells: 1 }, (each) =>
      heard.push(each),
    );
    const tell = await told;
    await tell(part);
    expect(heard).toEqual([part]);
    thread.end();
    await tell(part);
    expect(heard).toEqual([part]);
  } finally {
    port1.close();
    port2.close();
  }
});
