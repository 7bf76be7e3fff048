import { useResults, useSession } from "../../../desk.ts";
import { headed, zoneName } from "../../../parts/names.ts";
import { inLengths, wordsFor } from "../../../parts/refusal.ts";
import { words } from "../../../words.ts";
import styles from "./another-size.module.css";
import { newDoubts, type Trial } from "./size-trial.ts";

/** What becomes of the lay-up in another size: what cannot be built, what goes adrift with its reason and mend, what is new to look at. */
export function WhatBecomes({ trial, zones }: { readonly trial: Trial; readonly zones: number }) {
  const before = useResults((r) => r.zones);
  const lengths = useSession((s) => s.lengths);
  const adjustedBefore = useResults((r) => r.shell?.adjustments);
  if (trial.refusals.length > 0) {
    return (
      <>
        <h3>{words.another.cannot}</h3>
        <ul className={styles.adrift}>
          {trial.refusals.map((refusal) => (
            <li key={`${refusal.path} ${refusal.why}`}>{headed(wordsFor(refusal, lengths))}</li>
          ))}
        </ul>
      </>
    );
  }
  const doubts = newDoubts(trial, before);
  const count = doubts.reduce((sum, zone) => sum + zone.doubts.length, 0);
  const known = new Set(adjustedBefore?.map(({ id, what }) => `${id} ${what}`));
  const adjusted = trial.adjustments.filter(({ id, what }) => !known.has(`${id} ${what}`));
  return (
    <>
      <h3>{words.another.carried(zones, trial.adrift.length)}</h3>
      {trial.adrift.length > 0 && (
        <ul className={styles.adrift}>
          {trial.adrift.map(({ id, why, mend }) => (
            <li key={id}>
              <strong>{headed(zoneName(id))}</strong>
              <span>{inLengths(why, lengths)}</span>
              <span>{inLengths(mend, lengths)}</span>
            </li>
          ))}
        </ul>
      )}
      {count + adjusted.length > 0 && (
        <>
          <h3>{words.another.look(count + adjusted.length)}</h3>
          <ul className={styles.doubts}>
            {doubts.map((zone) => (
              <li key={zone.id}>
                <strong>{headed(zoneName(zone.id))}</strong>
                {zone.doubts.map((doubt) => (
                  <span key={doubt}>{inLengths(headed(doubt), lengths)}.</span>
                ))}
              </li>
            ))}
            {adjusted.map(({ id, what, why }) => (
              <li key={`${id} ${what}`}>
                <strong>{headed(what)}</strong>
                <span>{inLengths(headed(why), lengths)}.</span>
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}
