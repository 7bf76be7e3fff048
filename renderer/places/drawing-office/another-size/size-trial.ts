import type { Project } from "../../../../core/project/schema.ts";
import type { Adjustment } from "../../../../core/shell/shell.ts";
import { makeResultsStore, type Results, takeIn } from "../../../worker/results.ts";
import { startThread } from "../../../worker/thread.ts";

/** What a project comes to on its shell: every zone laid or adrift, or why the shell cannot be built. */
export interface Trial {
  readonly refusals: Results["refusals"];
  readonly adrift: Results["adrift"];
  /** Zones that are laid. */
  readonly laid: readonly { readonly id: string; readonly doubts: readonly string[] }[];
  readonly adjustments: readonly Adjustment[];
}

/**
 * Builds and lays up a project in a worker of its own, so that what is on the desk is not kept waiting. `tell` hears of it once;
 * gives back how to leave off before.
 */
export function tryProject(
  project: Project,
  tell: (trial: Trial) => void,
  onFault: (fault: unknown) => void,
): () => void {
  const thread = startThread("another size");
  let results = makeResultsStore().getState();
  let open = true;
  const end = () => {
    open = false;
    thread.end();
  };
  const finish = () => {
    if (!open) return;
    end();
    const { refusals, adrift, zones, shell } = results;
    const laid = zones.map(({ id, doubts }) => ({ id, doubts }));
    tell({ refusals, adrift, laid, adjustments: shell?.adjustments ?? [] });
  };
  thread
    .run({ project, quality: "full", shells: 1 }, (part) => {
      if (!open) return;
      results = takeIn(results, part);
      if (part.kind === "layup" || part.kind === "refused") finish();
    })
    .then(finish, (fault: unknown) => {
      if (!open) return;
      end();
      onFault(fault);
    });
  return end;
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
