import type { Reinforcement } from "../../document/session.ts";
import styles from "./swatch.module.css";

/** What each kind is drawn with in the scene: weave, ticks of a strip, a web's hatching, cells. */
const strokes: Record<Reinforcement, string> = {
  bands: "M0 6H10M12 2H22M12 10H22M24 6H34M0 14H10M24 14H34M12 18H22M5 8V12M17 4V8M17 12V16M29 8V12",
  ribs: "M5 0V20M12 0V20M19 0V20M26 0V20",
  gussets: "M0 8L8 0M0 16L16 0M4 20L24 0M12 20L32 0M20 20L34 6M28 20L34 14",
  pads: "M6 0L11 3V9L6 12L1 9V3ZM16 0L21 3V9L16 12L11 9V3ZM26 0L31 3V9L26 12L21 9V3ZM11 9L16 12V18L11 21L6 18V12ZM21 9L26 12V18L21 21L16 18V12Z",
  stiffeners: "M5 0V20M12 0V20M19 0V20M26 0V20M0 3H34M0 17H34",
};

/** A piece of the material, as a key to the scene. */
export function Swatch({ kind }: { readonly kind: Reinforcement }) {
  return (
    <svg viewBox="0 0 32 20" className={styles.swatch} data-kind={kind} aria-hidden="true">
      <path d={strokes[kind]} />
    </svg>
  );
}
