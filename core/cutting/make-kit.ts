import type { Astray } from "../layup/adrift.ts";
import type { LaidZone, Layup } from "../layup/laid.ts";
import { layupOf, layZone, transitionsOf } from "../layup/lay-up.ts";
import { openSite, type Site } from "../layup/site.ts";
import { checkSurface } from "../mesh/check.ts";
import type { SurfaceMesh } from "../mesh/mesh.ts";
import { meshSurface } from "../mesh/mesh-surface.ts";
import type { Project, ZoneSpec } from "../project/schema.ts";
import { buildShell } from "../shell/build-shell.ts";
import { flawsOf } from "../shell/flaws.ts";
import type { Refusal, Shell } from "../shell/shell.ts";
import { cutKit } from "./cut-kit.ts";
import type { Kit } from "./kit.ts";

/** A project's shell, ready for its zones to be laid. */
export interface Ground {
  readonly project: Project;
  readonly shell: Shell;
  /** A preview: where its faces meet was found on it. */
  readonly mesh: SurfaceMesh;
  readonly site: Site;
  /** A zone of the project where it lies, or why it finds no place; remembered. */
  readonly zoneOf: (spec: ZoneSpec) => LaidZone | Astray;
}

/** The same with its reinforcement laid up, ready to be cut for. */
export interface Laid extends Ground {
  readonly layup: Layup;
}

export interface Refused {
  readonly ok: false;
  readonly refusals: readonly Refusal[];
}

export type MadeKit =
  | (Laid & {
      readonly ok: true;
      readonly kit: Kit;
      /** What `selfCheck` finds. */
      readonly flaws: readonly string[];
    })
  | Refused;

/**
 * The main job up to the laying up: builds a project's shell and finds where its faces meet. `onStage` hears the name of each stage as it begins.
 * A shell that cannot be built is refused with every reason.
 */
export function openGround(
  project: Project,
  onStage: (stage: string) => void = () => {},
): (Ground & { readonly ok: true }) | Refused {
  onStage("building the shell");
  const built = buildShell(project.shell, project.shop.laidThickness);
  if (!built.ok) return built;
  const { shell } = built;
  onStage("finding where its faces meet");
  const mesh = meshSurface(shell.field, { quality: "preview" });
  const site = openSite(project, shell, transitionsOf(project, shell, mesh));
  const placed = new Map<ZoneSpec, LaidZone | Astray>();
  const zoneOf = (spec: ZoneSpec) => {
    const known = placed.get(spec) ?? layZone(site, spec);
    placed.set(spec, known);
    return known;
  };
  return { ok: true, project, shell, mesh, site, zoneOf };
}

/** Who hears what is being worked on just now, a zone by its name, and that it goes on: again and again where one takes long. */
export type OnPart = (part: string) => void;

/** Lays up what a project lays on its shell; a zone that finds no place is adrift in the lay-up. */
export function layGround(ground: Ground, onPart: OnPart = () => {}): Laid {
  const zoneOf = (spec: ZoneSpec) => {
    onPart(`laying up ${spec.id}`);
    return ground.zoneOf(spec);
  };
  return { ...ground, layup: layupOf(ground.project.layup, zoneOf) };
}

/** The main job up to the cutting: `openGround` and `layGround`. */
export function layProject(
  project: Project,
  onStage: (stage: string) => void = () => {},
  onPart?: OnPart,
): (Laid & { readonly ok: true }) | Refused {
  const ground = openGround(project, onStage);
  if (!ground.ok) return ground;
  onStage("laying up");
  return { ok: true, ...layGround(ground, onPart) };
}

/**
 * What the self-check finds wrong with a shell's surface, in words with figures: what is cut for it fits nothing. It is made on the mesh that
 * found the faces, a preview: a flaw of a few mm between its points is seen by the full mesh of `measureShell` only.
 */
export function selfCheck({ shell, mesh }: Pick<Ground, "shell" | "mesh">): readonly string[] {
  return flawsOf(checkSurface(shell.field, mesh));
}

/** The main job from end to end: `layProject`, the kit for `shells` shells (a whole number, 1 or more), and `selfCheck`. */
export function makeKit(
  project: Project,
  shells: number,
  onStage: (stage: string) => void = () => {},
  onPart?: OnPart,
): MadeKit {
  const laid = layProject(project, onStage, onPart);
  if (!laid.ok) return laid;
  onStage("cutting");
  const kit = cutKit(project, laid.layup, shells, onPart);
  onStage("checking the surface");
  return { ...laid, kit, flaws: selfCheck(laid) };
}
