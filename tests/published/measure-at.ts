import { measureSurface, volumeBelow } from "../../core/mesh/measure.ts";
import type { MeshOptions, SurfaceMesh } from "../../core/mesh/mesh.ts";
import { meshSurface } from "../../core/mesh/mesh-surface.ts";
import { nearest } from "../../core/plan/nearest.ts";
import type { Shell } from "../../core/shell/shell.ts";
import { offsetField } from "../../core/surface/field.ts";

export interface MeasuredAt {
  readonly mesh: SurfaceMesh;
  readonly areaMm2: number;
  /** Up to the coping's top, which an offset lowers. */
  readonly volumeMm3: number;
}

/** Area and volume of a shell's surface moved out by `offset` mm, on a mesh of any fineness. */
export function measureAt(shell: Shell, offset: number, options: MeshOptions): MeasuredAt {
  const field = offsetField(shell.field, offset);
  const mesh = meshSurface(field, options);
  const { areaMm2 } = measureSurface(field, mesh);
  // The coping's outer edge dips below its top as well: water is what lies within the middle of the flange.
  const within = shell.spec.coping.flange / 2;
  const inside = (x: number, y: number) => nearest(shell.outline.chain, x, y).distance - within;
  return { mesh, areaMm2, volumeMm3: volumeBelow(mesh, -offset, inside) };
}
