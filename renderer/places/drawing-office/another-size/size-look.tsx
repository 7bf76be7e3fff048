import { useState } from "react";
import { Button } from "react-aria-components";
import type { Project } from "../../../../core/project/schema.ts";
import { useSession } from "../../../desk.ts";
import { headed, zoneName } from "../../../parts/names.ts";
import { asRead } from "../../../parts/refusal.ts";
import { tell } from "../../../parts/tell.ts";
import { mendInWords } from "../../../tools/figure-label.ts";
import { mendFor } from "../../../tools/mend.ts";
import { words } from "../../../words.ts";
import styles from "./another-size.module.css";
import type { Settled } from "./settling.ts";
import type { Tried } from "./use-trial.ts";

/** One zone that is adrift or doubtful in another size, with what mends it there; where nothing does it can be left out. */
export function SizeLook(props: {
  readonly id: string;
  readonly says: readonly string[];
  /** All that core says of it: what a mend is looked for in. */
  readonly complaint: string;
  readonly project: Project;
  readonly tried: Pick<Tried, "lay" | "settled">;
  readonly onSettle: (settled: Settled) => void;
}) {
  const { id, says, complaint, project, tried, onSettle } = props;
  const lengths = useSession((s) => s.lengths);
  const [search, setSearch] = useState<"none" | "busy" | "vain">("none");
  const zone = project.layup.find((each) => each.id === id);
  const { lay, settled } = tried;
  if (!zone) return null;

  const mend = async () => {
    if (!lay) return;
    setSearch("busy");
    try {
      const found = await mendFor(project, zone, complaint, (zones) => lay(project, zones));
      setSearch(found ? "none" : "vain");
      if (!found) return;
      onSettle({ id, zone: found.zone, how: mendInWords(found, zone) });
    } catch (fault) {
      setSearch("none");
      tell(fault);
    }
  };
  return (
    <li>
      <strong>{headed(zoneName(id))}</strong>
      {says.map((sentence) => (
        <span key={sentence}>{asRead(sentence, lengths)}</span>
      ))}
      {search === "vain" && <span>{words.another.notMended}</span>}
      <span className={styles.acts}>
        <Button isDisabled={!settled || search === "busy"} onPress={() => void mend()}>
          {words.floor.mend}
        </Button>
        {search === "vain" && (
          <Button
            isDisabled={!settled}
            onPress={() => onSettle({ id, zone: null, how: words.another.leftOut })}
          >
            {words.another.leaveOut}
          </Button>
        )}
      </span>
    </li>
  );
}
