/** Slots too narrow to be laid up, or for the balls that roll along their foot. Lengths mm. */
import type { Outline } from "../plan/chain.ts";
import { blankNearest, nearest } from "../plan/nearest.ts";
import { type Block, covers, type Surroundings } from "./blocks.ts";
import type { Trials } from "./fit-features.ts";
import type { FloorShape } from "./floor-profile.ts";
import type { Refusal } from "./shell.ts";
import { tenths } from "./tenths.ts";
import { type EdgePoint, edgePoints } from "./validity.ts";

/** Filled wherever the nearest of a chain is asked for. */
const found = blankNearest();

/** Faces that meet at more than 20° form a wedge, which a ball rounds as it should; flatter ones form a slot. */
const PARALLEL = Math.cos(Math.PI / 9);
/** No slot narrower than this is laid up, mm, however small the radii at its foot. */
const LEAST_SLOT = 60;

interface Slot {
  readonly block: Block;
  /** What stands across: another riser, the same one, or null for the wall. */
  readonly across: Block | null;
  readonly gap: number;
  /** The narrowest that would do. */
  readonly least: number;
}

/** Refuses the narrowest slot that would be filled without a word. */
export function checkSlots(
  here: Surroundings,
  floor: FloorShape,
  blocks: readonly Block[],
  trials: Trials,
): Refusal[] {
  const slot = narrowestSlot(here, floor, blocks);
  if (!slot) return [];
  const { block, across, gap, least } = slot;
  const foot = here.radii.step(block.riser, "floor");
  const clear = (tried: readonly Block[], there = here) =>
    !narrowestSlot(there, floor, tried, (top) => top === block.top);
  const between =
    across === block
      ? `two stretches of ${block.riser}`
      : `${block.riser} and ${across ? across.riser : "the wall"}`;
  const own = [trials.otherReach(block, block, clear), trials.otherFoot(block, clear)]
    .filter((each) => each !== null)
    .join(", or ");
  const elsewhere = () =>
    (across && across !== block ? trials.otherReach(across, block, clear) : null) ??
    trials.otherEnd(block, clear) ??
    `a slot of at least ${Math.max(LEAST_SLOT, Math.ceil(2 * foot + 5))} mm, or none`;
  return [
    {
      ...block.reaches,
      why: `between ${between} a slot of ${Math.max(0, Math.round(gap))} mm is left at its foot, narrower than ${least > 2 * foot ? `the ${tenths(least)} mm that can be laid up` : `the radius of ${tenths(foot)} mm on both sides needs`}`,
      wouldWork: own === "" ? elsewhere() : own,
    },
  ];
}

/** Looks in front of every exposed riser; `of`: only for slots beside the blocks with these treads. */
export function narrowestSlot(
  { outline, radii, draft }: Surroundings,
  floor: FloorShape,
  blocks: readonly Block[],
  of: (top: string) => boolean = () => true,
): Slot | null {
  const tan = Math.tan(draft);
  let narrowest: Slot | null = null;
  for (const b of blocks) {
    const foot = radii.step(b.riser, "floor");
    const others = blocks.filter((o) => o !== b);
    for (const p of edgePoints(b, outline, 120)) {
      const under = others.filter((o) => covers(o, p.x, p.y)).map((o) => o.depth);
      if (under.some((depth) => depth <= b.depth)) continue;
      // The riser stands on the floor, or on a lower tread.
      const bottom = Math.min(floor.depthAt(p.x, p.y), ...under);
      if (bottom < b.depth + 20) continue;
      // Look outwards from the riser, away from the solid on its left.
      const spread = (bottom - b.depth) * tan;
      const least = Math.max(2 * foot, LEAST_SLOT);
      const most = least + 20 + 2 * spread;
      const wallNear = nearest(outline.chain, p.x, p.y, found).distance > -most - bottom * tan;
      // A feature can face itself: both sides of a bench round a narrow end.
      const near = blocks.filter((o) => covers(o, p.x, p.y, most + bottom * tan));
      if (!wallNear && near.length === 0) continue;
      for (let t = 10; t < most; t += 10) {
        const x = p.x + p.nx * t;
        const y = p.y + p.ny * t;
        const wallAhead = wallNear && facesWall(outline, x, y, p, bottom * tan);
        const solid = near.find(
          (o) => o.depth < bottom - foot && faces(o, x, y, p, (bottom - o.depth) * tan),
        );
        if (!wallAhead && !solid) continue;
        const upright = solid ? Math.min(bottom - b.depth, bottom - solid.depth) : bottom - b.depth;
        const gap = t - spread;
        if (upright < foot || gap >= least || gap >= (narrowest?.gap ?? Infinity)) break;
        if (of(b.top) || (solid && of(solid.top)))
          narrowest = { block: b, across: solid ?? null, gap, least };
        break;
      }
    }
  }
  return narrowest;
}

function facesWall(outline: Outline, x: number, y: number, from: EdgePoint, spread: number): boolean {
  const n = nearest(outline.chain, x, y, found);
  return n.distance + spread > 0 && n.nx * from.nx + n.ny * from.ny > PARALLEL;
}

function faces(o: Block, x: number, y: number, from: EdgePoint, spread: number): boolean {
  const n = nearest(o.footprint, x, y, found);
  return n.distance <= spread && n.distance > -60 && n.nx * from.nx + n.ny * from.ny < -PARALLEL;
}
