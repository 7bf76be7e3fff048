import { Eye, EyeOff, Lock } from "lucide-react";
import { useMemo } from "react";
import { Button, Group, ListBox, ListBoxItem } from "react-aria-components";
import { printArea } from "../../../core/units/area.ts";
import { useResults, useSession } from "../../desk.ts";
import { session } from "../../document/session.ts";
import { isImperial } from "../../parts/imperial.ts";
import { zoneName } from "../../parts/names.ts";
import { words } from "../../words.ts";
import { doubtsOf, type Look } from "../../worker/to-look-at.ts";
import { choose } from "./acts.ts";
import styles from "./card.module.css";
import { Looks } from "./looks.tsx";

/** All zones, linked with the scene both ways; those that are adrift on top, with the reason and what would mend it. */
export function ZoneList() {
  const zones = useResults((r) => r.zones);
  const adrift = useResults((r) => r.adrift.length);
  const selected = useSession((s) => s.selected);
  const hidden = useSession((s) => s.hidden);
  const locked = useSession((s) => s.locked);
  const lengths = useSession((s) => s.lengths);
  const kit = useResults((r) => r.kit);
  const [faults, notes] = useMemo(() => {
    const looks = doubtsOf({ zones, kit });
    return [countBy(looks.filter(({ isFault }) => isFault)), countBy(looks.filter((look) => !look.isFault))];
  }, [zones, kit]);
  const unit = isImperial(lengths) ? "ft2" : "m2";
  return (
    <section className={styles.zones}>
      <h2>{words.card.zones(zones.length + adrift)}</h2>
      <Looks />
      <Kinds />
      <ListBox
        aria-label={words.card.allZones}
        className={styles.list}
        selectionMode="multiple"
        selectionBehavior="replace"
        selectedKeys={selected.filter(({ kind }) => kind === "zone").map(({ id }) => id)}
        onSelectionChange={(keys) =>
          choose(keys === "all" ? zones.map(({ id }) => id) : [...keys].map(String))
        }
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
            {hidden.has(zone.id) && <EyeOff aria-label={words.floor.hidden} />}
            {locked.has(zone.id) && <Lock aria-label={words.floor.locked} />}
            <Count number={faults.get(zone.id)} words={words.totals.faults} wrong />
            <Count number={notes.get(zone.id)} words={words.totals.look} />
            <span data-figures="">{printArea(zone.allPliesMm2 / 1e6, unit)}</span>
          </ListBoxItem>
        ))}
      </ListBox>
    </section>
  );
}

/** How much there is to look at in a zone, as a small mark. */
function Count(props: {
  readonly number: number | undefined;
  readonly words: (n: number) => string;
  readonly wrong?: boolean;
}) {
  const { number, words, wrong } = props;
  if (number === undefined) return null;
  return (
    <span role="img" aria-label={words(number)} className={styles.look} data-wrong={wrong || undefined}>
      {number}
    </span>
  );
}

function countBy(looks: readonly Look[]): ReadonlyMap<string, number> {
  const count = new Map<string, number>();
  for (const { zone } of looks) count.set(zone, (count.get(zone) ?? 0) + 1);
  return count;
}

/** Chooses all zones of a kind. */
function Kinds() {
  const zones = useResults((r) => r.zones);
  const hidden = useSession((s) => s.hidden);
  const kinds = [...new Set(zones.map(({ kind }) => kind))];
  return (
    <Group className={styles.kinds} aria-label={words.floor.byKind}>
      {kinds.map((kind) => (
        <Button
          key={kind}
          onPress={() => choose(zones.filter((zone) => zone.kind === kind).map(({ id }) => id))}
        >
          {words.floor.kinds[kind]}
        </Button>
      ))}
      {hidden.size > 0 && (
        <Button onPress={() => session.setState({ hidden: new Set() })}>
          <Eye /> {words.floor.showAll(hidden.size)}
        </Button>
      )}
    </Group>
  );
}
