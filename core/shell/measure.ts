import { checkMesh, type MeshCheck } from "../mesh/check.ts";
import { measureSurface, volumeBelow } from "../mesh/measure.ts";
import type { MeshOptions, SurfaceMesh } from "../mesh/mesh.ts";
import { meshSurface } from "../mesh/mesh-surface.ts";
import { nearest } from "../plan/nearest.ts";
import { flawsOf, placed } from "./flaws.ts";
import type { Adjustment, Face, Shell } from "./shell.ts";
import { findTransitions, type Transition } from "./transitions.ts";

/** What a shell measures on its gel-coat surface. */
export interface Measure {
  /** Whole surface, coping included, mm². */
  readonly areaMm2: number;
  /** Water that the shell holds up to the rim, and up to the water line, mm³. */
  readonly volumeToRimMm3: number;
  readonly volumeToWaterMm3: number;
  /** Length of the outline as drawn, mm: the transition `rim` runs further out, halfway round the radius to the coping. */
  readonly rimLengthMm: number;
  /** In the shell's order; a face that lies hidden has no area. */
  readonly faces: readonly MeasuredFace[];
  readonly transitions: readonly Transition[];
  readonly adjustments: readonly Adjustment[];
  readonly mesh: MeshCheck;
  /** What the self-check found, in words with figures: none where the surface is closed but for the coping's outer edge, without tear or kink. */
  readonly flaws: readonly string[];
  /** Other things to look at, likewise. */
  readonly doubts: readonly string[];
}

export interface MeasuredFace extends Face {
  readonly areaMm2: number;
}

/** Faces that meet along less than this meet in a point, mm. */
const LEAST_SLIVER = 1;

/**
 * Measures a shell: areas and volumes on a mesh of the quality asked for, the transitions exactly; and checks the surface.
 * `onStage` hears the name of each stage as it begins.
 */
export function measureShell(
  shell: Shell,
  quality: MeshOptions["quality"] = "full",
  onStage: (stage: string) => void = () => {},
): Measure {
  onStage("measuring its faces");
  return measureMesh(shell, meshSurface(shell.field, { quality }), onStage);
}

/** Measures a shell on a mesh of it that is there already. */
export function measureMesh(
  shell: Shell,
  mesh: SurfaceMesh,
  onStage: (stage: string) => void = () => {},
): Measure {
  const { field, outline, spec } = shell;
  const { areaMm2, areaByFace } = measureSurface(field, mesh);
  // The lip of the coping dips below the rim too, but holds no water.
  const inside = (x: number, y: number) => nearest(outline.chain, x, y).distance - spec.coping.flange / 2;
  onStage("tracing its transitions");
  const { transitions, slivers } = findTransitions(shell, mesh);
  onStage("checking the surface");
  const check = checkMesh(field, mesh);
  return {
    areaMm2,
    volumeToRimMm3: volumeBelow(mesh, 0, inside),
    volumeToWaterMm3: volumeBelow(mesh, -spec.waterLine, inside),
    rimLengthMm: outline.chain.length,
    faces: shell.faces.map((face, i) => ({ ...face, areaMm2: areaByFace[i] })),
    transitions,
    adjustments: shell.adjustments,
    mesh: check,
    flaws: flawsOf(check),
    doubts: [
      ...inexact(transitions),
      ...unmet(spec.radii.pairs, [...transitions, ...slivers]),
      ...slivers
        .filter(({ lengthMm }) => lengthMm > LEAST_SLIVER)
        .map(
          ({ between, lengthMm, near }) =>
            `${between.join(" and ")} meet along ${lengthMm.toFixed(1)} mm only, near ${placed(near)}: too short for a transition`,
        ),
    ],
  };
}

/** Radii given for faces that meet nowhere. Every shell's wall meets its floor and its coping, whatever their lines are called. */
function unmet(
  pairs: Shell["spec"]["radii"]["pairs"],
  meetings: readonly Pick<Transition, "between">[],
): string[] {
  const key = (a: string, b: string) => [a, b].sort().join("|");
  const met = new Set([
    key("wall", "floor"),
    key("wall", "coping/top"),
    ...meetings.map(({ between: [a, b] }) => key(a, b)),
  ]);
  return pairs
    .filter(({ between: [a, b] }) => !met.has(key(a, b)))
    .map(
      ({ between: [a, b], radius }) =>
        `${a} and ${b} meet nowhere on this shell: the radius of ${radius} mm given for them has no place`,
    );
}

/** A sentence for each reason why lines could not be traced exactly, with all of those lines. */
function inexact(transitions: readonly Transition[]): string[] {
  const byReason = new Map<string, string[]>();
  for (const { id, exact, reason } of transitions) {
    if (!exact) byReason.set(reason, [...(byReason.get(reason) ?? []), id]);
  }
  return [...byReason].map(([reason, ids]) => `only as exact as the mesh, for ${reason}: ${ids.join(", ")}`);
}
