/** What a benchmark is made of, and how one is timed. */

/** One thing to time. A file tests/bench/<part>.bench.ts exports `stages: Stage[]`. */
export type Stage = {
  readonly name: string;
  /** Runs once before the timing, untimed: reads files, builds what `run` starts from. */
  readonly prepare?: () => void | Promise<void>;
  /** What is timed. It must do the whole work again each time, so mind caches. */
  readonly run: () => unknown;
  /** Takes the result once it is timed, for figures made of several stages. */
  readonly timed?: (row: Row) => void;
};

/** One line of the result. A bench may add a note: a count or a figure that belongs to the time. */
export type Row = {
  readonly name: string;
  readonly minMs: number;
  readonly medianMs: number;
  readonly maxMs: number;
  readonly runs: number;
  readonly note?: string;
};

export type Timing = {
  /** How many timed runs. */
  readonly runs: number;
  /** Untimed runs before them, so that the engine has compiled the hot paths: at least so many, and for so long. */
  readonly warmUps?: number;
  readonly warmUpMs?: number;
  /** Once this much time is spent a slow stage stops after its third run. */
  readonly budgetMs?: number;
};

const leastRuns = 3;
/** The engine is still compiling in the third run of a full mesh, all but done in the sixth; in short runs it still is after a second. */
const WARM_UPS = 5;
const WARM_UP_MS = 1500;

/** Times a stage: prepares it, warms it up, then runs it again and again. */
export async function timeStage(stage: Stage, timing: Timing): Promise<Row> {
  const { runs, warmUps = WARM_UPS, warmUpMs = WARM_UP_MS, budgetMs = 10_000 } = timing;
  await stage.prepare?.();
  const started = performance.now();
  const spent = () => performance.now() - started;
  for (let i = 0; (i < warmUps || spent() < warmUpMs) && (i === 0 || spent() < budgetMs / 4); i++)
    await stage.run();
  const times: number[] = [];
  while (times.length < runs && (times.length < leastRuns || spent() < budgetMs)) {
    const before = performance.now();
    await stage.run();
    times.push(performance.now() - before);
  }
  const row = rowOf(stage.name, times);
  stage.timed?.(row);
  return row;
}

/** The row of a list of times in ms (at least one). */
export function rowOf(name: string, times: readonly number[]): Row {
  return {
    name,
    minMs: Math.min(...times),
    medianMs: median(times),
    maxMs: Math.max(...times),
    runs: times.length,
  };
}

/** The middle value, or the mean of the two in the middle. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
