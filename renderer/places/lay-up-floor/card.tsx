import { useMemo } from "react";
import { useProject, useSession } from "../../desk.ts";
import { zonesOf } from "../../tools/zone-edits.ts";
import { words } from "../../words.ts";
import styles from "./card.module.css";
import { ShopCard } from "./shop-card.tsx";
import { ZoneCard } from "./zone-card.tsx";
import { ZoneList } from "./zone-list.tsx";

/** The card of the lay-up floor: the zones that are chosen, with what follows from them; below, all zones. */
export function LayUpFloorCard() {
  const selected = useSession((s) => s.selected);
  const project = useProject((s) => s.project);
  const zones = useMemo(() => {
    const ids = selected.filter(({ kind }) => kind === "zone").map(({ id }) => id);
    return zonesOf(project, ids);
  }, [selected, project]);
  return (
    <>
      {zones.length > 0 ? (
        <ZoneCard key={zones.map(({ id }) => id).join(" ")} zones={zones} />
      ) : (
        <p className={styles.nothing}>{words.floor.nothingChosen}</p>
      )}
      <ZoneList />
      {zones.length === 0 && <ShopCard />}
    </>
  );
}
