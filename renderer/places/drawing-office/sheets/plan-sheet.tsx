import { useMemo } from "react";
import { useStore } from "zustand";
import { chainBounds } from "../../../../core/plan/chain-bounds.ts";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { useProject } from "../../../desk.ts";
import { words } from "../../../words.ts";
import { Board } from "./board.tsx";
import { Dimension } from "./dimension.tsx";
import type { Drawn } from "./drawn-shell.ts";
import { featureHandles } from "./feature-handles.ts";
import { type Fit, toScreen } from "./fit.ts";
import { fittingHandles } from "./fitting-handles.ts";
import { type Handle, onward, shiftedHandle } from "./handle.ts";
import { outlineHandles } from "./outline-handles.ts";
import { PlanDrawing } from "./plan-drawing.tsx";
import { sheetState } from "./sheet-state.ts";
import { useLastGood } from "./use-last-good.ts";

const FIELDS = ["shell.outline", "shell.features", "shell.fittings"];

/** The plan of the shell as its figures draw it: outline, features and fittings with their handles. */
export function PlanSheet() {
  const shell = useProject((s) => s.project.shell);
  const chosen = useStore(sheetState, (s) => s.feature);
  const drawn = useLastGood(shell);
  const handles = useMemo(() => planHandles(shell, drawn, chosen), [shell, drawn, chosen]);
  if (!drawn) return null;
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
      hint={words.drawing.plan.hint}
      box={box}
      handles={handles}
      fields={FIELDS}
      draw={(fit) => (
        <>
          <PlanDrawing shell={shell} drawn={drawn} fit={fit} chosen={chosen} />
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

/** Length and width of the rim, beside the plan. */
function Sizes({ drawn, fit }: { readonly drawn: Drawn; readonly fit: Fit }) {
  const { length, width } = drawn.outline.extent;
  const at = (x: number, y: number) => toScreen(fit, onward({ x, y }, drawn.moved, -1));
  const below = at(0, -width / 2 - drawn.flange).y + 26;
  const beside = at(-drawn.flange, 0).x - 20;
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
