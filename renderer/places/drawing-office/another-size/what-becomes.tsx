import { Button } from "react-aria-components";
import type { Project } from "../../../../core/project/schema.ts";
import { useResults, useSession } from "../../../desk.ts";
import { headed, zoneName } from "../../../parts/names.ts";
import { asRead, wordsFor } from "../../../parts/refusal.ts";
import { words } from "../../../words.ts";
import styles from "./another-size.module.css";
import type { Settled } from "./settling.ts";
import { SizeLook } from "./size-look.tsx";
import { newDoubts, type Trial } from "./size-trial.ts";
import type { Tried } from "./use-trial.ts";

/** What becomes of the lay-up in another size: what cannot be built, what goes adrift with its reason and mend, what is new to look at. */
export function WhatBecomes(props: {
  readonly project: Project;
  readonly tried: Tried & { readonly trial: Trial };
  readonly settled: readonly Settled[];
  readonly onSettle: (settled: readonly Settled[]) => void;
}) {
  const { project, tried, settled, onSettle } = props;
  const { trial } = tried;
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
  const look = { project, tried, onSettle: (one: Settled) => onSettle([...settled, one]) };
  return (
    <>
      <h3>{words.another.carried(trial.laid.length + trial.adrift.length, trial.adrift.length)}</h3>
      {trial.adrift.length > 0 && (
        <ul className={styles.adrift}>
          {trial.adrift.map(({ id, why, mend }) => (
            <SizeLook key={id} id={id} says={[why, mend]} complaint={`${why} ${mend}`} {...look} />
          ))}
        </ul>
      )}
      {count + adjusted.length > 0 && (
        <>
          <h3>{words.another.look(count + adjusted.length)}</h3>
          <ul className={styles.doubts}>
            {doubts.flatMap((zone) =>
              zone.doubts.map((doubt) => (
                <SizeLook
                  key={`${zone.id} ${doubt}`}
                  id={zone.id}
                  says={[`${headed(doubt)}.`]}
                  complaint={doubt}
                  {...look}
                />
              )),
            )}
            {adjusted.map(({ id, what, why }) => (
              <li key={`${id} ${what}`}>
                <strong>{headed(what)}</strong>
                <span>{asRead(headed(why), lengths)}.</span>
              </li>
            ))}
          </ul>
        </>
      )}
      {settled.length > 0 && (
        <>
          <h3>{words.another.settled}</h3>
          <ul className={styles.settled}>
            {settled.map((one) => (
              <li key={`${one.id} ${one.how}`}>
                <strong>{headed(zoneName(one.id))}</strong>
                <span>{asRead(headed(one.how), lengths)}</span>
                <span className={styles.acts}>
                  <Button onPress={() => onSettle(settled.filter((each) => each !== one))}>
                    {words.another.takeBack}
                  </Button>
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}
