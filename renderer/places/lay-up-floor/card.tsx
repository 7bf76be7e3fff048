import { printArea } from "../../../core/units/area.ts";
import { printLength } from "../../../core/units/length.ts";
import { useResults, useSession } from "../../desk.ts";
import { isImperial } from "../../parts/imperial.ts";
import { headed, zoneName } from "../../parts/names.ts";
import { words } from "../../words.ts";
import type { LaidZoneView } from "../../worker/results.ts";
import styles from "./card.module.css";
import { ZoneList } from "./zone-list.tsx";

/** The card of the lay-up floor: the zone that is chosen, with what follows from it; below, all zones. */
export function LayUpFloorCard() {
  const selected = useSession((s) => s.selected);
  const id = selected.length === 1 && selected[0].kind === "zone" ? selected[0].id : null;
  const zone = useResults((r) => r.zones.find((each) => each.id === id));
  return (
    <>
      {zone && <ZoneCard zone={zone} />}
      <ZoneList />
    </>
  );
}

function ZoneCard({ zone }: { readonly zone: LaidZoneView }) {
  const lengths = useSession((s) => s.lengths);
  const imperial = isImperial(lengths);
  const area = (mm2: number) => printArea(mm2 / 1e6, imperial ? "ft2" : "m2");
  return (
    <section className={styles.zone}>
      <h2>{headed(zoneName(zone.id))}</h2>
      <p className={styles.where}>{words.zoneKinds[zone.kind]}</p>
      <dl data-figures="">
        <div>
          <dt>{words.card.material}</dt>
          <dd>{zone.material.name}</dd>
        </div>
        <div>
          <dt>{words.card.plies}</dt>
          <dd>{zone.plies}</dd>
        </div>
        <div>
          <dt>{words.card.length}</dt>
          <dd>{printLength(zone.lengthMm, lengths)}</dd>
        </div>
        <div>
          <dt>{words.card.onShell}</dt>
          <dd>{area(zone.areaMm2)}</dd>
        </div>
      </dl>
      {zone.doubts.length > 0 && (
        <ul className={styles.doubts}>
          {zone.doubts.map((doubt) => (
            <li key={doubt}>{headed(doubt)}.</li>
          ))}
        </ul>
      )}
    </section>
  );
}
