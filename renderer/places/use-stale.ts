import { useProject, useResults } from "../desk.ts";
import { sameValue } from "../document/same-value.ts";

/** Whether the measures at hand are those of an earlier shell: they stay on screen, and must not be read as this one's. */
export function useStaleMeasure(): boolean {
  const shell = useProject((s) => s.project.shell);
  const of = useResults((r) => r.measureOf);
  return of !== null && !sameValue(of, shell);
}
