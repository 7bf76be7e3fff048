import { printArea } from "../../core/units/area.ts";
import { printLength } from "../../core/units/length.ts";
import { useResults, useSession } from "../desk.ts";
import { isImperial } from "../parts/imperial.ts";
import { wordsFor } from "../parts/refusal.ts";
import { printVolume } from "../parts/volume.ts";
import { words } from "../words.ts";
import styles from "./shell-summary.module.css";

/** What follows from the figures: areas and volumes, what stands in the way, what had to be adjusted. */
export function ShellSummary() {
  const shell = useResults((r) => r.shell);
  const measure = useResults((r) => r.measure);
  const refusals = useResults((r) => r.refusals);
  const fault = useResults((r) => r.fault);
  const lengths = useSession((s) => s.lengths);
  const imperial = isImperial(lengths);
  const area = measure && printArea(measure.areaMm2 / 1e6, imperial ? "ft2" : "m2");
  return (
    <section className={styles.summary}>
      <h2>{words.card.shell}</h2>
      <dl className={styles.figures} data-figures="">
        <Line name={words.card.area} figure={area} id="area" />
        <Line name={words.card.toWater} figure={measure && printVolume(measure.volumeToWaterMm3, imperial)} />
        <Line name={words.card.toRim} figure={measure && printVolume(measure.volumeToRimMm3, imperial)} />
        <Line
          name={words.card.rim}
          figure={shell && printLength(shell.rimLengthMm, imperial ? lengths : "m")}
        />
      </dl>
      {refusals.length > 0 && (
        <div className={styles.wrong} role="alert">
          <strong>{words.card.wrong(refusals.length)}</strong>
          {refusals.map((refusal) => (
            <p key={`${refusal.path} ${refusal.why}`}>{wordsFor(refusal, lengths)}</p>
          ))}
        </div>
      )}
      {fault && (
        <p className={styles.wrong} role="alert">
          {words.fault(fault)}
        </p>
      )}
      {shell && shell.adjustments.length > 0 && (
        <details className={styles.note}>
          <summary>{words.card.adjusted}</summary>
          {shell.adjustments.map(({ id, what, asked, used, unit, why }) => (
            <p key={`${id} ${what}`}>
              {what}: {words.card.instead(asked.toFixed(1), used.toFixed(1), unit === "mm" ? "mm" : "°")};{" "}
              {why}
            </p>
          ))}
        </details>
      )}
    </section>
  );
}

function Line({
  name,
  figure,
  id,
}: {
  readonly name: string;
  readonly figure: string | null;
  readonly id?: string;
}) {
  return (
    <div>
      <dt>{name}</dt>
      <dd data-figure={id}>{figure ?? words.card.measuring}</dd>
    </div>
  );
}
