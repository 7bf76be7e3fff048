import type { SurfaceMesh } from "./mesh.ts";
import { pairEdges } from "./pair-edges.ts";

/** A closed mesh, triangles counter-clockwise seen from outside. */
export interface Solid {
  /** x, y, z of each vertex, mm. */
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
}

/** How far below the lowest point the lid lies, mm. */
const BELOW = 100;

/**
 * Closes a mesh to a solid. A shell's mesh becomes the block of ground that it stands in (the plug with the shell on it,
 * upside down): from every open boundary a plumb outer wall goes down to a level lid 100 mm below the lowest point. A
 * mesh without a boundary is the body of air that it encloses.
 */
export function lidded(mesh: SurfaceMesh): Solid {
  const { positions, triangles } = mesh;
  const vertices = positions.length / 3;
  const twin = pairEdges(triangles, vertices);
  const next = (h: number): number => (h % 3 === 2 ? h - 2 : h + 1);
  const open: number[] = [];
  for (let h = 0; h < twin.length; h++) if (twin[h] < 0) open.push(h);
  if (open.length === 0) return { positions, triangles };

  let lowest = Infinity;
  for (let i = 2; i < positions.length; i += 3) lowest = Math.min(lowest, positions[i]);
  const lid = lowest - BELOW;
  const points = Array.from(positions);
  const addPoint = (x: number, y: number): number => points.push(x, y, lid) / 3 - 1;
  // The ground lies behind the surface: its triangles are turned round.
  const solid: number[] = [];
  for (let t = 0; t < triangles.length; t += 3) solid.push(triangles[t], triangles[t + 2], triangles[t + 1]);

  for (const loop of boundaryLoops(open, twin, next)) {
    const rim = loop.map((h) => triangles[h]);
    const feet = rim.map((v) => addPoint(positions[3 * v], positions[3 * v + 1]));
    let x = 0;
    let y = 0;
    for (const v of rim) {
      x += positions[3 * v] / rim.length;
      y += positions[3 * v + 1] / rim.length;
    }
    const centre = addPoint(x, y);
    for (let i = 0; i < rim.length; i++) {
      const j = (i + 1) % rim.length;
      solid.push(rim[i], rim[j], feet[j], rim[i], feet[j], feet[i], feet[i], feet[j], centre);
    }
  }
  return { positions: Float64Array.from(points), triangles: Uint32Array.from(solid) };
}

/** Open half-edges in the order in which they run round each hole. */
function boundaryLoops(
  open: readonly number[],
  twin: Int32Array,
  next: (h: number) => number,
): readonly (readonly number[])[] {
  const loops: number[][] = [];
  const met = new Set<number>();
  for (const first of open) {
    if (met.has(first)) continue;
    const loop: number[] = [];
    let h = first;
    do {
      loop.push(h);
      met.add(h);
      // Round the end of this edge to the next open one.
      h = next(h);
      while (twin[h] >= 0) h = next(twin[h]);
    } while (h !== first);
    loops.push(loop);
  }
  return loops;
}
