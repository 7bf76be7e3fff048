import { useId, useState } from "react";
import { renameFeature } from "../../../../core/project/rename-feature.ts";
import { id as idSchema } from "../../../../core/project/shell-schema.ts";
import { useDesk } from "../../../desk.ts";
import { headed, zoneName } from "../../../parts/names.ts";
import { words } from "../../../words.ts";
import { sheetState } from "../sheets/sheet-state.ts";
import styles from "./figures.module.css";

/** The name of a feature, to be typed anew: all that speaks of the feature follows. */
export function FeatureName({ id }: { readonly id: string }) {
  const { project } = useDesk();
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const problemId = useId();
  const called = zoneName(id);
  const commit = () => {
    const to = (typed ?? called).trim().toLowerCase().replaceAll(/\s+/g, "-");
    const fault = to === id ? null : rename(to);
    setProblem(fault);
    if (fault === null) setTyped(null);
  };
  const rename = (to: string): string | null => {
    const { shell } = project.state.getState().project;
    if (!idSchema.safeParse(to).success) return words.drawing.nameWrong;
    if (shell.features.some((each) => each.id === to)) return words.drawing.nameTaken(zoneName(to));
    const edited = project.edit(words.steps.rename(called, zoneName(to)), (draft) => {
      const { shell: renamed, layup } = renameFeature(draft, id, to);
      draft.shell = renamed;
      draft.layup = layup;
    });
    if (!edited.ok) return edited.problems.map(({ sentence }) => sentence).join(" ");
    sheetState.setState(({ feature }) => ({ feature: feature === id ? to : feature }));
    return null;
  };
  return (
    <>
      <input
        className={styles.name}
        aria-label={words.drawing.rename(called)}
        aria-invalid={problem !== null || undefined}
        aria-describedby={problem === null ? undefined : problemId}
        value={typed ?? headed(called)}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === "Enter") commit();
          else if (event.key === "Escape") {
            setTyped(null);
            setProblem(null);
          }
        }}
      />
      {problem !== null && (
        <p id={problemId} className={styles.nameWrong} role="alert">
          {problem}
        </p>
      )}
    </>
  );
}
