import type { Page } from "playwright-core";
import { expect } from "vitest";
import { type Heap, weighHeap } from "./heap.ts";

/** What a page holds, after its garbage was collected. */
export interface Held {
  readonly heapMb: number;
  readonly nodes: number;
  readonly listeners: number;
  readonly workers: number;
  /** Buffers and textures of the graphics card that were made and not deleted. */
  readonly buffers: number;
  readonly textures: number;
  /** What the heap is made of; after some cycles only, as it takes seconds to know. */
  readonly heap: Heap | null;
}

/** Runs in the page: counts what is made and deleted on the graphics card. */
export function countGraphics(): void {
  const live = { buffers: 0, textures: 0 };
  Object.assign(globalThis, { liveGraphics: live });
  const context = WebGL2RenderingContext.prototype as unknown as Record<
    string,
    (...args: unknown[]) => unknown
  >;
  const count = (what: keyof typeof live, method: string, by: number) => {
    const own = context[method];
    context[method] = function (this: unknown, ...args: unknown[]) {
      if (by > 0 || args[0]) live[what] += by;
      return own.apply(this, args);
    };
  };
  count("buffers", "createBuffer", 1);
  count("buffers", "deleteBuffer", -1);
  count("textures", "createTexture", 1);
  count("textures", "deleteTexture", -1);
}

/** One time in so many is waited for until the kit is cut. */
const TO_THE_END = 8;
/** One in so many is weighed, all of them waited for: what is drawn last stays at hand until something else is, so that they hold as much. */
const WEIGHED = 3 * TO_THE_END;
/** A worker that is ended in the middle of its work has two seconds of Chromium's to leave by itself; on a busy machine that is longer, ms. */
const LEAVING_MS = 20_000;

/**
 * Opens Dunlin 4 and goes back to the start so many times; what the page held after each, told as soon as it is known. One time in eight
 * it is left when the kit is cut, else as soon as the shell stands, in the middle of the work: that is where something may stay behind, and
 * is soon come to.
 */
export async function openAndClose(
  page: Page,
  times: number,
  tell: (held: Held, cycle: number) => void,
): Promise<Held[]> {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable");
  const held: Held[] = [];
  for (let i = 0; i < times; i++) {
    await page.getByRole("button", { name: /^Dunlin 4/ }).click();
    await page.locator('[data-dimension="length"]').waitFor();
    if (i % TO_THE_END === 0) await page.locator('[data-total="woven"]').getByText("m²").waitFor();
    await page.getByRole("button", { name: "Back to the start" }).click();
    await page.getByRole("button", { name: "Start from a plain shell" }).waitFor();
    // A frame on, so that what leaves with the page has left.
    await page.evaluate(() => new Promise((done) => setTimeout(done, 50)));
    const weigh = i % WEIGHED === 0;
    if (weigh || i === times - 1)
      await expect.poll(() => page.workers().length, { timeout: LEAVING_MS }).toBe(0);
    await session.send("HeapProfiler.collectGarbage");
    const { metrics } = await session.send("Performance.getMetrics");
    const of = (name: string) => metrics.find((metric) => metric.name === name)?.value ?? Number.NaN;
    const live = await page.evaluate(
      () => (globalThis as { liveGraphics?: { buffers: number; textures: number } }).liveGraphics,
    );
    const now: Held = {
      heapMb: of("JSHeapUsedSize") / 2 ** 20,
      nodes: of("Nodes"),
      listeners: of("JSEventListeners"),
      workers: page.workers().length,
      buffers: live?.buffers ?? Number.NaN,
      textures: live?.textures ?? Number.NaN,
      heap: weigh ? await weighHeap(session) : null,
    };
    held.push(now);
    tell(now, i + 1);
  }
  return held;
}

/** Most that objects and buffers may grow from the settled part to the end, MB each: a desk that stays weighs more. */
const STRAY_MB = 0.3;
/** Empty pictures that three makes for each of its renderers, one of each kind; they go with the canvas. */
const OF_THREE = 4;
/** Nodes and listeners go up and down a little by what was under way: compared are so many cycles with as many. */
const TOGETHER = 10;

/**
 * From `settled` cycles on nothing more is held: no buffer of the graphics card after any of them, and in the end no worker, and no more
 * nodes, listeners, objects and buffers than then. The engine's code is no part of it: it goes on growing for as long as the engine
 * finds something to make faster.
 */
export function expectLevel(held: readonly Held[], settled: number): void {
  held.slice(settled).forEach(({ buffers, textures }, i) => {
    const cycle = settled + i + 1;
    expect({ cycle, buffers, textures }).toEqual({ cycle, buffers: 0, textures: OF_THREE * cycle });
  });
  expect(held.at(-1)?.workers).toBe(0);
  const then = held.slice(Math.max(0, settled - TOGETHER), settled);
  const now = held.slice(-TOGETHER);
  for (const what of ["nodes", "listeners"] as const) {
    const [before, after] = [then, now].map((cycles) => cycles.map((each) => each[what]));
    expect(Math.min(...after), what).toBeLessThanOrEqual(Math.max(...before));
  }
  const weights = (cycles: readonly Held[]) => cycles.flatMap(({ heap }) => heap ?? []);
  const [before, after] = [weights(held.slice(0, settled)), weights(held.slice(settled))].map((all) =>
    all.at(-1),
  );
  if (!before || !after)
    throw new Error(`Fewer than ${2 * WEIGHED} cycles do not show whether the memory is level.`);
  for (const what of ["objectsMb", "buffersMb"] as const)
    expect(after[what] - before[what], what).toBeLessThan(STRAY_MB);
}
