import type { Page } from "playwright-core";

/**
 * One answer of the window to an input, ms. From the input itself until its answer stands in the page: computing, and what the page drew
 * meanwhile of answers before. Then its own frame, until that is drawn.
 */
export interface Answer {
  readonly computingMs: number;
  readonly drewMs: number;
  readonly frameMs: number;
}

interface Watch {
  /** When the figure was asked for, by what is written, and when the scene told it: answers that wait for their frame. */
  readonly asked: Map<string, number>;
  waiting: { asked: number; there: number }[];
  readonly answers: Answer[];
  /** From when to when the page drew. */
  readonly drawn: (readonly [number, number])[];
  /** When each stage of the work began. */
  readonly stages: { readonly name: string; readonly at: number }[];
  draws: number;
}

/** Runs in the page: watches inputs, what the scene tells of the length, and frames with draw calls in them. */
export function watchFrames(): void {
  const watch: Watch = { asked: new Map(), waiting: [], answers: [], drawn: [], stages: [], draws: 0 };
  Object.assign(globalThis, { watch });
  const context = WebGL2RenderingContext.prototype as unknown as Record<
    string,
    (...args: unknown[]) => unknown
  >;
  for (const name of ["drawElements", "drawElementsInstanced", "drawArrays"]) {
    const draw = context[name];
    context[name] = function (this: unknown, ...args: unknown[]) {
      watch.draws++;
      return draw.apply(this, args);
    };
  }
  const endOfFrame = (from: number) => {
    const to = performance.now();
    watch.drawn.push([from, to]);
    const seen = watch.waiting.filter(({ there }) => there <= from);
    watch.waiting = watch.waiting.filter(({ there }) => there > from);
    for (const { asked, there } of seen) {
      const drewMs = watch.drawn.reduce(
        (sum, [a, b]) => sum + Math.max(0, Math.min(b, there) - Math.max(a, asked)),
        0,
      );
      watch.answers.push({ computingMs: there - asked - drewMs, drewMs, frameMs: to - there });
    }
  };
  // A message posted in a frame comes in when that is over: laid out, painted and, without a graphics card, drawn.
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = ({ data }) => endOfFrame(data);
  const nextFrame = requestAnimationFrame;
  globalThis.requestAnimationFrame = (act) =>
    nextFrame((time) => {
      const from = performance.now();
      const before = watch.draws;
      act(time);
      if (watch.draws > before) port2.postMessage(from);
    });
  addEventListener(
    "pointermove",
    ({ buttons, timeStamp }) => {
      const field = document.querySelector<HTMLInputElement>('input[name="shell.outline.length"]');
      if (buttons === 0 || !field) return;
      // The field has its new value when the event is over.
      setTimeout(() => {
        if (!watch.asked.has(field.value)) watch.asked.set(field.value, timeStamp);
      }, 0);
    },
    { capture: true },
  );
  let told = "";
  new MutationObserver(() => {
    const stage = document.querySelector<HTMLElement>("[data-stage]")?.dataset.stage;
    if (stage && stage !== watch.stages.at(-1)?.name)
      watch.stages.push({ name: stage, at: performance.now() });
    const text = document.querySelector('[data-dimension="length"]')?.textContent ?? "";
    if (text === told) return;
    told = text;
    const asked = watch.asked.get(text);
    if (asked !== undefined) watch.waiting.push({ asked, there: performance.now() });
  }).observe(document, {
    subtree: true,
    childList: true,
    characterData: true,
    attributeFilter: ["data-stage"],
  });
}

const drawsOf = (page: Page) =>
  page.evaluate(() => (globalThis as unknown as { watch: { draws: number } }).watch.draws);

/** What came of a drag of the length. */
export interface Dragged {
  readonly answers: readonly Answer[];
  /** From letting go to the exact shell with every zone and its area, and to the kit with its cloth, ms. */
  readonly laidMs: number;
  readonly kitMs: number;
}

/** How often a hand that drags is looked at, ms: as screens do, more or less. */
const BEAT_MS = 20;

/** Drags the label of the length, one move at each beat whether or not it is answered by then: each preview that was seen, and how long the full result took after letting go. */
export async function dragLength(page: Page, moves: number): Promise<Dragged> {
  const label = await page.getByText("length", { exact: true }).boundingBox();
  if (!label) throw new Error("The label of the length is not on screen.");
  const [x, y] = [label.x + 10, label.y + label.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= moves; i++) {
    await Promise.all([page.mouse.move(x + 4 * i, y), page.waitForTimeout(BEAT_MS)]);
  }
  const letGo = await page.evaluate(() => performance.now());
  await page.mouse.up();
  await page.locator("[data-total][data-stale]").first().waitFor({ state: "detached" });
  const { watch, now } = await page.evaluate(() => ({
    watch: (globalThis as unknown as { watch: Pick<Watch, "answers" | "stages"> }).watch,
    now: performance.now(),
  }));
  // Once all is laid up, the tape is the next stage.
  const tape = watch.stages.find(({ name, at }) => name === "tape" && at > letGo);
  return { answers: watch.answers, laidMs: (tape?.at ?? Number.NaN) - letGo, kitMs: now - letGo };
}

/** Frames drawn while nothing is done for so long. */
export async function idleDraws(page: Page, ms: number): Promise<number> {
  const before = await drawsOf(page);
  await page.waitForTimeout(ms);
  return (await drawsOf(page)) - before;
}

/** How long the window takes, from the pointer's move on, to tell what lies under it: ms of each of so many moves that changed it. */
export async function hoverAnswers(page: Page, moves: number): Promise<number[]> {
  const box = await page.locator("canvas[data-engine]").boundingBox();
  if (!box) throw new Error("The scene is not on screen.");
  await page.evaluate(() => {
    const times: number[] = [];
    Object.assign(globalThis, { times });
    const readout = document.querySelector("[data-readout]");
    let at = 0;
    addEventListener(
      "pointermove",
      () => {
        at = performance.now();
      },
      { capture: true },
    );
    if (readout)
      new MutationObserver(() => times.push(performance.now() - at)).observe(readout, {
        subtree: true,
        childList: true,
        characterData: true,
      });
  });
  for (let i = 0; i < moves; i++) {
    await page.mouse.move(
      box.x + box.width * (0.25 + (0.5 * ((i * 7) % moves)) / moves),
      box.y + box.height * (0.4 + 0.25 * Math.sin(i)),
    );
    await page.waitForTimeout(60);
  }
  return page.evaluate(() => (globalThis as unknown as { times: number[] }).times);
}
