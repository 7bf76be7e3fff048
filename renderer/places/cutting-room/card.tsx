import type { KitDoubt } from "../../../core/cutting/kit.ts";
import { printArea } from "../../../core/units/area.ts";
import { printLength } from "../../../core/units/length.ts";
import { printMass } from "../../../core/units/mass.ts";
import { useResults, useSession } from "../../desk.ts";
import { session } from "../../document/session.ts";
import type { Measure } from "../../parts/figure.ts";
import { FigureField, type FigureTaker } from "../../parts/figure-field.tsx";
import { isImperial } from "../../parts/imperial.ts";
import { headed, zoneName } from "../../parts/names.ts";
import { asRead } from "../../parts/refusal.ts";
import { words } from "../../words.ts";
import styles from "./card.module.css";
import { useKit } from "./use-kit.ts";

/** A lot of a thousand shells is more than any shop lays up between two changes of a model. */
const shells: Measure = { kind: "count", unit: "", min: 1, max: 999, step: 1 };

/** The lot is no part of the project: what is taken is kept in the session, a drag from its first value on. */
const taker: FigureTaker = {
  take(lot) {
    session.setState({ lot });
    return null;
  },
  drag() {
    const { lot: before } = session.getState();
    return { show: taker.take, keep() {}, drop: () => session.setState({ lot: before }) };
  },
};

/** The card of the cutting room: how many shells the lot has, and what they take of each material. */
export function CuttingRoomCard() {
  const { kit, state } = useKit();
  const lot = useSession((s) => s.lot);
  const lengths = useSession((s) => s.lengths);
  const doubts = useResults((r) => r.kit?.doubts ?? none);
  const imperial = isImperial(lengths);
  return (
    <section className={styles.card} data-stale={state !== "ready" || undefined}>
      <FigureField
        label={words.cutting.lot}
        value={lot}
        measure={shells}
        lengths={lengths}
        taker={taker}
        name="lot"
      />
      <h2>{words.cutting.title(lot)}</h2>
      {kit?.totals.map(({ material, name, kind, pieces, areaMm2, lengthMm, massKg }) => (
        <dl key={material} data-figures="" data-material={material}>
          <dt>{name}</dt>
          <dd>{words.cutting.pieces(pieces)}</dd>
          <dd>{printArea(areaMm2 / 1e6, imperial ? "ft2" : "m2")}</dd>
          {kind !== "sheet" && <dd>{printLength(lengthMm, imperial ? lengths : "m")}</dd>}
          <dd>{printMass(massKg, imperial ? "lb" : "kg")}</dd>
        </dl>
      ))}
      {kit && kit.totals.length > 0 && words.cutting.notes.map((note) => <p key={note}>{note}</p>)}
      {!kit && <p>{state === "wrong" ? words.cutting.wrongFirst : words.cutting.computing}</p>}
      {kit?.totals.length === 0 && <p>{words.cutting.nothing}</p>}
      <Doubts label={words.cutting.cannotBeCut} doubts={doubts.filter(({ fault }) => fault)} wrong />
      <Doubts label={words.card.look} doubts={doubts.filter(({ fault }) => !fault)} />
    </section>
  );
}

const none: readonly KitDoubt[] = [];

/** What there is to say of pieces, zone by zone; nothing where there is nothing. */
function Doubts(props: {
  readonly label: string;
  readonly doubts: readonly KitDoubt[];
  readonly wrong?: boolean;
}) {
  const { label, doubts, wrong } = props;
  const lengths = useSession((s) => s.lengths);
  if (doubts.length === 0) return null;
  return (
    <div className={styles.doubts} data-wrong={wrong || undefined}>
      <h3>{label}</h3>
      <ul>
        {doubts.map(({ zone, says }) => (
          <li key={`${zone} ${says}`}>
            <strong>{headed(zoneName(zone))}</strong> {asRead(says, lengths)}
          </li>
        ))}
      </ul>
    </div>
  );
}
