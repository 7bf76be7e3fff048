import type { Layup } from "../layup/laid.ts";
import { layUp } from "../layup/lay-up.ts";
import { checkSurface } from "../mesh/check.ts";
import { meshSurface } from "../mesh/mesh-surface.ts";
import type { Project } from "../project/schema.ts";
import { buildShell } from "../shell/build-shell.ts";
import { flawsOf } from "../shell/flaws.ts";
import type { Refusal, Shell } from "../shell/shell.ts";
import { cutKit } from "./cut-kit.ts";
import type { Kit } from "./kit.ts";

/** A project's shell with its reinforcement laid up, ready to be cut for. */
export interface Laid {
  readonly shell: Shell;
  readonly layup: Layup;
  /** What the self-check finds wrong with the shell's surface, in words with figures: what is cut for it fits nothing. */
  readonly flaws: readonly string[];
}

interface Refused {
  readonly ok: false;
  readonly refusals: readonly Refusal[];
}

export type MadeKit = (Laid & { readonly ok: true; readonly kit: Kit }) | Refused;

/**
 * The main job up to the cutting: builds a project's shell, checks its surface and lays it up. `onStage` hears the name of each stage as it
 * begins. A shell that cannot be built is refused with every reason; a zone that finds no place is adrift in the lay-up. The check is made on
 * the mesh that finds the faces, a preview: a flaw of a few mm between its points is seen by the full mesh of `measureShell` only.
 */
export function layProject(
  project: Project,
  onStage: (stage: string) => void = () => {},
): (Laid & { readonly ok: true }) | Refused {
  onStage("building the shell");
  const built = buildShell(project.shell, project.shop.laidThickness);
  if (!built.ok) return built;
  const { shell } = built;
  onStage("finding where its faces meet");
  const mesh = meshSurface(shell.field, { quality: "preview" });
  onStage("checking the surface");
  const flaws = flawsOf(checkSurface(shell.field, mesh));
  onStage("laying up");
  return { ok: true, shell, layup: layUp(project, shell, { mesh }), flaws };
}

/** The main job from end to end: what `layProject` does, and the kit for `shells` shells (a whole number, 1 or more). */
export function makeKit(
  project: Project,
  shells: number,
  onStage: (stage: string) => void = () => {},
): MadeKit {
  const laid = layProject(project, onStage);
  if (!laid.ok) return laid;
  onStage("cutting");
  return { ...laid, kit: cutKit(project, laid.layup, shells) };
}
