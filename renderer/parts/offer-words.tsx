import { useStore } from "zustand";
import { printArea } from "../../core/units/area.ts";
import { printLength } from "../../core/units/length.ts";
import { useDesk, useProject, useSession } from "../desk.ts";
import { liesThere } from "../tools/lies-there.ts";
import { words } from "../words.ts";
import { isImperial } from "./imperial.ts";
import { headed, zoneName } from "./names.ts";
import styles from "./offer-words.module.css";
import { asRead } from "./refusal.ts";

/** What is about to be laid: its name, its figures once it was tried, or why it finds no place here. */
export function OfferWords() {
  const offer = useStore(useDesk().hand.offer, (s) => s.offer);
  const lengths = useSession((s) => s.lengths);
  const layup = useProject((s) => s.project.layup);
  if (!offer) return null;
  const one = offer.tried?.[0];
  const name = <strong>{headed(offer.name)}</strong>;
  if (!one) return <span className={styles.offer}>{name}</span>;
  if (!one.ok) {
    return (
      <span className={styles.offer} data-wrong="">
        {name}
        <span>{asRead(one.why, lengths)}</span>
      </span>
    );
  }
  const { spec, areaMm2, lengthMm, doubts } = one.zone;
  const there = liesThere(layup, spec).map(zoneName);
  const width = (mm: number) => printLength(mm, lengths);
  const parts = [
    ...(spec.kind === "band" ? [`${width(spec.halfWidths[0])} + ${width(spec.halfWidths[1])}`] : []),
    width(lengthMm),
    printArea(areaMm2 / 1e6, isImperial(lengths) ? "ft2" : "m2"),
    ...(doubts.length > 0 ? [words.totals.look(doubts.length)] : []),
  ];
  return (
    <span className={styles.offer} data-figures="">
      {name}
      <span>{parts.join(" · ")}</span>
      {there.length > 0 && <span data-there="">{words.floor.there(there)}</span>}
    </span>
  );
}
