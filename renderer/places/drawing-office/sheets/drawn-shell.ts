import { buildOutline } from "../../../../core/plan/build-outline.ts";
import type { Outline } from "../../../../core/plan/chain.ts";
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
    floor,
    blocks: [...blocks].sort((a, b) => a.depth - b.depth),
    refusals,
  };
}
