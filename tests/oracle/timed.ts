/** The stages of both kernels on one shell and how long they take, for the bench and for the check that ours are the faster. */
import { measureSurface } from "../../core/mesh/measure.ts";
import type { SurfaceMesh } from "../../core/mesh/mesh.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import type { ShellSpec } from "../../core/project/schema.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { builtAsAsked } from "../published/basins.ts";
import { type SolidShell, solidShell } from "./solid-shell.ts";

/** Greatest gap between a chord and the surface, mm: of our full mesh, and asked of the other kernel. */
const CHORD = 1.5;
/** Coarse enough never to matter beside the gap, rad. */
const ANGLE = 0.5;

/** Meshes a solid as finely as our full mesh is. */
export function meshOfSolid({ ground }: SolidShell): void {
  ground.mesh({ tolerance: CHORD, angularTolerance: ANGLE });
}

export interface TimedStage {
  readonly name: string;
  readonly run: () => void;
}

/**
 * What is timed, in order; each stage begins with what the last run of the one before left. Every run builds anew, so that
 * nothing is kept from the run before.
 */
export function stagesOf(spec: ShellSpec): {
  readonly ours: readonly TimedStage[];
  readonly solid: readonly TimedStage[];
} {
  let shell: Shell | undefined;
  let mesh: SurfaceMesh | undefined;
  let built: SolidShell | undefined;
  const now = <T>(value: T | undefined): T => {
    if (value === undefined) throw new Error("a stage was run before the one that it begins with");
    return value;
  };
  return {
    ours: [
      {
        name: "build",
        run: () => {
          shell = builtAsAsked(spec);
        },
      },
      {
        name: "full mesh",
        run: () => {
          // Meshing remembers a field's space: a fresh shell each time keeps that in the figure.
          shell = builtAsAsked(spec);
          mesh = meshSurface(shell.field, { quality: "full" });
        },
      },
      { name: "measure", run: () => void measureSurface(now(shell).field, now(mesh)) },
    ],
    solid: [
      {
        name: "build",
        run: () => {
          built = solidShell(spec);
        },
      },
      { name: "mesh", run: () => meshOfSolid(now(built)) },
    ],
  };
}

/** A result with the processor time that it took, ms: what else the machine does is left out. */
export function timed<T>(run: () => T): { readonly result: T; readonly ms: number } {
  const before = process.cpuUsage();
  const result = run();
  const { user, system } = process.cpuUsage(before);
  return { result, ms: (user + system) / 1000 };
}
