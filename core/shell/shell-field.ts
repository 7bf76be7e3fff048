import type { Bounds, EdgeCut, Field } from "../surface/field.ts";
import type { Node } from "./node.ts";
import * as nodes from "./node.ts";
import type { Face } from "./shell.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { shareStack, stack } = nodes;

let passes = 0;

/** A field over a tree of nodes. */
export function fieldOf(
  root: Node,
  faces: readonly Face[],
  bounds: Bounds,
  edge: EdgeCut | null,
  thinnest: number,
): Field {
  const ids = faces.map((f) => f.id);
  const groups = groupsOf(faces);
  const owner = (shares: Float64Array): number => ownerOf(shares, groups);
  const over = (node: Node): Field => {
    const gradient = new Float64Array(3);
    return {
      gradient,
      faces: ids,
      bounds,
      edge,
      thinnest,
      owner,
      evaluate(x, y, z) {
        node.evaluate(x, y, z, 0);
        gradient[0] = stack[1];
        gradient[1] = stack[2];
        gradient[2] = stack[3];
        return stack[0];
      },
      shares(x, y, z) {
        node.shares(x, y, z, 0);
        return shareStack.subarray(0, ids.length);
      },
      within(x, y, z, radius, band = radius / 2) {
        const reduced = node.within({ x, y, z, ball: radius, band, pass: ++passes });
        return reduced === node ? this : over(reduced);
      },
    };
  };
  return over(root);
}

interface Groups {
  readonly wall: number;
  /** Faces that stand or fall together before the finer choice: the floor, each block, the coping. */
  readonly rest: readonly (readonly number[])[];
}

function groupsOf(faces: readonly Face[]): Groups {
  const rest: number[][] = [];
  faces.forEach((face, i) => {
    if (face.kind === "wall") return;
    const before = faces[i - 1];
    const together =
      (face.kind === "riser" && before?.kind === "tread") ||
      (face.kind === "lip" && before?.kind === "coping");
    if (together) rest[rest.length - 1].push(i);
    else rest.push([i]);
  });
  return { wall: faces.findIndex((f) => f.kind === "wall"), rest };
}

/**
 * The wall is told from the rest first, so that the line at its foot runs smoothly past every step; then the floor and
 * the blocks compete as wholes, and last a block's tread with its riser.
 */
function ownerOf(shares: Float64Array, groups: Groups): number {
  if (shares[groups.wall] >= 0.5) return groups.wall;
  let best = -1;
  let most = -1;
  for (const group of groups.rest) {
    let sum = 0;
    for (const i of group) sum += shares[i];
    if (sum <= most) continue;
    most = sum;
    best = group.length === 1 || shares[group[0]] >= shares[group[1]] ? group[0] : group[1];
  }
  return best;
}
