import { proxy, type Remote, releaseProxy, transfer, wrap } from "comlink";
import { words } from "../words.ts";
import type { Job, Part } from "./messages.ts";
import type { Outcome } from "./run-job.ts";
import type { Trials } from "./trials.ts";
import type { WorkerApi } from "./worker.ts";

/** A worker of the stages. */
export interface Thread {
  /** Asks what would be if; answered between two parts of a job. */
  readonly trials: Remote<Trials>;
  /** Runs a job and tells its parts; rejects with an Error where the program itself failed. */
  run(job: Job, tell: (part: Part) => void): Promise<Outcome>;
  /** Has it make ready for drags of a job's shell, while there is nothing else to do. */
  rehearse(job: Job): Promise<void>;
  /** Has its kits cut from now on by whoever is given the port. */
  cutElsewhere(): MessagePort;
  /** Cuts kits for whoever is at the other end of a port; rejects when the worker is lost. */
  cutFor(port: MessagePort): Promise<never>;
  /** Ends it in the middle of whatever it does: nothing more is told, and its promises stay open. Once is enough. */
  end(): void;
}

export function startThread(name: string): Thread {
  const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module", name });
  const api = wrap<WorkerApi>(worker);
  // A worker whose program cannot be fetched never answers: what waits for it would wait for good.
  const lost = new Promise<never>((_, reject) => {
    worker.addEventListener("error", ({ message }) => reject(new Error(message || words.lostWorker)));
  });
  lost.catch(() => {});
  let ended = false;
  return {
    trials: api,
    run(job, tell) {
      // Parts come by a port of their own: what was under way on it when the worker ended still arrives.
      const hear = (part: Part) => {
        if (!ended) tell(part);
      };
      return Promise.race([api.run(job, proxy(hear)), lost]);
    },
    rehearse: (job) => Promise.race([api.rehearse(job), lost]),
    cutElsewhere() {
      const { port1, port2 } = new MessageChannel();
      void api.cutAt(transfer(port1, [port1]));
      return port2;
    },
    cutFor(port) {
      void api.cutFor(transfer(port, [port]));
      return lost;
    },
    end() {
      if (ended) return;
      ended = true;
      // Answers still awaited would hold the worker, its buffers and all that waits for them for good.
      api[releaseProxy]();
      worker.terminate();
    },
  };
}
