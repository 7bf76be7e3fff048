import { useMemo } from "react";
import type { Kit } from "../../../core/cutting/kit.ts";
import { kitForLot } from "../../../core/cutting/lot.ts";
import { useProject, useResults, useSession } from "../../desk.ts";

/**
 * The kit for the lot, and whether it is that of the project as it stands: it is not while a change is being worked out, nor
 * while a figure stands in the way. Null until a first one was cut.
 */
export function useKit(): { readonly kit: Kit | null; readonly state: "ready" | "computing" | "wrong" } {
  const ofOne = useResults((r) => r.kit);
  const of = useResults((r) => r.of);
  const wrong = useResults((r) => r.refusals.length > 0 || r.fault !== null);
  const project = useProject((s) => s.project);
  const shells = useSession((s) => s.lot);
  const kit = useMemo(() => (ofOne && of ? kitForLot(of, ofOne, shells) : null), [ofOne, of, shells]);
  return { kit, state: of === project ? "ready" : wrong ? "wrong" : "computing" };
}
