import { availableParallelism } from "node:os";
import { setImmediate as nextTurn } from "node:timers/promises";
import { setFlagsFromString } from "node:v8";
import { Worker } from "node:worker_threads";
import type { Better, Watch } from "../cutting/lots/watch.ts";
import type { Progress } from "./progress.ts";
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
  /** Has plans that are being improved, and those to come, taken as they are. */
  readonly hurry: () => void;
  /** Ends all work at once, done or not. */
  readonly dismiss: () => void;
}

/** What is heard of a crew's work. */
export type Heard = Pick<Watch, "onStage" | "onPart" | "onBetter">;

/** All of it, shown as progress. */
export const shownOn = ({ stage, part, better }: Progress): Heard => ({
  onStage: stage,
  onPart: part,
  onBetter: better,
});

/** Calls a crew of as many hands as are wanted and can work at once. */
export type CallCrew = (wanted: number, heard: Heard) => Crew;

/** What is said to a thread, and what it says. */
export interface Asked {
  readonly id: number;
  readonly step: Step;
  readonly args: readonly unknown[];
}
export type Told =
  | { readonly stage: string }
  | { readonly part: string }
  | { readonly better: Better }
  | { readonly id: number; readonly gives: unknown }
  | { readonly id: number; readonly fault: unknown };

/** The hand that works in this thread, whatever is wanted: each step in a turn of its own, so that what came of the last is seen to first. */
export const ownHand: CallCrew = (_, heard) => {
  let hurried = false;
  const workshop = openWorkshop({ ...heard, stop: () => hurried });
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
  const hurry = () => {
    hurried = true;
  };
  return { hands: [named(hand)], hurry, dismiss };
};

/**
 * Crews of threads, each started from the script that `serveThread` is called in, as many as the machine has cores at the most. Even one by itself
 * leaves this thread free to hear what comes in between.
 */
export function threadsOf(script: URL, cores = availableParallelism()): CallCrew {
  return (wanted, heard) => {
    const number = Math.max(1, Math.min(wanted, cores));
    if (number > 1) compileLess();
    const flag = new Int32Array(new SharedArrayBuffer(4));
    const threads = Array.from({ length: number }, () => threadHand(script, flag, heard));
    return {
      hands: threads.map(({ hand }) => named(hand)),
      hurry: () => Atomics.store(flag, 0, 1),
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

/** What a thread is started with. */
export interface ThreadData {
  /** One number: not 0 once plans are to be taken as they are. */
  readonly flag: Int32Array;
}

/** A hand whose faults say which project or material it was at work on. */
function named(hand: Hand): Hand {
  const projects = new Map<number, string>();
  const subjectOf = (step: Step, args: readonly unknown[]): string => {
    if (step === "plan") return (args as Parameters<Workshop["plan"]>)[0].demand.material.id;
    const [number, project] = args as Parameters<Workshop["begin"]>;
    if (step === "begin") projects.set(number, project.name);
    return projects.get(number) ?? `project ${number}`;
  };
  return (step, ...args) => {
    const subject = subjectOf(step, args);
    const gives = hand(step, ...args).catch((fault) => {
      throw new Error(`${subject}: ${fault instanceof Error ? fault.message : fault}`, { cause: fault });
    });
    // Whoever asked may not have come to wait for it yet.
    gives.catch(() => {});
    return gives;
  };
}

interface Waiting {
  readonly done: (gives: never) => void;
  readonly fail: (fault: unknown) => void;
}

function threadHand(
  script: URL,
  flag: Int32Array,
  { onStage, onPart, onBetter }: Heard,
): { hand: Hand; worker: Worker } {
  const worker = new Worker(script, { workerData: { flag } satisfies ThreadData });
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
    if ("part" in told) return onPart(told.part);
    if ("better" in told) return onBetter(told.better);
    const { done, fail } = waiting.get(told.id) as Waiting;
    waiting.delete(told.id);
    if ("fault" in told) fail(told.fault);
    else done(told.gives as never);
  });
  worker.on("error", failAll);
  worker.on("messageerror", failAll);
  worker.on("exit", () => failAll(calledOff()));
  const hand: Hand = (step, ...args) => {
    return new Promise<ReturnType<Workshop[typeof step]>>((done, fail) => {
      if (ended !== undefined) return fail(ended);
      const id = asked++;
      waiting.set(id, { done, fail });
      worker.postMessage({ id, step, args } satisfies Asked);
    });
  };
  return { hand, worker };
}

const calledOff = () => new Error("the work was ended before it was done");
