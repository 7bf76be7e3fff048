import { buildOutline } from "../../../../core/plan/build-outline.ts";
import type { Outline } from "../../../../core/plan/chain.ts";
import { nearest } from "../../../../core/plan/nearest.ts";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { type Block, type Misfit, placeBlocks } from "../../../../core/shell/blocks.ts";
import { type FloorShape, shapeFloor } from "../../../../core/shell/floor-profile.ts";
import { radiiOf } from "../../../../core/shell/radii.ts";
import type { Spot } from "./handle.ts";

/** What the sheets draw of a shell: its outline, its floor and the blocks of its features, as core makes them. */
export interface Drawn {
  readonly outline: Outline;
  /** Plan point = point of the outline's figures + `moved`. */
  readonly moved: Spot;
  readonly flange: number;
  /** Where the long section is cut, mm across (0: the centre line), and where it meets the rim at both ends, mm along. */
  readonly cut: { readonly y: number; readonly from: number; readonly to: number };
  /** Null where the floor cannot be made. */
  readonly floor: FloorShape | null;
  /** From the top down; without those that find no room, of which `misfits` tells. */
  readonly blocks: readonly Block[];
  readonly misfits: readonly Misfit[];
}

const known = new WeakMap<ShellSpec, Drawn | null>();

/** Draws a shell for the sheets; null where its outline cannot be built. Remembered: two sheets show it. */
export function drawShell(shell: ShellSpec): Drawn | null {
  let drawn = known.get(shell);
  if (drawn === undefined) {
    drawn = draw(shell);
    known.set(shell, drawn);
  }
  return drawn;
}

function draw(shell: ShellSpec): Drawn | null {
  const built = buildOutline(shell.outline);
  if (!built.ok) return null;
  const { outline, moved } = built;
  const shaped = shapeFloor(shell, outline);
  const floor = Array.isArray(shaped) ? null : (shaped as FloorShape);
  const deepest = floor?.deepest ?? Math.max(...shell.floor.stations.map(({ depth }) => depth));
  const draft = (shell.draftDeg * Math.PI) / 180;
  const here = { outline, radii: radiiOf(shell), draft, deepest };
  const { blocks, misfits } = placeBlocks(shell.features, here);
  return {
    outline,
    moved,
    flange: shell.coping.flange,
    cut: cutOf(outline),
    floor,
    blocks: [...blocks].sort((a, b) => a.depth - b.depth),
    misfits,
  };
}

/** Lines along the pool that the section may be cut on, in parts of the width: the centre line if the pool is as long there as anywhere. */
const LINES = [0, -0.15, 0.15, -0.3, 0.3];
/** A line is as good as the longest with this part of its length. */
const ALMOST = 0.97;
/** Ends of a line are looked for in steps of so many mm, and then so near that the section's length is written as the rim's is, mm. */
const STEP = 20;
const NEAR = 1e-6;

function cutOf({ chain, extent }: Outline): Drawn["cut"] {
  const inside = (x: number, y: number) => nearest(chain, x, y).distance < 0;
  const endOf = (y: number, start: number, way: 1 | -1): number => {
    let x = start;
    while (!inside(x, y) && x >= 0 && x <= extent.length) x += way * STEP;
    let [out, within] = [x - way * STEP, x];
    while (Math.abs(within - out) > NEAR) {
      const middle = (out + within) / 2;
      if (inside(middle, y)) within = middle;
      else out = middle;
    }
    return within;
  };
  const lines = LINES.map((part) => {
    const y = part * extent.width;
    return { y, from: endOf(y, 0, 1), to: endOf(y, extent.length, -1) };
  });
  const longest = Math.max(...lines.map(({ from, to }) => to - from));
  return lines.find(({ from, to }) => to - from > ALMOST * longest) ?? lines[0];
}
