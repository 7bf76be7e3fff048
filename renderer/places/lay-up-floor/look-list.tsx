import type { ZoneSpec } from "../../../core/project/schema.ts";
import { headed, zoneName } from "../../parts/names.ts";
import type { Look } from "../../worker/to-look-at.ts";
import styles from "./card.module.css";
import { Complaint } from "./complaint.tsx";

/** What there is to look at in some zones, each with what shows and what mends it; nothing where there is nothing. */
export function LookList(props: {
  readonly looks: readonly Look[];
  readonly zones: readonly ZoneSpec[];
  /** Whether each is headed by its zone's name. */
  readonly named?: boolean;
  readonly wrong?: boolean;
}) {
  const { looks, zones, named, wrong } = props;
  if (looks.length === 0) return null;
  return (
    <ul className={styles.doubts} data-wrong={wrong || undefined}>
      {looks.map(({ zone: id, says, at, about }) => {
        const zone = zones.find((each) => each.id === id);
        return (
          <li key={`${id} ${says}`}>
            {named && <strong>{headed(zoneName(id))}</strong>}
            {zone && (
              <Complaint
                zone={zone}
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
  );
}
