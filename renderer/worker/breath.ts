/** Longest time worked without looking up for something newer, ms. */
const BREATH_MS = 25;

/** Pauses if it is time, or at once if `now`; true if the work is to stop. */
export type Breath = (stopped: () => boolean, now?: boolean) => Promise<boolean>;

/** Work that looks up every now and then; `breathe` lets messages in. */
export function makeBreath(breathe: () => Promise<void>): Breath {
  let last = performance.now();
  return async (stopped, now = false) => {
    if (now || performance.now() - last > BREATH_MS) {
      await breathe();
      last = performance.now();
    }
    return stopped();
  };
}

/** Runs steps to their end, with pauses; null if the work is to stop before. */
export async function inSteps<T>(
  steps: Generator<void, T>,
  breath: Breath,
  stopped: () => boolean,
): Promise<T | null> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    if (await breath(stopped)) return null;
  }
}
