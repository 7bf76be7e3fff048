import { mmPerFoot } from "../../../../core/units/length.ts";
import { useSession } from "../../../desk.ts";
import { isImperial } from "../../../parts/imperial.ts";
import { type Fit, toSheet } from "./fit.ts";
import styles from "./sheets.module.css";

/** Lines of the grid are at least this far apart, pixels. */
const APART = 14;

/** Squares of half a metre or a foot, or of more where these would be too small to tell apart. */
export function Grid({
  fit,
  width,
  height,
}: {
  readonly fit: Fit;
  readonly width: number;
  readonly height: number;
}) {
  const imperial = useSession((s) => isImperial(s.lengths));
  const square = imperial ? mmPerFoot : 500;
  const step = square * ([1, 2, 4, 10].find((times) => times * square * fit.scale >= APART) ?? 20);
  const from = toSheet(fit, { x: 0, y: height });
  const to = toSheet(fit, { x: width, y: 0 });
  const d = [
    ...multiples(from.x, to.x, step).map((x) => `M${fit.left + fit.scale * x} 0V${height}`),
    ...multiples(from.y, to.y, step).map((y) => `M0 ${fit.top - fit.scale * y}H${width}`),
  ].join("");
  return <path className={styles.grid} d={d} />;
}

function multiples(from: number, to: number, step: number): number[] {
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.max(0, Math.floor(to / step) - first + 1) }, (_, i) => (first + i) * step);
}
