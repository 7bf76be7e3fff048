import { printArea } from "../../../core/units/area.ts";
import { printLength } from "../../../core/units/length.ts";
import { printMass } from "../../../core/units/mass.ts";
import { useResults, useSession } from "../../desk.ts";
import { isImperial } from "../../parts/imperial.ts";
import { words } from "../../words.ts";
import styles from "./card.module.css";

/** The card of the cutting room: what one shell takes of each material. */
export function CuttingRoomCard() {
  const kit = useResults((r) => r.kit);
  const lengths = useSession((s) => s.lengths);
  const imperial = isImperial(lengths);
  return (
    <section className={styles.card}>
      <h2>{words.cutting.title}</h2>
      {kit?.totals.map(({ material, name, kind, pieces, areaMm2, lengthMm, massKg }) => (
        <dl key={material} data-figures="">
          <dt>{name}</dt>
          <dd>{words.cutting.pieces(pieces)}</dd>
          <dd>{printArea(areaMm2 / 1e6, imperial ? "ft2" : "m2")}</dd>
          {kind !== "sheet" && <dd>{printLength(lengthMm, imperial ? lengths : "m")}</dd>}
          <dd>{printMass(massKg, imperial ? "lb" : "kg")}</dd>
        </dl>
      ))}
      {kit?.totals.length === 0 && <p>{words.cutting.nothing}</p>}
    </section>
  );
}
