import { useMemo } from "react";
import { useDesk } from "../../../desk.ts";
import { type FigurePath, setting } from "../../../document/figure-path.ts";
import type { Edited } from "../../../document/project-store.ts";
import type { FigureTaker } from "../../../parts/figure-field.tsx";
import { words } from "../../../words.ts";

const faultOf = (edited: Edited): string | null =>
  edited.ok ? null : edited.problems.map((problem) => problem.sentence).join(" ");

/** Takes the values of the figure at a path; `called` names it in the history: "Change depth of ledge". */
export function useTaker(path: FigurePath, called: string): FigureTaker {
  const { project } = useDesk();
  return useMemo(() => {
    const step = words.steps.change(called);
    return {
      take: (value) => faultOf(project.edit(step, setting(path, value))),
      drag() {
        const drag = project.drag(step);
        return {
          show: (value) => faultOf(drag.show(setting(path, value))),
          keep: drag.keep,
          drop: drag.drop,
        };
      },
    };
  }, [project, path, called]);
}
