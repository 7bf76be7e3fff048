import type { Bounds, EdgeCut, Field } from "../surface/field.ts";
import type { Node } from "./node.ts";
import * as nodes from "./node.ts";
import type { Face } from "./shell.ts";

// Bound here because some loaders turn an imported name into a getter, which doubles the time of every evaluation.
const { shareStack, stack, watched } = nodes;

let passes = 0;
/** The field of which all blends were watched last, about the watched point. */
let scouted: ShellField | null = null;

/** A field over a tree of nodes. */
export function fieldOf(
  root: Node,
  faces: readonly Face[],
  bounds: Bounds,
  edge: EdgeCut | null,
  thinnest: number,
): Field {
  const groups = groupsOf(faces);
  return new ShellField(root, {
    faces: faces.map((f) => f.id),
    bounds,
    edge,
    thinnest,
    gradient: new Float64Array(3),
    shares: shareStack.subarray(0, faces.length),
    shared: new Float64Array(7),
    sharedBy: null,
    owner: (shares) => ownerOf(shares, groups),
  });
}

/** What a field and all its reductions have in common. */
interface Common {
  readonly faces: readonly string[];
  readonly bounds: Bounds;
  readonly edge: EdgeCut | null;
  readonly thinnest: number;
  readonly gradient: Float64Array;
  /** Where the root's shares are left. */
  readonly shares: Float64Array;
  readonly owner: (shares: Float64Array) => number;
  /** Where one of them was last asked for shares, and the value and the gradient there, which come with them. */
  readonly shared: Float64Array;
  sharedBy: ShellField | null;
}

class ShellField implements Field {
  readonly distance = true;
  readonly gradient: Float64Array;
  private readonly node: Node;
  private readonly common: Common;

  constructor(node: Node, common: Common) {
    this.node = node;
    this.common = common;
    this.gradient = common.gradient;
  }
  get faces(): readonly string[] {
    return this.common.faces;
  }
  get bounds(): Bounds {
    return this.common.bounds;
  }
  get edge(): EdgeCut | null {
    return this.common.edge;
  }
  get thinnest(): number {
    return this.common.thinnest;
  }
  get sole(): number | undefined {
    return this.node.face;
  }
  get meeting(): number {
    return this.node.meeting ?? 1;
  }
  get flat(): boolean {
    return this.node.flat;
  }
  owner(shares: Float64Array): number {
    return this.common.owner(shares);
  }
  evaluate(x: number, y: number, z: number): number {
    const { gradient, common } = this;
    const { shared } = common;
    if (common.sharedBy === this && shared[0] === x && shared[1] === y && shared[2] === z) {
      gradient[0] = shared[4];
      gradient[1] = shared[5];
      gradient[2] = shared[6];
      return shared[3];
    }
    this.node.evaluate(x, y, z, 0);
    gradient[0] = stack[1];
    gradient[1] = stack[2];
    gradient[2] = stack[3];
    return stack[0];
  }
  shares(x: number, y: number, z: number): Float64Array {
    this.node.shares(x, y, z, 0);
    const { shared } = this.common;
    this.common.sharedBy = this;
    shared[0] = x;
    shared[1] = y;
    shared[2] = z;
    for (let i = 0; i < 4; i++) shared[3 + i] = stack[i];
    return this.common.shares;
  }
  scout(x: number, y: number, z: number): number {
    watched.x = x;
    watched.y = y;
    watched.z = z;
    watched.pass = ++passes;
    this.node.evaluate(x, y, z, 0);
    watched.pass = 0;
    scouted = this;
    return stack[0];
  }
  within(x: number, y: number, z: number, radius: number, band = radius / 2): Field {
    if (scouted !== this || watched.x !== x || watched.y !== y || watched.z !== z) this.scout(x, y, z);
    const reduced = this.node.within({ x, y, z, ball: radius, band, pass: passes });
    return reduced === this.node ? this : new ShellField(reduced, this.common);
  }
}

interface Groups {
  readonly wall: number;
  /** Faces that stand or fall together before the finer choice, one or two: the floor, each block, the coping. */
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
function ownerOf(shares: Float64Array, { wall, rest }: Groups): number {
  if (shares[wall] >= 0.5) return wall;
  let best = -1;
  let most = -1;
  for (let g = 0; g < rest.length; g++) {
    const group = rest[g];
    const first = shares[group[0]];
    const second = group.length === 1 ? 0 : shares[group[1]];
    if (first + second <= most) continue;
    most = first + second;
    best = group.length === 1 || first >= second ? group[0] : group[1];
  }
  return best;
}
