import { useMemo } from "react";
import { buildOutline } from "../../../core/plan/build-outline.ts";
import { pointAt } from "../../../core/plan/point-at.ts";
import type { ShellSpec } from "../../../core/project/schema.ts";
import styles from "./start.module.css";

/** Points round the outline: enough for a picture of a few centimetres. */
const POINTS = 160;
/** Largest pool that fills the picture, mm: so that the demos keep their sizes to each other. */
const WIDEST = 12_000;

/** The plan of a pool's rim and coping, all pools at one scale. */
export function RimSketch({ shell }: { readonly shell: ShellSpec }) {
  const drawn = useMemo(() => {
    const built = buildOutline(shell.outline);
    if (!built.ok) return null;
    const { chain, extent } = built.outline;
    const points = Array.from({ length: POINTS }, (_, i) => {
      const { x, y } = pointAt(chain, (i * chain.length) / POINTS);
      return `${x.toFixed(0)},${(-y).toFixed(0)}`;
    });
    return { points: points.join(" "), length: extent.length };
  }, [shell]);
  if (!drawn) return null;
  const left = (drawn.length - WIDEST) / 2;
  return (
    <svg className={styles.sketch} viewBox={`${left} -2600 ${WIDEST} 5200`} aria-hidden="true">
      <polygon points={drawn.points} className={styles.coping} />
      <polygon points={drawn.points} className={styles.water} />
    </svg>
  );
}
