import { test } from "vitest";
import { countGraphics, expectLevel, openAndClose } from "../e2e/open-and-close.ts";
import { PATIENCE, windows } from "../e2e/windows.ts";
import { seedCount } from "../house/seeds.ts";

const { open } = windows({ timed: true });

test("200 times opened and closed: the memory of the window stays level", async () => {
  const times = seedCount(200);
  const page = await open({ viewport: { width: 1440, height: 900 }, prepare: countGraphics });
  // However busy the machine is meanwhile: it is not time that is measured.
  page.setDefaultTimeout(10 * PATIENCE);
  const from = performance.now();
  const held = await openAndClose(page, times, ({ heapMb, nodes, listeners, buffers, heap }, cycle) => {
    if (cycle > 5 && cycle % 20 !== 0 && !heap) return;
    const seconds = ((performance.now() - from) / 1000).toFixed(0);
    console.info(
      `${cycle} after ${seconds} s: heap ${heapMb.toFixed(2)} MB, ${nodes} nodes, ${listeners} listeners, ${buffers} buffers`,
    );
    if (heap)
      console.info(
        `  of the heap: objects ${heap.objectsMb.toFixed(2)} MB, typed arrays ${heap.buffersMb.toFixed(2)} MB, the engine's code ${heap.codeMb.toFixed(2)} MB`,
      );
  });
  expectLevel(held, Math.floor(times / 4));
});
