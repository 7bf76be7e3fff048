import { useEffect, useState } from "react";
import { useProject, useResults } from "../desk.ts";
import { words } from "../words.ts";
import styles from "./progress.module.css";

/** Work shorter than this passes without a word, ms. */
const PATIENCE_MS = 500;

/**
 * A thin line along the top of the scene and the name of the stage, for work that takes over half a second. While something is dragged
 * each shell that follows it ends a wait.
 */
export function Progress({ underTools }: { readonly underTools: boolean }) {
  const stage = useResults((r) => r.stage ?? (r.measuring ? "measure" : null));
  const busy = stage !== null;
  const dragging = useProject((s) => s.dragging !== null);
  const follows = useResults((r) => (dragging ? r.shell : null));
  const [shown, setShown] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: waited for anew from each shell on.
  useEffect(() => {
    setShown(false);
    if (!busy) return;
    const timer = setTimeout(() => setShown(true), PATIENCE_MS);
    return () => clearTimeout(timer);
  }, [busy, follows]);
  return (
    <div
      className={styles.progress}
      role="status"
      data-stage={stage ?? undefined}
      data-shown={(shown && busy) || undefined}
      data-under-tools={underTools || undefined}
    >
      {shown && stage && <span className={styles.words}>{words.stages[stage]}</span>}
    </div>
  );
}
