import { useState } from "react";
import { Button } from "react-aria-components";
import { toast } from "sonner";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { useDesk, useSession } from "../../desk.ts";
import { session, showZone } from "../../document/session.ts";
import { headed, zoneName } from "../../parts/names.ts";
import { asRead } from "../../parts/refusal.ts";
import { mendInWords } from "../../tools/figure-label.ts";
import { mendFor } from "../../tools/mend.ts";
import { replacing } from "../../tools/zone-edits.ts";
import { words } from "../../words.ts";
import { choose, tried } from "./acts.ts";
import styles from "./card.module.css";

/** Something to look at in one zone, with what shows it and what mends it. */
export function Complaint(props: {
  readonly zone: ZoneSpec;
  /** The sentences that are read. */
  readonly says: readonly string[];
  /** All that core says of it: what a mend is looked for in. */
  readonly complaint: string;
  /** Where along the zone's line it is, mm; null: all of it. */
  readonly at: number | null;
  /** Whether there is something on the shell to be shown, and whether a mend can be tried. */
  readonly laid: boolean;
  readonly mends: boolean;
}) {
  const { zone, says, complaint, at, laid, mends } = props;
  const desk = useDesk();
  const locked = useSession((s) => s.locked.has(zone.id));
  const lengths = useSession((s) => s.lengths);
  const [busy, setBusy] = useState(false);

  const mend = async () => {
    setBusy(true);
    try {
      const { project } = desk.project.state.getState();
      const found = await mendFor(project, zone, complaint, (zones) => desk.trials.lay(project, zones));
      choose([zone.id]);
      if (!found) {
        toast(words.floor.notMended, { description: asRead(says.join(" "), lengths) });
        return;
      }
      if (!tried(desk.project.edit(words.steps.mend(zoneName(zone.id)), replacing(found.zone)))) return;
      toast(headed(asRead(mendInWords(found, zone), lengths)));
    } finally {
      setBusy(false);
    }
  };
  return (
    <>
      {says.map((sentence) => (
        <p key={sentence}>{asRead(sentence, lengths)}</p>
      ))}
      <p className={styles.mends}>
        {laid && <Button onPress={() => showZone(zone.id, at)}>{words.floor.show}</Button>}
        {mends && (
          <Button
            onPress={() => void mend()}
            isDisabled={busy || locked}
            onHoverStart={() => session.setState({ hovered: { kind: "zone", id: zone.id } })}
            onHoverEnd={() => session.setState({ hovered: null })}
          >
            {words.floor.mend}
          </Button>
        )}
      </p>
    </>
  );
}
