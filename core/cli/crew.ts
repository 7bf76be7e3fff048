import { availableParallelism } from "node:os";
import { setImmediate as nextTurn } from "node:timers/promises";
import { setFlagsFromString } from "node:v8";
import { Worker } from "node:worker_threads";
import { openWorkshop, type Workshop } from "./workshop.ts";

export type Step = keyof Workshop;

/** Asks for a step of a workshop. What is asked of one hand is done in the order in which it was asked; a fault there is an Error here. */
export type Hand = <S extends Step>(
  step: S,
  ...args: Parameters<Workshop[S]>
) => Promise<ReturnType<Workshop[S]>>;

/** Hands that work side by side, each in a workshop of its own. */
export interface Crew {
  /** One at least. */
  readonly hands: readonly Hand[];
  /** Ends all work at once, done or not. */
  readonly dismiss: () => void;
}

/** Calls a crew of as many hands as are wanted and can work at once. `onStage` hears what each of them begins. */
export type CallCrew = (wanted: number, onStage: (stage: string) => void) => Crew;

/** What is said to a thread, and what it says. */
export interface Asked {
  readonly id: number;
  readonly step: Step;
  readonly args: readonly unknown[];
}
export type Told =
  | { readonly stage: string }
  | { readonly id: number; readonly gives: unknown }
  | { readonly id: number; readonly fault: unknown };

/** The hand that works in this thread, whatever is wanted: each step in a turn of its own, so that what came of the last is seen to first. */
export const ownHand: CallCrew = (_, onStage) => {
  const workshop = openWorkshop(onStage);
  let dismissed = false;
  let last: Promise<unknown> = Promise.resolve();
  const hand: Hand = (step, ...args) => {
    const done = last.then(async () => {
      await nextTurn();
      if (dismissed) throw calledOff();
      return takeStep(workshop, step, args);
    });
    last = done.catch(() => {});
    return done as Promise<ReturnType<Workshop[typeof step]>>;
  };
  const dismiss = () => {
    dismissed = true;
  };
  return { hands: [hand], dismiss };
};

/**
 * Crews of threads, each started from the script that `serveThread` is called in, as many as the machine has cores at the most; where there would
 * be one only, work is done in this thread.
 */
export function threadsOf(script: URL, cores = availableParallelism()): CallCrew {
  return (wanted, onStage) => {
    const number = Math.min(wanted, cores);
    if (number < 2) return ownHand(number, onStage);
    compileLess();
    const threads = Array.from({ length: number }, () => threadHand(script, onStage));
    return {
      hands: threads.map(({ hand }) => hand),
      dismiss: () => {
        for (const { worker } of threads) void worker.terminate();
      },
    };
  };
}

/**
 * Has the engine let a function run three times as long before it is compiled, and take fewer others into it. On the cores beside it a thread has its
 * code compiled while it runs, which takes almost as much of them as the work itself: with several threads they are wanted for the work. Measured on
 * the engine of Node 20, and asked of that one only: to the first plan of two projects 5.7 s of all cores instead of 8.5 s.
 */
function compileLess(): void {
  if (!process.versions.v8.startsWith("11.3.")) return;
  for (const flag of ["--interrupt-budget=400000", "--max-inlined-bytecode-size-cumulative=300"])
    setFlagsFromString(flag);
}

export function takeStep(workshop: Workshop, step: Step, args: readonly unknown[]): unknown {
  return (workshop[step] as (...args: readonly unknown[]) => unknown)(...args);
}

interface Waiting {
  readonly done: (gives: never) => void;
  readonly fail: (fault: unknown) => void;
}

function threadHand(script: URL, onStage: (stage: string) => void): { hand: Hand; worker: Worker } {
  const worker = new Worker(script);
  const waiting = new Map<number, Waiting>();
  let asked = 0;
  let ended: unknown;
  const failAll = (fault: unknown) => {
    ended ??= fault;
    for (const { fail } of waiting.values()) fail(ended);
    waiting.clear();
  };
  worker.on("message", (told: Told) => {
    if ("stage" in told) return onStage(told.stage);
    const { done, fail } = waiting.get(told.id) as Waiting;
    waiting.delete(told.id);
    if ("fault" in told) fail(told.fault);
    else done(told.gives as never);
  });
  worker.on("error", failAll);
  worker.on("messageerror", failAll);
  worker.on("exit", () => failAll(calledOff()));
  const hand: Hand = (step, ...args) => {
    const gives = new Promise<ReturnType<Workshop[typeof step]>>((done, fail) => {
      if (ended !== undefined) return fail(ended);
      const id = asked++;
      waiting.set(id, { done, fail });
      worker.postMessage({ id, step, args } satisfies Asked);
    });
    // Whoever asked may not have come to wait for it yet.
    gives.catch(() => {});
    return gives;
  };
  return { hand, worker };
}

const calledOff = () => new Error("the work was ended before it was done");
