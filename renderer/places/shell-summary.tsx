import { printArea } from "../../core/units/area.ts";
import { printLength } from "../../core/units/length.ts";
import { useResults, useSession } from "../desk.ts";
import { isImperial } from "../parts/imperial.ts";
import { headed } from "../parts/names.ts";
import { asRead, wordsFor } from "../parts/refusal.ts";
import { printVolume } from "../parts/volume.ts";
import { words } from "../words.ts";
import styles from "./shell-summary.module.css";
import { useStaleMeasure } from "./use-stale.ts";

/** What follows from the figures: areas and volumes, what stands in the way, what had to be adjusted. */
export function ShellSummary() {
  const shell = useResults((r) => r.shell);
  const measure = useResults((r) => r.measure);
  const refusals = useResults((r) => r.refusals);
  const fault = useResults((r) => r.fault);
  const lengths = useSession((s) => s.lengths);
  const imperial = isImperial(lengths);
  const stale = useStaleMeasure();
  const missing = refusals.length > 0 || fault ? "–" : words.card.measuring;
  const area = measure && printArea(measure.areaMm2 / 1e6, imperial ? "ft2" : "m2");
  return (
    <section className={styles.summary}>
      <h2>{words.card.shell}</h2>
      <dl className={styles.figures} data-figures="">
        <Line name={words.card.rim}>
          {shell ? printLength(shell.rimLengthMm, imperial ? lengths : "m") : missing}
        </Line>
        <Line name={words.card.area} id="area" stale={stale}>
          {area ?? missing}
        </Line>
        <Line name={words.card.toWater} stale={stale}>
          {measure ? printVolume(measure.volumeToWaterMm3, imperial) : missing}
        </Line>
        <Line name={words.card.toRim} stale={stale}>
          {measure ? printVolume(measure.volumeToRimMm3, imperial) : missing}
        </Line>
      </dl>
      {stale && <p className={styles.stale}>{words.card.stale(missing)}</p>}
      {measure && !stale && measure.flaws.length > 0 && (
        <div className={styles.wrong} role="alert">
          <strong>{words.card.flawed}</strong>
          {measure.flaws.map((flaw) => (
            <p key={flaw}>{headed(asRead(flaw, lengths))}</p>
          ))}
        </div>
      )}
      {measure && !stale && measure.doubts.length > 0 && (
        <ul className={styles.note} aria-label={words.card.look}>
          {measure.doubts.map((doubt) => (
            <li key={doubt}>{headed(asRead(doubt, lengths))}</li>
          ))}
        </ul>
      )}
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
              {what}:{" "}
              {asRead(
                `${words.card.instead(asked.toFixed(1), used.toFixed(1), unit === "mm" ? "mm" : "°")}; ${why}`,
                lengths,
              )}
            </p>
          ))}
        </details>
      )}
    </section>
  );
}

function Line(props: {
  readonly name: string;
  readonly children: string;
  readonly id?: string;
  readonly stale?: boolean;
}) {
  const { name, children, id, stale } = props;
  return (
    <div>
      <dt>{name}</dt>
      <dd data-figure={id} data-stale={stale || undefined}>
        {children}
      </dd>
    </div>
  );
}
