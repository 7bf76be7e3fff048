import type { Chain, Segment } from "../../../../core/plan/chain.ts";
import { makeChain } from "../../../../core/plan/make-chain.ts";
import { nearest } from "../../../../core/plan/nearest.ts";
import { line, moveSegment, segmentEnd, segmentStart } from "../../../../core/plan/segments.ts";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import type { Block } from "../../../../core/shell/blocks.ts";
import type { FloorShape } from "../../../../core/shell/floor-profile.ts";
import { roundJoints } from "../../../../core/shell/loop.ts";
import type { Drawn } from "./drawn-shell.ts";

/** A stretch of a tread's level in the section. */
export interface Level {
  readonly block: Block;
  readonly from: number;
  readonly to: number;
  /** Whether the line of the section runs through it; else it lies beside the line and is seen beyond. */
  readonly cut: boolean;
}

/** How far apart the floor of a hopper is looked at, and the treads, mm. */
const FLOOR_STEP = 25;
const TREAD_STEP = 50;
/** Rows beside the line of the section that are looked at for treads, as parts of the width. */
const ROWS = [0.46, 0.35, 0.2, -0.2, -0.35, -0.46];

/**
 * The inside of the shell along the line of the section, x along and y height over the rim: down the shallow wall, along the floor with
 * its rounded breaks, up the deep wall, with the cove between. Null where the cove finds no room at the ends.
 */
export function insideLine(shell: ShellSpec, drawn: Drawn, floor: FloorShape): Chain | null {
  const lean = Math.tan((shell.draftDeg * Math.PI) / 180);
  const { from, to } = drawn.cut;
  const deep = floor.deepest + 500;
  const down = line(from, 0, from + deep * lean, -deep);
  const up = line(to - deep * lean, -deep, to, 0);
  // The floor between the walls: what lies wholly beyond them would stand in the way of the cove.
  const within = floorLine(shell, drawn, floor).filter(
    (segment) =>
      segmentEnd(segment).x > from + floor.deepest * lean &&
      segmentStart(segment).x < to - floor.deepest * lean,
  );
  if (within.length === 0) return null;
  const last = within.length;
  return roundJoints([down, ...within, up], false, (joint) =>
    joint === 0 || joint === last ? shell.radii.cove : null,
  );
}

/** The floor on the line of the section: core's own profile, or, where the sides of a hopper cut into it, its depths one by one. */
function floorLine(shell: ShellSpec, drawn: Drawn, floor: FloorShape): readonly Segment[] {
  const { hopper } = shell.floor;
  const { y, from, to } = drawn.cut;
  const cap = hopper
    ? hopper.depthAtWall +
      (drawn.outline.extent.width / 2 - Math.abs(drawn.cut.y)) * Math.tan((hopper.slopeDeg * Math.PI) / 180)
    : Infinity;
  // With a fall across, the floor lies lower on the right; that it is also turned by it is less than a line's thickness.
  if (cap >= Math.max(...shell.floor.stations.map(({ depth }) => depth)))
    return floor.profile.segments.map((segment) => moveSegment(segment, 0, y * Math.sin(floor.fall)));
  const count = Math.ceil((to - from) / FLOOR_STEP);
  const at = (i: number) => from + ((to - from) * i) / count;
  return Array.from({ length: count }, (_, i) =>
    line(at(i), -floor.depthAt(at(i), y), at(i + 1), -floor.depthAt(at(i + 1), y)),
  );
}

/** The floor alone, open to the left of its run: what is above it. */
export const floorChain = (shell: ShellSpec, drawn: Drawn, floor: FloorShape): Chain =>
  makeChain(floorLine(shell, drawn, floor), false);

/** Where treads show in the section, from the deepest up: those that its line cuts, else those beside it. */
export function levelsOf({ outline, blocks, cut: cutLine }: Drawn): Level[] {
  const { length, width } = outline.extent;
  return [...blocks].reverse().flatMap((block): Level[] => {
    const inside = (x: number, y: number) =>
      Math.max(nearest(block.footprint, x, y).distance, nearest(outline.chain, x, y).distance);
    const cut = stretches((x) => inside(x, cutLine.y), length);
    if (cut.length > 0) return cut.map(([from, to]) => ({ block, from, to, cut: true }));
    const beside = ROWS.flatMap((row) => stretches((x) => inside(x, row * width), length));
    if (beside.length === 0) return [];
    const from = Math.min(...beside.map(([a]) => a));
    const to = Math.max(...beside.map(([, b]) => b));
    return [{ block, from, to, cut: false }];
  });
}

/** The stretches of 0 … length on which a distance is negative. */
function stretches(distance: (x: number) => number, length: number): [number, number][] {
  const found: [number, number][] = [];
  const count = Math.ceil(length / TREAD_STEP);
  let start: number | null = null;
  for (let i = 0; i <= count; i++) {
    const x = (length * i) / count;
    const d = distance(x);
    const earlier = x - length / count;
    if (d < 0 && start === null) start = i === 0 ? 0 : edge(distance, x, earlier);
    if (d >= 0 && start !== null) {
      found.push([start, edge(distance, earlier, x)]);
      start = null;
    }
  }
  if (start !== null) found.push([start, length]);
  return found;
}

/** The edge between a place inside and one outside, to a tenth of a millimetre. */
function edge(distance: (x: number) => number, inside: number, outside: number): number {
  let [a, b] = [inside, outside];
  while (Math.abs(a - b) > 0.1) {
    const middle = (a + b) / 2;
    if (distance(middle) < 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
