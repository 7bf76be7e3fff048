import { buildOutline } from "../../../../core/plan/build-outline.ts";
import type { Outline } from "../../../../core/plan/chain.ts";
import { nearest } from "../../../../core/plan/nearest.ts";
import { pointAt } from "../../../../core/plan/point-at.ts";
import type { ShellSpec } from "../../../../core/project/schema.ts";
import { type Block, buildBlocks } from "../../../../core/shell/blocks.ts";
import { type FloorShape, shapeFloor } from "../../../../core/shell/floor-profile.ts";
import { radiiOf } from "../../../../core/shell/radii.ts";
import type { Refusal } from "../../../../core/shell/shell.ts";
import type { Spot } from "./handle.ts";

/** What the sheets draw of a shell: its outline, its floor and the blocks of its features, as core makes them. */
export interface Drawn {
  readonly outline: Outline;
  /** Plan point = point of the outline's figures + `moved`. */
  readonly moved: Spot;
  readonly flange: number;
  /** Where the centre line of the pool meets the rim at both ends, mm along. */
  readonly centreLine: { readonly from: number; readonly to: number };
  /** Null where the floor cannot be made. */
  readonly floor: FloorShape | null;
  /** From the top down; without those that find no room, of which `refusals` tells. */
  readonly blocks: readonly Block[];
  readonly refusals: readonly Refusal[];
}

let last: { readonly shell: ShellSpec; readonly drawn: Drawn | null } | null = null;

/** Draws a shell for the sheets; null where its outline cannot be built. The last one is remembered: two sheets show it. */
export function drawShell(shell: ShellSpec): Drawn | null {
  if (last?.shell !== shell) last = { shell, drawn: draw(shell) };
  return last.drawn;
}

function draw(shell: ShellSpec): Drawn | null {
  const built = buildOutline(shell.outline);
  if (!built.ok) return null;
  const { outline, moved } = built;
  const shaped = shapeFloor(shell, outline);
  const floor = Array.isArray(shaped) ? null : (shaped as FloorShape);
  const deepest = floor?.deepest ?? Math.max(...shell.floor.stations.map(({ depth }) => depth));
  const draft = (shell.draftDeg * Math.PI) / 180;
  const { blocks, refusals } = buildBlocks(shell.features, outline, radiiOf(shell), draft, deepest);
  return {
    outline,
    moved,
    flange: shell.coping.flange,
    centreLine: centreLineOf(outline),
    floor,
    blocks: [...blocks].sort((a, b) => a.depth - b.depth),
    refusals,
  };
}

/** The rim begins on the centre line, at the shallow end; the other end is the crossing that lies furthest on. */
function centreLineOf({ chain, extent }: Outline): Drawn["centreLine"] {
  const from = pointAt(chain, 0).x;
  let [inside, outside] = [extent.length, extent.length];
  while (inside > from && nearest(chain, inside, 0).distance > -1e-6) inside -= 20;
  while (outside - inside > 0.01) {
    const middle = (inside + outside) / 2;
    if (nearest(chain, middle, 0).distance < 0) inside = middle;
    else outside = middle;
  }
  return { from, to: outside };
}
