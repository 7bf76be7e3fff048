import type { Project } from "../../../../core/project/schema.ts";
import type { Adjustment } from "../../../../core/shell/shell.ts";
import { makeResultsStore, type Results, takeIn } from "../../../worker/results.ts";
import { startThread, type Thread } from "../../../worker/thread.ts";

/** What a project comes to on its shell: every zone laid or adrift, or why the shell cannot be built. */
export interface Trial {
  readonly refusals: Results["refusals"];
  readonly adrift: Results["adrift"];
  /** Zones that are laid. */
  readonly laid: readonly { readonly id: string; readonly doubts: readonly string[] }[];
  readonly adjustments: readonly Adjustment[];
}

/** A worker of its own, so that what is on the desk is not kept waiting: projects on one shell are tried in it, one after another. */
export interface SizeTrials {
  /** Builds and lays up a project. Told is what the newest comes to. */
  run(project: Project, tell: (trial: Trial) => void): void;
  /** Lays zones that the project need not have. */
  readonly lay: Thread["trials"]["lay"];
  end(): void;
}

export function openTrials(onFault: (fault: unknown) => void): SizeTrials {
  const thread = startThread("another size");
  let newest = 0;
  // What a worker has told once it does not tell again.
  let results = makeResultsStore().getState();
  return {
    run(project, tell) {
      const own = ++newest;
      thread
        .run({ project, quality: "laid", shells: 1 }, (part) => {
          results = takeIn(results, part);
        })
        .then(
          (outcome) => {
            if (own !== newest || outcome === "stopped") return;
            const { refusals, adrift, zones, shell } = results;
            const laid = zones.map(({ id, doubts }) => ({ id, doubts }));
            tell({ refusals, adrift, laid, adjustments: shell?.adjustments ?? [] });
          },
          (fault: unknown) => own === newest && onFault(fault),
        );
    },
    lay: thread.trials.lay,
    end() {
      newest++;
      thread.end();
    },
  };
}

/** What is new to look at in another size: doubts that a zone did not have before, and what the shell had to adjust. */
export function newDoubts(
  trial: Trial,
  before: readonly { readonly id: string; readonly doubts: readonly string[] }[],
) {
  const known = new Map(before.map(({ id, doubts }) => [id, doubts]));
  // Figures in a doubt hang on the size; what it says does not.
  const said = (doubt: string) => doubt.replaceAll(/\d+/g, "#");
  return trial.laid.flatMap(({ id, doubts }) => {
    const old = new Set((known.get(id) ?? []).map(said));
    const fresh = doubts.filter((doubt) => !old.has(said(doubt)));
    return fresh.length > 0 ? [{ id, doubts: fresh }] : [];
  });
}
