import type { ReactNode } from "react";
import styles from "./bar.module.css";

/** What opens under the tools of the lay-up floor; Escape leaves it from anywhere in it, and the tool stays in hand. */
export function Panel({ children, onLeave }: { readonly children: ReactNode; readonly onLeave: () => void }) {
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys are those of what lies in it.
    <div
      className={styles.where}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.stopPropagation();
        onLeave();
      }}
    >
      {children}
    </div>
  );
}
