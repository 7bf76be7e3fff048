import { useEffect, useMemo, useState } from "react";
import { Button, ToggleButton, ToggleButtonGroup } from "react-aria-components";
import type { Kit } from "../../../core/cutting/kit.ts";
import { useResults, useSession } from "../../desk.ts";
import { session } from "../../document/session.ts";
import { Choice } from "../../parts/choice.tsx";
import { headed, zoneName } from "../../parts/names.ts";
import { words } from "../../words.ts";
import { kitList, type ListName, listNames } from "./kit-lists.ts";
import { KitTable } from "./kit-table.tsx";
import { arranged, listOf, type Order, type Sieve } from "./order.ts";
import { SaveList } from "./save-list.tsx";
import styles from "./tables.module.css";
import { useKit } from "./use-kit.ts";

const ANY = "";
const anything: Sieve = { zone: null, material: null };

/** Along the foot of the cutting room: the lists of the kit, or why there are none. */
export function KitTables() {
  const { kit, state } = useKit();
  const adrift = useResults((r) => r.adrift.length);
  if (!kit) {
    return (
      <div className={styles.alone}>
        <p>{state === "wrong" ? words.cutting.wrongFirst : words.cutting.computing}</p>
        {state === "wrong" && <ToTheFigures />}
      </div>
    );
  }
  if (kit.totals.length === 0 && adrift === 0 && state === "ready") {
    return (
      <div className={styles.alone}>
        <p>{words.cutting.nothing}</p>
        <p className={styles.soft}>{words.cutting.nothingHint}</p>
        <Button className={styles.go} onPress={() => session.setState({ place: "lay-up-floor" })}>
          {words.cutting.goLayUp}
        </Button>
      </div>
    );
  }
  return <Lists kit={kit} state={state} />;
}

function Lists({ kit, state }: { readonly kit: Kit; readonly state: ReturnType<typeof useKit>["state"] }) {
  const lengths = useSession((s) => s.lengths);
  const zone = useSession((s) => s.selected.find(({ kind }) => kind === "zone")?.id ?? null);
  const adrift = useResults((r) => r.adrift.length);
  const [name, setName] = useState<ListName>("pieces");
  const [sieve, setSieve] = useState(anything);
  const [orders, setOrders] = useState<Partial<Record<ListName, Order>>>({});

  const lists = useMemo(() => {
    const make = (each: ListName) => kitList(each, kit, lengths);
    return { pieces: make("pieces"), strips: make("strips"), sheets: make("sheets"), totals: make("totals") };
  }, [kit, lengths]);
  const order = orders[name] ?? null;
  const list = lists[name];
  const rows = useMemo(() => arranged(list, sieve, order), [list, sieve, order]);

  // A zone that is chosen elsewhere is shown where its pieces stand, whatever was sieved out before.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only another zone turns the page, not another kit.
  useEffect(() => {
    const its = zone === null ? null : listOf(zone, lists);
    if (its === null) return;
    setName(its);
    setSieve((now) => (arranged(lists[its], now, null).some((row) => row.zone === zone) ? now : anything));
  }, [zone]);

  const label = words.cutting.list(words.cutting.lists[name], rows.length, list.rows.length);
  return (
    <div className={styles.tables} data-stale={state !== "ready" || undefined}>
      <div className={styles.bar}>
        <ToggleButtonGroup
          className={styles.lists}
          aria-label={words.cutting.listsLabel}
          disallowEmptySelection
          selectedKeys={[name]}
          onSelectionChange={([key]) => setName(key as ListName)}
        >
          {listNames.map((each) => (
            <ToggleButton key={each} id={each}>
              {words.cutting.lists[each]} <span className={styles.count}>{lists[each].rows.length}</span>
            </ToggleButton>
          ))}
        </ToggleButtonGroup>
        <Sieves kit={kit} name={name} sieve={sieve} onSieve={setSieve} />
        <SaveList kit={kit} name={name} ready={state === "ready"} />
      </div>
      {state !== "ready" && (
        <p className={state === "wrong" ? styles.wrong : styles.soft} role="status">
          {words.cutting[state]} {state === "wrong" && <ToTheFigures />}
        </p>
      )}
      {adrift > 0 && <p className={styles.wrong}>{words.cutting.adrift(adrift)}</p>}
      <div className={styles.list}>
        {rows.length > 0 ? (
          <KitTable
            key={name}
            label={label}
            columns={list.columns}
            rows={rows}
            order={order}
            onOrder={(next) => setOrders((all) => ({ ...all, [name]: next }))}
          />
        ) : (
          <p className={styles.none}>
            {list.rows.length > 0 ? words.cutting.noneLeft : words.cutting.emptyList[name]}
          </p>
        )}
      </div>
    </div>
  );
}

/** Which zone's and which material's rows are shown. */
function Sieves(props: {
  readonly kit: Kit;
  readonly name: ListName;
  readonly sieve: Sieve;
  readonly onSieve: (sieve: Sieve) => void;
}) {
  const { kit, name, sieve, onSieve } = props;
  const zones = [...new Set([...kit.pieces, ...kit.strips, ...kit.sheets].map(({ zone }) => zone))];
  const of = (id: string) => (id === ANY ? null : id);
  return (
    <div className={styles.sieves}>
      {name !== "totals" && (
        <Choice
          label={words.cutting.zone}
          options={[
            { id: ANY, name: words.cutting.anyZone },
            ...zones.map((id) => ({ id, name: headed(zoneName(id)) })),
          ]}
          chosen={sieve.zone ?? ANY}
          onChoose={(id) => onSieve({ ...sieve, zone: of(id) })}
          narrow
        />
      )}
      <Choice
        label={words.cutting.material}
        options={[
          { id: ANY, name: words.cutting.anyMaterial },
          ...kit.totals.map((total) => ({ id: total.material, name: total.name })),
        ]}
        chosen={sieve.material ?? ANY}
        onChoose={(id) => onSieve({ ...sieve, material: of(id) })}
        narrow
      />
    </div>
  );
}

function ToTheFigures() {
  return (
    <Button className={styles.go} onPress={() => session.setState({ place: "drawing-office" })}>
      {words.cutting.amend}
    </Button>
  );
}
