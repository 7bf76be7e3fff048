import { measureSurface, volumeBelow } from "../mesh/measure.ts";
import type { MeshOptions, SurfaceMesh } from "../mesh/mesh.ts";
import { meshSurface } from "../mesh/mesh-surface.ts";
import { nearest } from "../plan/nearest.ts";
import type { Adjustment, Face, Shell } from "./shell.ts";
import { findTransitions, type Transition } from "./transitions.ts";

/** What a shell measures on its gel-coat surface. */
export interface Measure {
  /** Whole surface, coping included, mm². */
  readonly areaMm2: number;
  /** Water that the shell holds up to the rim, and up to the water line, mm³. */
  readonly volumeToRimMm3: number;
  readonly volumeToWaterMm3: number;
  /** Length of the outline at the rim, mm. */
  readonly rimLengthMm: number;
  /** In the shell's order; a face that lies hidden has no area. */
  readonly faces: readonly MeasuredFace[];
  readonly transitions: readonly Transition[];
  readonly adjustments: readonly Adjustment[];
  readonly mesh: MeshFigures;
  /** Whether the surface passed its self-check: no hole but the outer edge of the coping. */
  readonly sound: boolean;
  /** Things to look at, in words with figures. */
  readonly doubts: readonly string[];
}

export interface MeasuredFace extends Face {
  readonly areaMm2: number;
}

export interface MeshFigures {
  readonly triangles: number;
  /** Edges with a triangle on one side only. */
  readonly openEdges: number;
  /** Open edges that do not lie on the outer edge of the coping: holes. */
  readonly holeEdges: number;
}

/** Vertices of the outer edge lie on it within this, mm. */
const ON_EDGE = 0.01;

/** Measures a shell: areas and volumes on a mesh of the quality asked for, the transitions exactly. */
export function measureShell(shell: Shell, quality: MeshOptions["quality"] = "full"): Measure {
  const { field, outline, spec } = shell;
  const mesh = meshSurface(field, { quality });
  const { areaMm2, areaByFace } = measureSurface(field, mesh);
  // The lip of the coping dips below the rim too, but holds no water.
  const inside = (x: number, y: number) => nearest(outline.chain, x, y).distance - spec.coping.flange / 2;
  const { transitions, slivers } = findTransitions(shell, mesh);
  const figures = meshFigures(shell, mesh);
  return {
    areaMm2,
    volumeToRimMm3: volumeBelow(mesh, 0, inside),
    volumeToWaterMm3: volumeBelow(mesh, -spec.waterLine, inside),
    rimLengthMm: outline.chain.length,
    faces: shell.faces.map((face, i) => ({ ...face, areaMm2: areaByFace[i] })),
    transitions,
    adjustments: shell.adjustments,
    mesh: figures,
    sound: figures.holeEdges === 0,
    doubts: [
      ...(figures.holeEdges > 0
        ? [
            `the surface has holes: ${figures.holeEdges} edges of its mesh are open inside the coping's outer edge`,
          ]
        : []),
      ...inexact(transitions),
      ...slivers.map(
        ({ between, lengthMm, near }) =>
          `${between.join(" and ")} meet along ${lengthMm.toFixed(1)} mm only, near (${near.map(Math.round).join(", ")}): ` +
          "too short for a transition",
      ),
    ],
  };
}

/** A sentence for each reason why lines could not be traced exactly, with all of those lines. */
function inexact(transitions: readonly Transition[]): string[] {
  const byReason = new Map<string, string[]>();
  for (const { id, exact, reason } of transitions) {
    if (!exact) byReason.set(reason, [...(byReason.get(reason) ?? []), id]);
  }
  return [...byReason].map(([reason, ids]) => `only as exact as the mesh, for ${reason}: ${ids.join(", ")}`);
}

function meshFigures({ field }: Shell, { triangles, positions }: SurfaceMesh): MeshFigures {
  const vertices = positions.length / 3;
  const open = new Map<number, number>();
  for (let h = 0; h < triangles.length; h++) {
    const from = triangles[h];
    const to = triangles[h % 3 === 2 ? h - 2 : h + 1];
    const twin = to * vertices + from;
    if (!open.delete(twin)) open.set(from * vertices + to, h);
  }
  const onEdge = (vertex: number) => {
    const [x, y, z] = positions.subarray(3 * vertex, 3 * vertex + 3);
    return field.edge !== null && Math.abs(field.edge.evaluate(x, y, z)) < ON_EDGE;
  };
  let holeEdges = 0;
  for (const key of open.keys()) {
    if (!onEdge(Math.floor(key / vertices)) || !onEdge(key % vertices)) holeEdges++;
  }
  return { triangles: triangles.length / 3, openEdges: open.size, holeEdges };
}
