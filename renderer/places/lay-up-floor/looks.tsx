import { useMemo } from "react";
import { useProject, useResults, useSession } from "../../desk.ts";
import { session } from "../../document/session.ts";
import { headed, zoneName } from "../../parts/names.ts";
import { words } from "../../words.ts";
import { doubtsOf } from "../../worker/to-look-at.ts";
import styles from "./card.module.css";
import { Complaint } from "./complaint.tsx";
import { LookList } from "./look-list.tsx";

/** What there is to look at, on top of all zones: those adrift and what cannot be cut, then notes by zone, folded away. */
export function Looks() {
  const adrift = useResults((r) => r.adrift);
  const zones = useResults((r) => r.zones);
  const kit = useResults((r) => r.kit);
  const layup = useProject((s) => s.project.layup);
  const open = useSession((s) => s.looksOpen);
  const looks = useMemo(() => doubtsOf({ zones, kit }), [zones, kit]);
  const notes = looks.filter(({ isFault }) => !isFault);
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
      <LookList looks={looks.filter(({ isFault }) => isFault)} zones={layup} named wrong />
      {notes.length > 0 && (
        <details
          className={styles.looks}
          open={open}
          onToggle={(event) => session.setState({ looksOpen: event.currentTarget.open })}
        >
          <summary>{words.totals.look(notes.length)}</summary>
          <LookList looks={notes} zones={layup} named />
        </details>
      )}
    </>
  );
}
