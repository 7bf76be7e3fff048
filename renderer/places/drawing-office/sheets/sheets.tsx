import { PlanSheet } from "./plan-sheet.tsx";

/** Along the foot of the drawing office: the shell on paper, to be worked on. */
export function Sheets() {
  return <PlanSheet />;
}
