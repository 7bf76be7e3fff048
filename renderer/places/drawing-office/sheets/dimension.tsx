import { printLength } from "../../../../core/units/length.ts";
import { useSession } from "../../../desk.ts";
import type { Spot } from "./handle.ts";
import styles from "./sheets.module.css";

/** Half of a tick at the end of a dimension line, pixels. */
const TICK = 4;

/** A dimension line between two places of the screen, level or upright, with its figure on it. */
export function Dimension(props: {
  readonly from: Spot;
  readonly to: Spot;
  readonly mm: number;
  readonly name: string;
}) {
  const { from, to, mm, name } = props;
  const lengths = useSession((s) => s.lengths);
  const level = Math.abs(from.y - to.y) < Math.abs(from.x - to.x);
  const tick = ({ x, y }: Spot) => `M${x - TICK} ${y + TICK}L${x + TICK} ${y - TICK}`;
  const x = (from.x + to.x) / 2;
  const y = (from.y + to.y) / 2;
  return (
    <g className={styles.dimension} data-figures="">
      <path d={`M${from.x} ${from.y}L${to.x} ${to.y}${tick(from)}${tick(to)}`} />
      <text
        x={x}
        y={y}
        data-sheet-dimension={name}
        transform={level ? undefined : `rotate(-90 ${x} ${y})`}
        dy="0.35em"
      >
        {printLength(mm, lengths)}
      </text>
    </g>
  );
}
