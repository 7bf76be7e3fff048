import { useMemo } from "react";
import { useStore } from "zustand";
import { useDesk, useProject } from "../../../desk.ts";
import type { Recipe } from "../../../document/history.ts";
import { words } from "../../../words.ts";
import { Board } from "./board.tsx";
import { addingStation, floorHandles, removingStation } from "./floor-handles.ts";
import type { Handle, Spot } from "./handle.ts";
import { SectionDrawing } from "./section-drawing.tsx";
import { sheetState } from "./sheet-state.ts";
import { treadHandles } from "./tread-handles.ts";
import { useLastGood } from "./use-last-good.ts";

const FIELDS = ["shell.floor", "shell.waterLine"];
/** How near to the floor a double click means the floor, mm. */
const NEAR = 250;

/** The long section, along the centre line where the pool is as long there as anywhere: the floor by its stations, the water line, the features that it meets. */
export function SectionSheet() {
  const { project } = useDesk();
  const shell = useProject((s) => s.project.shell);
  const chosen = useStore(sheetState, (s) => s.feature);
  const drawn = useLastGood(shell);
  const handles = useMemo(
    () => (drawn ? [...floorHandles(shell, drawn), ...treadHandles(shell, drawn, chosen)] : []),
    [shell, drawn, chosen],
  );
  if (!drawn) return null;
  const { from, to } = drawn.cut;
  const { stations } = shell.floor;
  const deepest = drawn.floor?.deepest ?? Math.max(...stations.map(({ depth }) => depth));
  const box = {
    minX: Math.min(from, stations[0].at),
    maxX: Math.max(to, stations[stations.length - 1].at),
    minY: -deepest,
    maxY: 0,
  };
  const depthAt = (x: number) => drawn.floor?.depthAt(x, drawn.cut.y) ?? stations[0].depth;
  const change = (step: string, recipe: Recipe | null): boolean => {
    if (recipe) project.edit(step, recipe);
    return recipe !== null;
  };
  const add = (at: number) =>
    change(words.steps.add(words.drawing.section.depth), addingStation(shell.floor, at, depthAt(at)));
  const onKey = ({ id, name }: Handle, key: string): boolean => {
    const i = id.startsWith("station-") ? Number(id.slice("station-".length)) : -1;
    if (i < 0) return false;
    if (key === "Delete") return change(words.steps.remove(name), removingStation(shell.floor, i));
    // Halfway to the next station, or to the end of the pool behind the last one.
    if (key === "Insert" || key === "+") return add((stations[i].at + (stations[i + 1]?.at ?? to)) / 2);
    return false;
  };
  return (
    <Board
      title={words.drawing.section.title}
      label={words.drawing.section.label}
      hint={words.drawing.section.hint}
      box={box}
      handles={handles}
      fields={FIELDS}
      onKey={onKey}
      onDoubleClick={({ x, y }: Spot) => {
        if (Math.abs(y + depthAt(x)) < NEAR) add(x);
      }}
      draw={(fit) => <SectionDrawing shell={shell} drawn={drawn} fit={fit} chosen={chosen} />}
    />
  );
}
