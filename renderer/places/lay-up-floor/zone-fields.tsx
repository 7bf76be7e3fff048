import { useMemo } from "react";
import type { ZoneSpec } from "../../../core/project/schema.ts";
import { useDesk, useProject, useSession } from "../../desk.ts";
import type { FigurePath } from "../../document/figure-path.ts";
import type { Edited } from "../../document/project-store.ts";
import { Choice } from "../../parts/choice.tsx";
import { measureOf } from "../../parts/figure.ts";
import { FigureField, type FigureTaker } from "../../parts/figure-field.tsx";
import { figureLabel } from "../../tools/figure-label.ts";
import { settingOf } from "../../tools/zone-edits.ts";
import { figuresOf, type ZoneFigure } from "../../tools/zone-figures.ts";
import { namesIn } from "../../tools/zone-names.ts";
import { words } from "../../words.ts";
import { changeChosen, namesOf } from "./acts.ts";
import styles from "./card.module.css";

/** Every figure and name that the chosen zones have in common, as fields that change all of them at once. */
export function ZoneFields({
  zones,
  locked,
}: {
  readonly zones: readonly ZoneSpec[];
  readonly locked: boolean;
}) {
  const figures = figuresOf(zones);
  return (
    <fieldset className={styles.fields} disabled={locked}>
      {figures.map((figure) => (
        <Field key={figure.path.join(".")} figure={figure} zones={zones} />
      ))}
      <Feet zones={zones} />
      <Stretch zones={zones} />
      <Names zones={zones} />
    </fieldset>
  );
}

function Field({ figure, zones }: { readonly figure: ZoneFigure; readonly zones: readonly ZoneSpec[] }) {
  const lengths = useSession((s) => s.lengths);
  const measure = useMemo(() => measureOf(figure.schema), [figure.schema]);
  const label = figureLabel(figure.path, zones);
  const taker = useZonesTaker(
    zones.map(({ id }) => id),
    figure.path,
    label,
  );
  return (
    <FigureField
      label={label}
      value={figure.value}
      measure={measure}
      lengths={lengths}
      taker={taker}
      name={figure.path.join(".")}
      mixed={!figure.agreed}
    />
  );
}

function useZonesTaker(ids: readonly string[], path: FigurePath, label: string): FigureTaker {
  const { project } = useDesk();
  const step = words.steps.change(`${label} of ${namesOf(ids)}`);
  return {
    take: (value) => faultOf(project.edit(step, settingOf(ids, path, value))),
    drag() {
      const drag = project.drag(step);
      return {
        show: (value) => faultOf(drag.show(settingOf(ids, path, value))),
        keep: drag.keep,
        drop: drag.drop,
      };
    },
  };
}

const faultOf = (edited: Edited): string | null =>
  edited.ok ? null : edited.problems.map(({ sentence }) => sentence).join(" ");

/** How ribs end below. */
function Feet({ zones }: { readonly zones: readonly ZoneSpec[] }) {
  const desk = useDesk();
  const feet = zones.flatMap((zone) => ("foot" in zone ? [zone.foot] : []));
  const rules = useProject((s) => s.project.rules.ribs);
  if (feet.length !== zones.length || feet.length === 0) return null;
  return (
    <Choice
      label={words.floor.footOfRib}
      options={[
        { id: "over", name: words.floor.overCove },
        { id: "to", name: words.floor.toCove },
      ]}
      chosen={feet[0].kind}
      onChoose={(kind) =>
        changeChosen(desk, words.floor.footOfRib, (ids) =>
          settingOf(ids, ["foot"], kind === "over" ? { kind, onto: rules.onto } : { kind, clear: 30 }),
        )
      }
    />
  );
}

/** Whether bands run along the whole of their transition or a part of it. */
function Stretch({ zones }: { readonly zones: readonly ZoneSpec[] }) {
  const desk = useDesk();
  const bands = zones.flatMap((zone) => (zone.kind === "band" ? [zone] : []));
  if (bands.length !== zones.length || bands.length === 0) return null;
  return (
    <Choice
      label={words.floor.stretch}
      options={[
        { id: "whole", name: words.floor.whole },
        { id: "part", name: words.floor.part },
      ]}
      chosen={bands[0].stretch ? "part" : "whole"}
      onChoose={(kind) =>
        changeChosen(desk, words.floor.stretch, (ids) => (draft) => {
          for (const zone of draft.layup) {
            if (!ids.includes(zone.id) || zone.kind !== "band") continue;
            if (kind === "whole") delete zone.stretch;
            else zone.stretch ??= { from: 0.25, to: 0.75 };
          }
        })
      }
    />
  );
}

/** What the zones lie on and what they are made of. */
function Names({ zones }: { readonly zones: readonly ZoneSpec[] }) {
  const desk = useDesk();
  const project = useProject((s) => s.project);
  return namesIn(zones, project, desk.results.getState().lines).map(({ path, value, options }) => {
    const label = words.floor.figures[path.join(".") as keyof typeof words.floor.figures];
    return (
      <Choice
        key={path.join(".")}
        label={label}
        options={options}
        chosen={value}
        onChoose={(next) => changeChosen(desk, label, (ids) => settingOf(ids, path, next))}
      />
    );
  });
}
