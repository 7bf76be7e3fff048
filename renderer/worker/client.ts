import type { ProjectStore } from "../document/project-store.ts";
import { session } from "../document/session.ts";
import { keepMeasured } from "./measuring.ts";
import type { Job, Part } from "./messages.ts";
import { type ResultsStore, takeIn } from "./results.ts";
import { startThread, type Thread } from "./thread.ts";

export interface Keeping {
  readonly trials: Thread["trials"];
  end(): void;
}

/**
 * Keeps the results up with the project: every change asks the worker again, coarsely while something is dragged. One job is
 * sent at a time until its shell has been seen, so that a fast drag shows a shell for each job instead of none; from there on
 * the newest job stops the one under way. A second worker cuts the kit, as a band's cloth is cut in one go; when all is quiet, a third one
 * measures the shell.
 */
export function keepResults(store: ProjectStore, results: ResultsStore): Keeping {
  const thread = startThread("stages");
  const orders = thread.cutElsewhere();
  let cutting: Thread | null = null;
  const measuring = keepMeasured(results);
  let waiting: Job | null = null;
  let unseen = false;
  let newest = 0;

  const fail = (error: unknown) =>
    results.setState({ stage: null, fault: error instanceof Error ? error.message : String(error) });

  /** Started when there is something to cut, so that nothing keeps the first sight of the shell waiting. */
  const startCutting = (): Thread => {
    const started = startThread("cutting");
    started.cutFor(orders).catch(fail);
    return started;
  };

  const send = (job: Job) => {
    const own = ++newest;
    unseen = true;
    waiting = null;
    const seen = () => {
      if (own !== newest) return;
      unseen = false;
      if (waiting) send(waiting);
    };
    const tell = (part: Part) => {
      // Parts of a job that was overtaken still come in order and are not older than what is shown.
      results.setState((before) => takeIn(before, part));
      if (part.kind === "kit") results.setState({ of: job.project });
      if (part.kind === "layup") cutting ??= startCutting();
      if (part.kind === "lines" || part.kind === "refused" || (part.kind === "shell" && part.lines)) seen();
    };
    const end = (fault: string | null) => {
      if (own === newest) results.setState(fault === null ? { stage: null } : { stage: null, fault });
      seen();
      if (own !== newest || job.quality !== "full" || fault !== null) return;
      measuring.ask(job);
      thread.rehearse(job).catch(fail);
    };
    thread.run(job, tell).then(
      (outcome) => {
        if (own === newest && job.quality === "full" && outcome === "done")
          results.setState({ of: job.project });
        end(null);
      },
      (error: unknown) => end(error instanceof Error ? error.message : String(error)),
    );
  };

  const ask = () => {
    const { project, dragging } = store.state.getState();
    // A band that takes long to lay would keep the next shape of a drag waiting, and no zone is drawn there.
    const follows = session.getState().place === "drawing-office" ? "shape" : "sketch";
    const job: Job = { project, quality: dragging === null ? "full" : follows, shells: 1 };
    measuring.leaveOff(job);
    if (unseen) waiting = job;
    else send(job);
  };

  ask();
  const leave = store.state.subscribe((now, before) => {
    if (now.project !== before.project || (now.dragging === null && before.dragging !== null)) ask();
  });
  return {
    trials: thread.trials,
    end() {
      leave();
      thread.end();
      cutting?.end();
      measuring.end();
    },
  };
}
