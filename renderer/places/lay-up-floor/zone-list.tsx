import { ListBox, ListBoxItem } from "react-aria-components";
import { printArea } from "../../../core/units/area.ts";
import { useResults, useSession } from "../../desk.ts";
import { session } from "../../document/session.ts";
import { isImperial } from "../../parts/imperial.ts";
import { headed, zoneName } from "../../parts/names.ts";
import { words } from "../../words.ts";
import styles from "./card.module.css";

/** All zones, linked with the scene both ways; those that are adrift on top, with the reason and what would mend it. */
export function ZoneList() {
  const zones = useResults((r) => r.zones);
  const adrift = useResults((r) => r.adrift);
  const selected = useSession((s) => s.selected);
  const lengths = useSession((s) => s.lengths);
  const unit = isImperial(lengths) ? "ft2" : "m2";
  return (
    <section className={styles.zones}>
      <h2>{words.card.zones(zones.length + adrift.length)}</h2>
      {adrift.map(({ id, why, mend }) => (
        <div key={id} className={styles.adrift}>
          <strong>
            {headed(zoneName(id))} · {words.card.adrift}
          </strong>
          <p>{why}</p>
          <p>{mend}</p>
        </div>
      ))}
      <ListBox
        aria-label={words.card.allZones}
        className={styles.list}
        selectionMode="multiple"
        selectionBehavior="replace"
        selectedKeys={selected.filter(({ kind }) => kind === "zone").map(({ id }) => id)}
        onSelectionChange={(keys) => {
          const ids = keys === "all" ? zones.map(({ id }) => id) : [...keys].map(String);
          session.setState({ selected: ids.map((id) => ({ kind: "zone", id })) });
        }}
      >
        {zones.map((zone) => (
          <ListBoxItem
            key={zone.id}
            id={zone.id}
            textValue={zoneName(zone.id)}
            className={styles.item}
            onHoverStart={() => session.setState({ hovered: { kind: "zone", id: zone.id } })}
            onHoverEnd={() => session.setState({ hovered: null })}
          >
            <span>{zoneName(zone.id)}</span>
            {zone.doubts.length > 0 && <span className={styles.look}>{zone.doubts.length}</span>}
            <span data-figures="">{printArea(zone.allPliesMm2 / 1e6, unit)}</span>
          </ListBoxItem>
        ))}
      </ListBox>
    </section>
  );
}
