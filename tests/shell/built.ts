import type { ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Refusal, Shell } from "../../core/shell/shell.ts";

/** A plain basin of 6 × 3.2 m, 1.2 m deep. */
export const basin: ShellSpec = {
  outline: { kind: "rectangle", length: 6000, width: 3200, cornerRadius: 400 },
  floor: { stations: [{ at: 0, depth: 1200 }], breakRadius: 800, crossFall: 0 },
  draftDeg: 3,
  radii: { cove: 150, step: 60, nose: 30, pairs: [] },
  features: [],
  coping: { flange: 150, rimRadius: 20, edge: { kind: "rolled", radius: 25 } },
  fittings: [],
  waterLine: 120,
};

/** A shell that can be built; throws with the refusals of one that cannot. */
export function built(spec: ShellSpec, laid?: number): Shell {
  const result = buildShell(spec, laid);
  if (!result.ok) throw new Error(JSON.stringify(result.refusals));
  return result.shell;
}

/** Why a shell is refused; throws when it is built. */
export function refusals(spec: ShellSpec): readonly Refusal[] {
  const result = buildShell(spec);
  if (result.ok) throw new Error("was built");
  return result.refusals;
}
