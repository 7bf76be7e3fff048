import type { SurfaceCheck } from "../mesh/check.ts";

/** Most flaws of one kind that are told one by one. */
const MOST_TOLD = 5;

/** A point in space as it is told, to the mm. */
export const placed = (point: readonly [number, number, number]) => `(${point.map(Math.round).join(", ")})`;

/** What the self-check found wrong, in words with figures; empty for a surface that is closed, whole and smooth. */
export function flawsOf({ holeEdges, tangledEdges, tears, kinks }: SurfaceCheck): string[] {
  const told: string[] = [];
  if (holeEdges > 0) {
    told.push(
      `the surface has holes: ${holeEdges} edges of its mesh are open inside the coping's outer edge`,
    );
  }
  if (tangledEdges > 0)
    told.push(`the mesh is tangled at ${tangledEdges} edges, which have more than two triangles`);
  const each = (flaws: SurfaceCheck["tears"], words: (flaw: SurfaceCheck["tears"][number]) => string) => {
    const worst = flaws.toSorted((a, b) => b.size - a.size);
    told.push(...worst.slice(0, MOST_TOLD).map(words));
    if (worst.length > MOST_TOLD) told.push(`and ${worst.length - MOST_TOLD} more like this`);
  };
  const at = ({ faces, point }: SurfaceCheck["tears"][number]) =>
    `between ${faces.join(" and ")} at ${placed(point)}`;
  each(tears, (flaw) => `the surface is torn by ${flaw.size.toFixed(2)} mm ${at(flaw)}`);
  each(kinks, (flaw) => `the surface has a kink of ${((flaw.size * 180) / Math.PI).toFixed(1)}° ${at(flaw)}`);
  return told;
}
