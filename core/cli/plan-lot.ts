import { type CutLot, type LotToCut, lotOf, materialTasks } from "../cutting/lots/cut-lot.ts";
import type { LotModel } from "../cutting/lots/lot-model.ts";
import { type MarkerSet, markersCost } from "../cutting/lots/markers.ts";
import type { MaterialPlan, MaterialTask, Unplanned } from "../cutting/lots/plan-material.ts";
import { compareCosts } from "../packing/cost.ts";
import type { Crew } from "./crew.ts";
import { onFirstCtrlC } from "./first-ctrl-c.ts";
import { ourFaultIn } from "./our-fault.ts";
import type { Progress } from "./progress.ts";

/**
 * Cuts a lot of models, its materials shared out among the hands of a crew: each for the usual number of steps, or for `seconds`; then hands that would be
 * idle look for plans of the same materials from other seeds. A first Ctrl-C has all plans taken as they are. A material in whose plan we have a fault
 * (`onOurFault`) goes without one, as the lot's findings say; the others are planned.
 */
export async function planLot(
  models: readonly LotModel[],
  lot: LotToCut,
  seconds: number | undefined,
  crew: Crew,
  progress: Progress,
  onOurFault: () => void,
): Promise<CutLot> {
  const tasks = materialTasks(models, lot);
  const heard = onFirstCtrlC(() => {
    crew.hurry();
    progress.tell(
      (after) => `Stopped after ${after} s: each plan is taken as it is by now, and the rest is done.`,
    );
  });
  if (seconds !== undefined)
    progress.tell(() => "Ctrl-C takes the plans as they are by then; a second one ends at once.");
  try {
    const jobs = jobsOf(tasks, seconds === undefined ? 1 : crew.hands.length);
    const waiting = [...jobs];
    let atWork = crew.hands.length;
    await Promise.all(
      crew.hands.map(async (hand) => {
        for (let job = waiting.shift(); job; job = waiting.shift()) {
          try {
            job.plan = await hand("plan", job.task, seconds);
          } catch (fault) {
            job.fault = fault;
            onOurFault();
            // It may never work again: what is waiting is left to the others.
            if (atWork > 1) {
              atWork--;
              return;
            }
          }
        }
      }),
    );
    const plans = tasks.map((task, number) =>
      bestPlan(
        task,
        jobs.filter((job) => job.number === number),
        progress,
      ),
    );
    if (seconds === undefined)
      for (const plan of plans) if (plan.kind === "markers" && plan.inGroups) tellGroups(plan, progress);
    return lotOf(models, lot, plans);
  } finally {
    heard();
  }
}

/** Tells that a plan stopped at its limit, and what would take it further. */
function tellGroups({ material, plan }: MarkerSet, { tell }: Progress): void {
  const number = plan.markers.reduce((sum, { placements }) => sum + placements.length, 0);
  tell(
    () =>
      `${material}: its ${number} pieces are many and were laid out in groups; with --seconds they are improved all together, too.`,
  );
}

/** A task that a hand does, and the plan that it makes or the fault that it meets. */
interface Job {
  readonly number: number;
  readonly task: MaterialTask;
  plan?: MaterialPlan;
  fault?: unknown;
}

/** Each task once, and those with rolls or sheets as often again, from other seeds, as there are hands for. */
function jobsOf(tasks: readonly MaterialTask[], hands: number): Job[] {
  const jobs = tasks.map((task, number): Job => ({ number, task }));
  const laidOut = jobs.filter(({ task }) => task.demand.material.kind !== "strip");
  const more = Math.max(0, Math.floor(hands / laidOut.length) - 1);
  const others = Array.from({ length: laidOut.length === 0 ? 0 : more }, (_, k) =>
    laidOut.map(({ number, task }): Job => {
      const seed = task.cutting.seed + k + 1;
      return { number, task: { ...task, cutting: { ...task.cutting, seed } } };
    }),
  );
  return [...jobs, ...others.flat()];
}

/** The best of the plans of a task, of equal ones the first; a fault where others found a plan is told at once. */
function bestPlan(
  { demand }: MaterialTask,
  jobs: readonly Job[],
  { tell }: Progress,
): MaterialPlan | Unplanned {
  const plans = jobs.flatMap(({ plan }) => (plan ? [plan] : []));
  const [says] = jobs.flatMap(({ plan, fault }) => (plan ? [] : [ourFaultIn(fault)]));
  if (plans.length === 0) return { kind: "unplanned", says };
  if (says !== undefined) tell(() => `${demand.material.id}: one of its plans was not made. ${says}`);
  const cost = (plan: MaterialPlan) =>
    plan.kind === "strips" ? ([0, 0, 0] as const) : markersCost(demand, plan.plan);
  return plans.reduce((best, plan) => (compareCosts(cost(plan), cost(best)) < 0 ? plan : best));
}
