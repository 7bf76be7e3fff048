import { Group, Panel, Separator } from "react-resizable-panels";
import { keptSizes } from "../../../frame/kept-sizes.ts";
import { words } from "../../../words.ts";
import { PlanSheet } from "./plan-sheet.tsx";
import { SectionSheet } from "./section-sheet.tsx";
import styles from "./sheets.module.css";

/** Along the foot of the drawing office: plan and long section of the shell, both to be worked on. */
export function Sheets() {
  const kept = keptSizes("sheets", ["plan", "section"]);
  return (
    <Group orientation="horizontal" onLayoutChanged={kept.keep}>
      <Panel id="plan" defaultSize={kept.sizeOf("plan") ?? "56%"} minSize="220px">
        <PlanSheet />
      </Panel>
      <Separator className={styles.border} aria-label={words.drawing.between} />
      <Panel id="section" minSize="200px">
        <SectionSheet />
      </Panel>
    </Group>
  );
}
