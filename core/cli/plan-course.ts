import type { PlanCourse } from "../cutting/lots/plan-material.ts";
import type { Watch } from "../cutting/lots/watch.ts";

/** Steps of improvement that each marker gets where no time is given: the same input then gives the same files. */
const MARKER_STEPS = 200;

/** How long plans are improved: so many steps, or so many seconds for each material, unless the watch ends it. */
export function planCourse(seconds: number | undefined, watch: Watch): PlanCourse {
  let began = performance.now();
  return {
    steps: seconds === undefined ? MARKER_STEPS : Number.POSITIVE_INFINITY,
    watch: {
      ...watch,
      onStage: (stage) => {
        watch.onStage(stage);
        began = performance.now();
      },
      stop: () => watch.stop() || (seconds !== undefined && performance.now() - began > 1000 * seconds),
    },
  };
}
