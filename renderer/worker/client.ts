import { proxy, type Remote, wrap } from "comlink";
import type { ProjectStore } from "../document/project-store.ts";
import type { Job, Part } from "./messages.ts";
import { type ResultsStore, takeIn } from "./results.ts";
import type { WorkerApi } from "./worker.ts";

/**
 * Keeps the results up with the project: every change asks the worker again, coarsely while something is dragged. One job is
 * sent at a time until its shell has been seen, so that a fast drag shows a shell for each job instead of none; from there on
 * the newest job stops the one under way.
 */
export function keepResults(store: ProjectStore, results: ResultsStore): () => void {
  const thread = new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name: "stages" });
  const stages: Remote<WorkerApi> = wrap<WorkerApi>(thread);
  let waiting: Job | null = null;
  let unseen = false;
  let newest = 0;

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
      if (part.kind === "shell" || part.kind === "lines" || part.kind === "refused") seen();
    };
    stages.run(job, proxy(tell)).then(
      () => {
        if (own === newest) results.setState({ stage: null });
        seen();
      },
      (error: unknown) => {
        const fault = error instanceof Error ? error.message : String(error);
        if (own === newest) results.setState({ stage: null, fault });
        seen();
      },
    );
  };

  const ask = () => {
    const { project, dragging } = store.state.getState();
    const job: Job = { project, quality: dragging === null ? "full" : "sketch", shells: 1 };
    if (unseen) waiting = job;
    else send(job);
  };

  ask();
  const leave = store.state.subscribe((now, before) => {
    if (now.project !== before.project || (now.dragging === null && before.dragging !== null)) ask();
  });
  return () => {
    leave();
    thread.terminate();
  };
}
