import type { Job } from "./messages.ts";
import { type ResultsStore, takeIn } from "./results.ts";
import { startThread, type Thread } from "./thread.ts";

/** Measures the shell in a worker of its own: it takes seconds in one go, and must not keep the next change waiting. */
export interface Measuring {
  /** Measures the shell of a job, unless it is measured already. */
  ask(job: Job): void;
  /** Ends a measuring under way if it is of another shell than this job's. */
  leaveOff(job: Job): void;
  end(): void;
}

export function keepMeasured(results: ResultsStore): Measuring {
  let thread: Thread | null = null;
  /** The shell that is being measured, and the one measured last, by their figures. */
  let under: string | null = null;
  let measured: string | null = null;
  const keyOf = ({ project }: Job) => JSON.stringify(project.shell);

  const stop = () => {
    thread?.end();
    thread = null;
    under = null;
    results.setState({ measuring: false });
  };

  return {
    ask(job) {
      const key = keyOf(job);
      if (key === under || key === measured) return;
      if (under !== null) stop();
      thread ??= startThread("measuring");
      under = key;
      results.setState({ measuring: true });
      const done = (fault: string | null) => {
        if (under !== key) return;
        under = null;
        measured = fault === null ? key : null;
        results.setState({ measuring: false, ...(fault !== null && { fault }) });
      };
      thread
        .run({ ...job, quality: "measured" }, (part) => {
          if (under !== key || part.kind === "stage") return;
          results.setState((before) => takeIn(before, part));
          if (part.kind === "measure") results.setState({ measureOf: job.project.shell });
        })
        .then(
          () => done(null),
          (error: unknown) => done(error instanceof Error ? error.message : String(error)),
        );
    },
    leaveOff(job) {
      if (under !== null && under !== keyOf(job)) stop();
    },
    end: stop,
  };
}
