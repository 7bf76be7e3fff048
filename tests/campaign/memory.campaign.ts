import { test } from "vitest";
import { countGraphics, expectLevel, openAndClose } from "../e2e/open-and-close.ts";
import { windows } from "../e2e/windows.ts";
import { seedCount } from "../house/seeds.ts";

const { open } = windows();

test("200 times opened and closed: the memory of the window stays level", async () => {
  const times = seedCount(200);
  const page = await open({ prepare: countGraphics });
  const held = await openAndClose(page, times, false);
  held.forEach(({ heapMb, nodes, listeners }, i) => {
    const shown = i < 5 || (i + 1) % 20 === 0;
    if (shown) console.info(`${i + 1}: heap ${heapMb.toFixed(2)} MB, ${nodes} nodes, ${listeners} listeners`);
  });
  // The engine's own code grows for a while, as it makes it faster.
  expectLevel(held, Math.floor(times / 4));
});
