import { useMemo } from "react";
import type { ZoneSpec } from "../../../../core/project/schema.ts";
import { useDesk, useProject, useSession } from "../../../desk.ts";
import type { Edited } from "../../../document/project-store.ts";
import type { Measure } from "../../../parts/figure.ts";
import { FigureField, type FigureTaker } from "../../../parts/figure-field.tsx";
import { zoneName } from "../../../parts/names.ts";
import { outlineOf, placeAt, stationOf } from "../../../tools/rim-places.ts";
import { replacing } from "../../../tools/zone-edits.ts";
import { words } from "../../../words.ts";
import styles from "./tape.module.css";

type End = "at" | "from" | "to";

/** Where a rib stands, or a row begins and ends, as the tape reads it along the rim. */
export function RimFields({ id }: { readonly id: string }) {
  const zone = useProject((s) => s.project.layup.find((each) => each.id === id));
  const spec = useProject((s) => s.project.shell.outline);
  const outline = outlineOf(spec);
  if (!zone || !outline) return null;
  const ends: readonly End[] = zone.kind === "rib" ? ["at"] : zone.kind === "rib-row" ? ["from", "to"] : [];
  return (
    <div className={styles.fields}>
      {ends.map((end) => (
        <RimField key={end} zone={zone} end={end} rimLengthMm={outline.chain.length} />
      ))}
    </div>
  );
}

function RimField(props: { readonly zone: ZoneSpec; readonly end: End; readonly rimLengthMm: number }) {
  const { zone, end, rimLengthMm } = props;
  const { id } = zone;
  const { project } = useDesk();
  const lengths = useSession((s) => s.lengths);
  const measure = useMemo<Measure>(
    () => ({ kind: "length", unit: "", min: 0, max: rimLengthMm, step: 10 }),
    [rimLengthMm],
  );
  const taker = useMemo<FigureTaker>(() => {
    const step =
      end === "at" ? words.steps.slide(zoneName(id)) : words.steps.change(words.tape.endOf(zoneName(id)));
    const put = (station: number) => {
      const { history } = project.state.getState();
      return replacing(withStation(history.project.layup, id, end, station, history.project.shell.outline));
    };
    return {
      take: (station) => faultOf(project.edit(step, put(station))),
      drag() {
        const drag = project.drag(step);
        return { show: (station) => faultOf(drag.show(put(station))), keep: drag.keep, drop: drag.drop };
      },
    };
  }, [project, id, end]);
  const spec = useProject((s) => s.project.shell.outline);
  const outline = outlineOf(spec);
  const place = placeOf(zone, end);
  const station = outline && place && stationOf(outline, place);
  if (station === null) return null;
  return (
    <FigureField
      label={words.tape[end]}
      value={Math.round(station * 100) / 100}
      measure={measure}
      lengths={lengths}
      taker={taker}
      name={`tape.${end}`}
    />
  );
}

function placeOf(zone: ZoneSpec, end: End) {
  if (zone.kind === "rib") return end === "at" ? zone.at : null;
  if (zone.kind === "rib-row") return end === "at" ? null : zone[end];
  return null;
}

function withStation(
  layup: readonly ZoneSpec[],
  id: string,
  end: End,
  station: number,
  spec: Parameters<typeof outlineOf>[0],
): ZoneSpec {
  const zone = layup.find((each) => each.id === id);
  const outline = outlineOf(spec);
  const place = zone && placeOf(zone, end);
  if (!zone || !outline || !place) throw new Error(`The project has no ${end} of ${id} to set.`);
  return { ...zone, [end]: placeAt(outline, station, place) } as ZoneSpec;
}

const faultOf = (edited: Edited): string | null =>
  edited.ok ? null : edited.problems.map(({ sentence }) => sentence).join(" ");
