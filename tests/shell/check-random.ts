import { checkMesh, checkSurface } from "../../core/mesh/check.ts";
import type { SurfaceMesh } from "../../core/mesh/mesh.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { spaceOf } from "../../core/mesh/space.ts";
import type { ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Shell } from "../../core/shell/shell.ts";
import type { Field } from "../../core/surface/field.ts";
import { randomShell } from "./random-shell.ts";

export interface RandomVerdict {
  readonly seed: number;
  /** Why it was refused, or null when it was built. */
  readonly refused: string | null;
  /** What is wrong with it, in words; empty when all is well. */
  readonly faults: readonly string[];
}

/** All that is wrong with a shell's mesh and the surface under it, in words; empty when all is well. */
export function faultsOf({ field }: Shell): string[] {
  const mesh = meshSurface(field, { quality: "preview", chordMm: 4 });
  const check = checkSurface(field, mesh);
  const faults: string[] = [];
  const at = (flaw: { point: readonly number[]; faces: readonly string[]; size: number }) =>
    `at ${flaw.point.map((x) => x.toFixed(1)).join(", ")} (${flaw.faces.join(", ")}): ${flaw.size.toPrecision(3)}`;
  if (check.tears.length > 0) faults.push(`${check.tears.length} tears, mm, ${at(check.tears[0])}`);
  if (check.kinks.length > 0) faults.push(`${check.kinks.length} kinks, rad, ${at(check.kinks[0])}`);
  if (check.holeEdges > 0) faults.push(`${check.holeEdges} edges of holes`);
  if (check.tangledEdges > 0) faults.push(`${check.tangledEdges} tangled edges`);
  const off = farthestOff(field, mesh);
  if (off > ON_SURFACE) faults.push(`a vertex ${off.toPrecision(3)} mm off the surface`);
  if (check.openEdges === 0) faults.push("no rim: nothing was meshed");
  return faults;
}

/** As `meshSurface` promises of every vertex, mm. */
const ON_SURFACE = 1e-6;

function farthestOff(field: Field, { positions: p }: SurfaceMesh): number {
  const space = spaceOf(field);
  let most = 0;
  for (let i = 0; i < p.length; i += 3)
    most = Math.max(
      most,
      Math.abs(space.fieldAt(p[i], p[i + 1], p[i + 2]).evaluate(p[i], p[i + 1], p[i + 2])),
    );
  return most;
}

/** Builds, meshes and checks one shell: the same for a test of a few and a campaign of many. */
function checkShell(seed: number, spec: ShellSpec): RandomVerdict {
  try {
    const built = buildShell(spec);
    if (built.ok) return { seed, refused: null, faults: faultsOf(built.shell) };
    const silent = built.refusals.filter((r) => !r.path || !r.why || !/\d/.test(r.why + r.wouldWork));
    return {
      seed,
      refused: built.refusals.map((r) => `${r.path}: ${r.why}`).join("; "),
      faults: silent.map((r) => `refused without a reason or a figure: ${JSON.stringify(r)}`),
    };
  } catch (error) {
    return {
      seed,
      refused: null,
      faults: [`threw: ${error instanceof Error ? error.stack : String(error)}`],
    };
  }
}

/** All that is wrong with a number of random shells, and how many were refused. */
export function checkRandomShells(
  seeds: readonly number[],
  shellOf: (seed: number) => ShellSpec = randomShell,
): { faults: string[]; refused: string[] } {
  const verdicts = seeds.map((seed) => checkShell(seed, shellOf(seed)));
  return {
    faults: verdicts.flatMap((v) => v.faults.map((f) => `seed ${v.seed}: ${f}`)),
    refused: verdicts.flatMap((v) => (v.refused === null ? [] : [`seed ${v.seed}: ${v.refused}`])),
  };
}

/** As asked of a full mesh: no angle under this, degrees, and no gap between chord and surface over this, mm. */
const LEAST_ANGLE = 15;
const MOST_GAP = 1.5;

/** What is wrong with the triangles of full meshes of random shells, in words. */
export function poorFullMeshes(seeds: readonly number[]): string[] {
  return seeds.flatMap((seed) => {
    const built = buildShell(randomShell(seed));
    if (!built.ok) return [];
    const { field } = built.shell;
    const { smallestAngle, chordGapMm } = checkMesh(field, meshSurface(field, { quality: "full" }));
    const angle = (smallestAngle * 180) / Math.PI;
    return angle >= LEAST_ANGLE && chordGapMm <= MOST_GAP
      ? []
      : [`seed ${seed}: least angle ${angle.toFixed(1)}°, gap ${chordGapMm.toFixed(2)} mm`];
  });
}
