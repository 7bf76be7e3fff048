import { useProject, useResults } from "../desk.ts";
import { sameValue } from "../document/same-value.ts";

/** Whether the measures at hand are those of an earlier shell: they stay on screen, and must not be read as this one's. */
export function useStaleMeasure(): boolean {
  const shell = useProject((s) => s.project.shell);
  const of = useResults((r) => r.measureOf);
  return of !== null && !sameValue(of, shell);
}

/** Whether the lay-up and the kit at hand are those of an earlier project. False until there is one. */
export function useStaleLayup(): boolean {
  const project = useProject((s) => s.project);
  const of = useResults((r) => r.of);
  return of !== null && of !== project;
}
