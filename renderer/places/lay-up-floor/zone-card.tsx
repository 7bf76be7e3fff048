import { Copy, Eye, EyeOff, FlipVertical2, Lock, LockOpen, Trash2 } from "lucide-react";
import { useMemo } from "react";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { printArea } from "../../../core/units/area.ts";
import { printLength } from "../../../core/units/length.ts";
import { printMass } from "../../../core/units/mass.ts";
import { useDesk, useResults, useSession } from "../../desk.ts";
import { IconButton } from "../../parts/icon-button.tsx";
import { isImperial } from "../../parts/imperial.ts";
import { faceName, headed, lineName, zoneName } from "../../parts/names.ts";
import { words } from "../../words.ts";
import { doubtsOf } from "../../worker/to-look-at.ts";
import { deleteChosen, duplicateChosen, mirrorChosen, turn } from "./acts.ts";
import styles from "./card.module.css";
import { CopyMenu } from "./copy-menu.tsx";
import { LookList } from "./look-list.tsx";
import { ZoneFields } from "./zone-fields.tsx";

/** The job card of what is chosen: what it is, what can be set, what follows from it, what to look at. */
export function ZoneCard({ zones }: { readonly zones: readonly ZoneSpec[] }) {
  const ids = zones.map(({ id }) => id);
  const locked = useSession((s) => ids.every((id) => s.locked.has(id)));
  const hidden = useSession((s) => ids.every((id) => s.hidden.has(id)));
  const desk = useDesk();
  const [first] = zones;
  const one = zones.length === 1;
  const kinds = [...new Set(zones.map(({ kind }) => words.floor.kinds[kind]))].join(", ");
  return (
    <section className={styles.zone}>
      <div className={styles.head}>
        <h2>{one ? headed(zoneName(first.id)) : words.floor.chosen(zones.length)}</h2>
        <IconButton label={words.floor.duplicate} onPress={() => duplicateChosen(desk)}>
          <Copy />
        </IconButton>
        <IconButton label={words.floor.mirror} onPress={() => mirrorChosen(desk)}>
          <FlipVertical2 />
        </IconButton>
        {one && <CopyMenu zone={first} />}
        <IconButton label={hidden ? words.floor.unhide : words.floor.hide} onPress={() => turn("hidden")}>
          {hidden ? <EyeOff /> : <Eye />}
        </IconButton>
        <IconButton label={locked ? words.floor.unlock : words.floor.lock} onPress={() => turn("locked")}>
          {locked ? <Lock /> : <LockOpen />}
        </IconButton>
        <IconButton label={words.floor.delete} onPress={() => deleteChosen(desk)} isDisabled={locked}>
          <Trash2 />
        </IconButton>
      </div>
      <p className={styles.where}>{one ? whereOf(first) : headed(kinds)}</p>
      {locked && <p className={styles.where}>{words.floor.lockedHint}</p>}
      <ZoneFields zones={zones} locked={locked} />
      <Figures ids={ids} />
      <Doubts zones={zones} />
    </section>
  );
}

/** What a zone is and where, in one line. */
function whereOf(zone: ZoneSpec): string {
  const what = headed(words.zoneKinds[zone.kind]);
  if (zone.kind === "band") return `${what}: ${lineName(zone.on)}`;
  if (zone.kind === "pad") return `${what}: ${faceName(zone.on)}`;
  if (zone.kind === "gussets") return `${what}: ${faceName(zone.under)}`;
  if (zone.kind === "rib") return `${what}: ${faceName(zone.at.run)}`;
  if (zone.kind === "rib-row") return `${what}: ${faceName(zone.from.run)}`;
  if (zone.kind === "stiffener") return `${what}: ${faceName(zone.run)}`;
  return what;
}

/** What follows: lengths and areas on the shell, and what the kit cuts for it. */
function Figures({ ids }: { readonly ids: readonly string[] }) {
  const laid = useResults((r) => r.zones);
  const kit = useResults((r) => r.kit);
  const lengths = useSession((s) => s.lengths);
  const imperial = isImperial(lengths);
  const zones = laid.filter(({ id }) => ids.includes(id));
  if (zones.length === 0) return null;
  const sum = (figure: "areaMm2" | "allPliesMm2" | "lengthMm") =>
    zones.reduce((all, zone) => all + zone[figure], 0);
  const area = (mm2: number) => printArea(mm2 / 1e6, imperial ? "ft2" : "m2");
  const cut = kit
    ? [...kit.pieces, ...kit.strips, ...kit.sheets].filter(({ zone }) => ids.includes(zone))
    : [];
  const pieces = cut.reduce((all, { quantity }) => all + quantity, 0);
  const mass = cut.reduce(
    (all, piece) => all + piece.quantity * ("glassKg" in piece ? piece.glassKg : piece.massKg),
    0,
  );
  const lines: [string, string][] = [
    [words.card.length, printLength(sum("lengthMm"), lengths)],
    [words.card.onShell, area(sum("areaMm2"))],
    ...(zones.some(({ plies }) => plies > 1)
      ? [[words.floor.allPlies, area(sum("allPliesMm2"))] as [string, string]]
      : []),
    ...(cut.length > 0
      ? ([
          [words.floor.pieces, String(pieces)],
          [words.floor.mass, printMass(mass / (kit?.shells ?? 1), imperial ? "lb" : "kg")],
        ] as [string, string][])
      : []),
  ];
  return (
    <dl className={styles.follows} data-figures="">
      {lines.map(([name, figure]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{figure}</dd>
        </div>
      ))}
    </dl>
  );
}

/** What there is to look at in the zones, faults before notes. */
function Doubts({ zones }: { readonly zones: readonly ZoneSpec[] }) {
  const laid = useResults((r) => r.zones);
  const kit = useResults((r) => r.kit);
  const all = useMemo(() => doubtsOf({ zones: laid, kit }), [laid, kit]);
  const looks = all.filter(({ zone }) => zones.some(({ id }) => id === zone));
  return (
    <>
      <LookList looks={looks.filter(({ isFault }) => isFault)} zones={zones} wrong />
      <LookList looks={looks.filter(({ isFault }) => !isFault)} zones={zones} />
    </>
  );
}
