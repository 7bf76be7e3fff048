import type { RefObject } from "react";
import { useStore } from "zustand";
import { printArea } from "../../core/units/area.ts";
import { type LengthStyle, printLength } from "../../core/units/length.ts";
import { useDesk, useResults, useSession } from "../desk.ts";
import type { Thing } from "../document/session.ts";
import { isImperial } from "../parts/imperial.ts";
import { faceName, headed, lineName, zoneName } from "../parts/names.ts";
import { OfferWords } from "../parts/offer-words.tsx";
import type { Results } from "../worker/results.ts";
import styles from "./scene.module.css";

/** Name, length and area of what is under the pointer. */
export function Readout({ box }: { readonly box: RefObject<HTMLDivElement | null> }) {
  const hovered = useSession((s) => s.hovered);
  const lengths = useSession((s) => s.lengths);
  const results = useResults((r) => r);
  const painting = useSession((s) => s.tool !== null && s.place === "lay-up-floor");
  const offered = useStore(useDesk().hand.offer, (s) => s.offer !== null);
  const told = !painting && hovered && tell(hovered, results, lengths);
  return (
    <div
      ref={box}
      data-readout=""
      className={styles.readout}
      hidden={!told && !(painting && offered)}
      data-figures=""
    >
      {painting && <OfferWords />}
      {told && (
        <>
          <strong>{told.name}</strong>
          <span>{told.figures}</span>
        </>
      )}
    </div>
  );
}

function tell(thing: Thing, results: Results, lengths: LengthStyle) {
  const area = (mm2: number) => printArea(mm2 / 1e6, isImperial(lengths) ? "ft2" : "m2");
  const length = (mm: number) => printLength(mm, lengths === "mm" ? "mm" : lengths);
  switch (thing.kind) {
    case "face": {
      const face = results.measure?.faces.find(({ id }) => id === thing.id);
      return { name: headed(faceName(thing.id)), figures: face ? area(face.areaMm2) : "" };
    }
    case "transition": {
      const measured = results.measure?.lines.find(({ id }) => id === thing.id);
      const line = results.lines.find(({ id }) => id === thing.id);
      const mm = measured?.lengthMm ?? line?.lengthMm;
      if (!line || mm === undefined) return null;
      return {
        name: headed(lineName(thing.id)),
        figures: `${line.closed ? "whole loop " : ""}${length(mm)}`,
      };
    }
    case "zone": {
      const zone = results.zones.find(({ id }) => id === thing.id);
      if (!zone) return null;
      const plies = zone.plies > 1 ? `${zone.plies} plies · ` : "";
      return {
        name: headed(zoneName(zone.id)),
        figures: `${plies}${length(zone.lengthMm)} · ${area(zone.areaMm2)}`,
      };
    }
  }
}
