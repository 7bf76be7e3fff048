import { useMemo } from "react";
import { useProject, useResults, useSession } from "../../desk.ts";
import { session } from "../../document/session.ts";
import { headed, zoneName } from "../../parts/names.ts";
import { words } from "../../words.ts";
import { doubtsOf } from "../../worker/to-look-at.ts";
import styles from "./card.module.css";
import { Complaint } from "./complaint.tsx";

/** What there is to look at, on top of all zones: those adrift, then doubts by zone, each with what shows and what mends it. */
export function Looks() {
  const adrift = useResults((r) => r.adrift);
  const zones = useResults((r) => r.zones);
  const kit = useResults((r) => r.kit);
  const layup = useProject((s) => s.project.layup);
  const open = useSession((s) => s.looksOpen);
  const doubts = useMemo(() => doubtsOf({ zones, kit }), [zones, kit]);
  return (
    <>
      {adrift.map(({ id, spec, why, mend }) => (
        <div key={id} className={styles.adrift}>
          <strong>
            {headed(zoneName(id))} · {words.card.adrift}
          </strong>
          <Complaint
            zone={spec}
            says={[why, mend]}
            complaint={`${why} ${mend}`}
            at={null}
            laid={false}
            mends
          />
        </div>
      ))}
      {doubts.length > 0 && (
        <details
          className={styles.looks}
          open={open}
          onToggle={(event) => session.setState({ looksOpen: event.currentTarget.open })}
        >
          <summary>{words.totals.look(doubts.length)}</summary>
          <ul className={styles.doubts}>
            {doubts.map(({ zone, says, at, about }) => {
              const spec = layup.find(({ id }) => id === zone);
              return (
                <li key={`${zone} ${says}`}>
                  <strong>{headed(zoneName(zone))}</strong>
                  {spec && (
                    <Complaint
                      zone={spec}
                      says={[`${headed(says)}.`]}
                      complaint={says}
                      at={at}
                      laid
                      mends={about === "zone"}
                    />
                  )}
                </li>
              );
            })}
          </ul>
        </details>
      )}
    </>
  );
}
