import { useEffect, useMemo, useRef, useState } from "react";
import type { Project } from "../../../../core/project/schema.ts";
import { tell } from "../../../parts/tell.ts";
import { openTrials, type SizeTrials, type Trial } from "./size-trial.ts";

/** A trial begins this long after the last change of the size, ms. */
const PAUSE_MS = 400;

export interface Tried {
  /** What the project comes to, or came to before its lay-up was last mended; null while its shell is being tried. */
  readonly trial: Trial | null;
  /** Whether the trial is of the project as it is now. */
  readonly settled: boolean;
  /** Where further zones are tried on its shell. */
  readonly lay: SizeTrials["lay"] | null;
}

/** Tries a project on its shell: a moment after the shell's last change, at once where only the lay-up changed. */
export function useTrial(project: Project | null): Tried {
  const [told, setTold] = useState<{
    readonly shell: string;
    readonly layup: string;
    readonly trial: Trial;
  } | null>(null);
  const open = useRef<{ readonly shell: string; readonly trials: SizeTrials } | null>(null);
  const shell = useMemo(() => JSON.stringify(project?.shell), [project?.shell]);
  const layup = useMemo(() => JSON.stringify(project?.layup), [project?.layup]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: another name makes no other project.
  useEffect(() => {
    if (!project) return;
    const run = (trials: SizeTrials) => trials.run(project, (trial) => setTold({ shell, layup, trial }));
    if (open.current?.shell === shell) {
      run(open.current.trials);
      return;
    }
    open.current?.trials.end();
    open.current = null;
    const timer = setTimeout(() => {
      open.current = { shell, trials: openTrials(tell) };
      run(open.current.trials);
    }, PAUSE_MS);
    return () => clearTimeout(timer);
  }, [shell, layup]);
  useEffect(
    () => () => {
      open.current?.trials.end();
      open.current = null;
    },
    [],
  );
  const known = project && told?.shell === shell ? told : null;
  return {
    trial: known?.trial ?? null,
    settled: known?.layup === layup,
    lay: known && open.current ? open.current.trials.lay : null,
  };
}
