import { useMemo } from "react";
import type { Project } from "../../../../core/project/schema.ts";
import { useDesk, useProject, useResults, useSession } from "../../../desk.ts";
import type { Recipe } from "../../../document/history.ts";
import type { Edited } from "../../../document/project-store.ts";
import type { Measure } from "../../../parts/figure.ts";
import { FigureField, type FigureTaker } from "../../../parts/figure-field.tsx";
import { zoneName } from "../../../parts/names.ts";
import { outlineOf } from "../../../tools/rim-places.ts";
import { replacing } from "../../../tools/zone-edits.ts";
import { words } from "../../../words.ts";
import type { Results } from "../../../worker/results.ts";
import type { LineGround } from "./grips.ts";
import { type RimEnd, rimEndsOf, stationOfEnd, withStation } from "./rim-ends.ts";
import styles from "./tape.module.css";

/** Where a rib stands, or a row or a part of a band begins and ends, as the tape reads it along the rim. */
export function RimFields({ id }: { readonly id: string }) {
  const project = useProject((s) => s.project);
  const tape = useResults((r) => r.tape);
  const lines = useResults((r) => r.lines);
  const zone = project.layup.find((each) => each.id === id);
  const ground = groundOf(project, { tape, lines });
  if (!zone || !ground) return null;
  return (
    <div className={styles.fields}>
      {rimEndsOf(zone).map((end) => {
        const station = stationOfEnd(zone, end, ground);
        return station === null ? null : (
          <RimField key={end} id={id} end={end} station={station} rimLengthMm={ground.outline.chain.length} />
        );
      })}
    </div>
  );
}

function groundOf(project: Project, { tape, lines }: Pick<Results, "tape" | "lines">): LineGround | null {
  const outline = outlineOf(project.shell.outline);
  return tape && outline && { outline, lines, board: { wall: tape.wall, face: null } };
}

function RimField(props: {
  readonly id: string;
  readonly end: RimEnd;
  readonly station: number;
  readonly rimLengthMm: number;
}) {
  const { id, end, station, rimLengthMm } = props;
  const { project, results } = useDesk();
  const lengths = useSession((s) => s.lengths);
  const measure = useMemo<Measure>(
    () => ({ kind: "length", unit: "", min: 0, max: rimLengthMm, step: 10 }),
    [rimLengthMm],
  );
  const taker = useMemo<FigureTaker>(() => {
    const step =
      end === "at" ? words.steps.slide(zoneName(id)) : words.steps.change(words.tape.endOf(zoneName(id)));
    const put = (at: number) => {
      const { project: before } = project.state.getState().history;
      const zone = before.layup.find((each) => each.id === id);
      const ground = groundOf(before, results.getState());
      if (!zone || !ground) throw new Error(`The project has no ${end} of ${id} to set.`);
      return withStation(zone, end, at, ground);
    };
    const taken = (at: number, take: (recipe: Recipe) => Edited) => {
      const after = put(at);
      return after ? faultOf(take(replacing(after))) : words.tape.noPlace;
    };
    return {
      take: (at) => taken(at, (recipe) => project.edit(step, recipe)),
      drag() {
        const drag = project.drag(step);
        return { show: (at) => taken(at, drag.show), keep: drag.keep, drop: drag.drop };
      },
    };
  }, [project, results, id, end]);
  return (
    <FigureField
      label={words.tape[end]}
      value={Math.round(station * 10) / 10}
      measure={measure}
      lengths={lengths}
      taker={taker}
      name={`tape.${end}`}
    />
  );
}

const faultOf = (edited: Edited): string | null =>
  edited.ok ? null : edited.problems.map(({ sentence }) => sentence).join(" ");
