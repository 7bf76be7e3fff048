import { useEffect, useState } from "react";
import { useResults } from "../desk.ts";
import { words } from "../words.ts";
import styles from "./progress.module.css";

/** Work shorter than this passes without a word, ms. */
const PATIENCE_MS = 500;

/** A thin line along the top of the scene and the name of the stage, for work that takes over half a second. */
export function Progress() {
  const stage = useResults((r) => r.stage ?? (r.measuring ? "measure" : null));
  const busy = stage !== null;
  const [shown, setShown] = useState(false);
  useEffect(() => {
    if (!busy) {
      setShown(false);
      return;
    }
    const timer = setTimeout(() => setShown(true), PATIENCE_MS);
    return () => clearTimeout(timer);
  }, [busy]);
  return (
    <div
      className={styles.progress}
      role="status"
      data-stage={stage ?? undefined}
      data-shown={(shown && busy) || undefined}
    >
      {shown && stage && <span className={styles.words}>{words.stages[stage]}</span>}
    </div>
  );
}
