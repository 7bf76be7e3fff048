import type { PlanCourse } from "../cutting/lots/plan-material.ts";

/** Steps of improvement that each marker gets where no time is given: the same input then gives the same files. */
const MARKER_STEPS = 200;

/** How long plans are improved: so many steps, or so many seconds for each material. */
export function planCourse(seconds: number | undefined, onStage: (stage: string) => void): PlanCourse {
  let began = performance.now();
  return {
    steps: seconds === undefined ? MARKER_STEPS : Number.POSITIVE_INFINITY,
    watch: {
      onStage: (stage) => {
        onStage(stage);
        began = performance.now();
      },
      stop: () => seconds !== undefined && performance.now() - began > 1000 * seconds,
    },
  };
}
