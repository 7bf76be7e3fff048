import { useMemo } from "react";
import { useStore } from "zustand";
import { chainBounds } from "../../../../core/plan/chain-bounds.ts";
import { nearest } from "../../../../core/plan/nearest.ts";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { useDesk, useProject, useSession } from "../../../desk.ts";
import type { Recipe } from "../../../document/history.ts";
import { asRead } from "../../../parts/refusal.ts";
import { useSteady } from "../../../parts/use-steady.ts";
import { words } from "../../../words.ts";
import { choiceName } from "../figures/labels.ts";
import { AddMenu } from "./add-menu.tsx";
import { Board } from "./board.tsx";
import { Dimension } from "./dimension.tsx";
import type { Drawn } from "./drawn-shell.ts";
import { featureHandles } from "./feature-handles.ts";
import { type Fit, toScreen } from "./fit.ts";
import { fittingHandles } from "./fitting-handles.ts";
import { type Handle, onward, type Spot, shiftedHandle } from "./handle.ts";
import { misfitOf, OfferDrawing } from "./offer-drawing.tsx";
import { outlineHandles } from "./outline-handles.ts";
import { addingPoint, halfwayAfter, isPointed, pointBefore, removingPoint } from "./outline-points.ts";
import { PlanDrawing } from "./plan-drawing.tsx";
import { type SheetState, sheetState } from "./sheet-state.ts";
import styles from "./sheets.module.css";
import { useAdding } from "./use-adding.ts";
import { useLastGood } from "./use-last-good.ts";

/** How near to the rim a double click means the rim, mm. */
const NEAR = 200;
const FIELDS = ["shell.outline", "shell.features", "shell.fittings"];

/** The plan of the shell as its figures draw it: outline, features and fittings with their handles. */
export function PlanSheet() {
  const { project } = useDesk();
  const shell = useProject((s) => s.project.shell);
  const chosen = useStore(sheetState, (s) => s.feature);
  const drawn = useLastGood(shell);
  const handles = useMemo(() => planHandles(shell, drawn, chosen), [shell, drawn, chosen]);
  const { adding, begin, point, click, onKey } = useAdding(shell, drawn);
  const choose = useSteady(begin);
  if (!drawn) return null;
  const change = (step: string, recipe: Recipe | null): boolean => {
    if (recipe) project.edit(step, recipe);
    return recipe !== null;
  };
  const addPoint = (behind: number, at: Spot) =>
    change(
      words.steps.add(words.drawing.plan.point),
      addingPoint(project.state.getState().project, drawn, behind, at),
    );
  const onPointKey = ({ id, name }: Handle, key: string): boolean => {
    if (!isPointed(shell.outline) || !id.startsWith("point-")) return false;
    const i = Number(id.slice("point-".length));
    if (key === "Delete")
      return change(words.steps.remove(name), removingPoint(project.state.getState().project, drawn, i));
    const halfway = key === "Insert" || key === "+" ? halfwayAfter(drawn, i) : null;
    return halfway !== null && addPoint(i, halfway);
  };
  const onDoubleClick = (spot: Spot) => {
    const inPlan = onward(spot, drawn.moved, 1);
    const near = Math.abs(nearest(drawn.outline.chain, inPlan.x, inPlan.y).distance) < NEAR;
    if (!adding && near && isPointed(shell.outline))
      addPoint(pointBefore(shell.outline, drawn, inPlan), inPlan);
  };
  const bounds = chainBounds(drawn.outline.chain);
  const { moved } = drawn;
  const out = shell.coping.flange;
  const box = {
    minX: bounds.minX - moved.x - out,
    maxX: bounds.maxX - moved.x + out,
    minY: bounds.minY - moved.y - out,
    maxY: bounds.maxY - moved.y + out,
  };
  return (
    <Board
      title={words.drawing.plan.title}
      label={words.drawing.plan.label}
      hint={isPointed(shell.outline) ? words.drawing.plan.pointHint : words.drawing.plan.hint}
      tools={<AddMenu onChoose={choose} />}
      saying={adding && <Saying shell={shell} adding={adding} />}
      quiet={adding !== null}
      onKeyBefore={onKey}
      onKey={onPointKey}
      onMove={point}
      onClick={(spot) => adding && click(spot)}
      onDoubleClick={onDoubleClick}
      box={box}
      handles={handles}
      fields={FIELDS}
      draw={(fit) => (
        <>
          <PlanDrawing
            shell={shell}
            drawn={drawn}
            fit={fit}
            chosen={chosen}
            handles={handles}
            quiet={adding !== null}
          />
          {adding && <OfferDrawing shell={shell} drawn={drawn} fit={fit} offer={adding.offer} />}
          <Sizes drawn={drawn} fit={fit} />
        </>
      )}
    />
  );
}

/** The outline's handles and the fittings', and those of the feature that is chosen. */
function planHandles(shell: ShellSpec, drawn: Drawn | null, chosen: string | null): Handle[] {
  const outline = outlineHandles(shell);
  if (!drawn) return outline;
  const back = { x: -drawn.moved.x, y: -drawn.moved.y };
  const index = shell.features.findIndex(({ id }) => id === chosen);
  const inPlan = [
    ...fittingHandles(shell, drawn.outline),
    ...(index < 0 ? [] : featureHandles(shell, drawn.outline, index)),
  ];
  return [...outline, ...inPlan.map((handle) => shiftedHandle(handle, back))];
}

/** What is about to be put in and where, and why it would not fit. */
function Saying({
  shell,
  adding,
}: {
  readonly shell: ShellSpec;
  readonly adding: NonNullable<SheetState["adding"]>;
}) {
  const lengths = useSession((s) => s.lengths);
  const misfit = misfitOf(shell, adding.offer);
  const { add, where, cannot } = words.drawing.adding;
  return (
    <p className={styles.told} role="status" title={where(choiceName(adding.kind))}>
      {add} {choiceName(adding.kind)}: <strong>{adding.offer.where}</strong>{" "}
      {misfit ? (
        <span className={styles.misfit}>{asRead(cannot(misfit), lengths)}</span>
      ) : (
        <span className={styles.soft}>{where(choiceName(adding.kind))}</span>
      )}
    </p>
  );
}

/** Length and width of the rim, beside the plan. */
function Sizes({ drawn, fit }: { readonly drawn: Drawn; readonly fit: Fit }) {
  const { length, width } = drawn.outline.extent;
  const at = (x: number, y: number) => toScreen(fit, onward({ x, y }, drawn.moved, -1));
  // Clear of the coping, and of the width's handle beside the rim.
  const below = Math.max(at(0, -width / 2 - drawn.flange).y + 26, at(0, -width / 2).y + 41);
  const beside = at(-drawn.flange, 0).x - 28;
  return (
    <>
      <Dimension
        name="length"
        mm={length}
        from={{ x: at(0, 0).x, y: below }}
        to={{ x: at(length, 0).x, y: below }}
      />
      <Dimension
        name="width"
        mm={width}
        from={{ x: beside, y: at(0, -width / 2).y }}
        to={{ x: beside, y: at(0, width / 2).y }}
      />
    </>
  );
}
