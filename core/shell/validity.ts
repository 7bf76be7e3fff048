/** What no mould could make: each check refuses it with the reason and a figure that would work. Lengths mm. */
import type { Outline } from "../plan/chain.ts";
import { outwardClearance } from "../plan/clearance.ts";
import { blankNearest, nearest } from "../plan/nearest.ts";
import { pointAt } from "../plan/point-at.ts";
import { segmentAt } from "../plan/segments.ts";
import type { ShellSpec } from "../project/schema.ts";
import { limits } from "../project/shell-schema.ts";
import { type Block, covers } from "./blocks.ts";
import type { FloorShape } from "./floor-profile.ts";
import type { Radii } from "./radii.ts";
import type { Adjustment, Refusal } from "./shell.ts";

/** The flange must hold the rim's and the lip's radius, and its outer edge must not meet itself in a reflex corner. */
export function checkCoping(spec: ShellSpec, outline: Outline, rim: number): Refusal[] {
  const { flange, edge } = spec.coping;
  const refusals: Refusal[] = [];
  const lip = edge.kind === "flat" ? 0 : edge.radius;
  // The ball under the edge must clear the wall as well, so that a smaller rim radius leaves it no more room.
  const least = Math.max(rim, lip) + lip + 10;
  if (flange < least) {
    const why =
      rim < lip
        ? `a flange of ${flange} mm is thinner than twice the edge radius of ${lip} mm`
        : `a flange of ${flange} mm is thinner than the rim radius ${rim} mm and the edge radius ${lip} mm together`;
    refusals.push({
      path: "shell.coping.flange",
      value: flange,
      why,
      wouldWork: `a flange of at least ${least} mm`,
    });
  }
  if (edge.kind === "dropped" && edge.drop < edge.radius) {
    refusals.push({
      path: "shell.coping.edge.drop",
      value: edge.drop,
      why: `the edge drops ${edge.drop} mm, less than its radius of ${edge.radius} mm`,
      wouldWork: `a drop of at least ${edge.radius} mm`,
    });
  }
  const clash = outwardClearance(outline, flange + lip + 5);
  if (clash) {
    const most = Math.floor(clash.have - lip - 5);
    refusals.push({
      path: "shell.coping.flange",
      value: flange,
      why: `the coping would run into itself at ${clash.where.join(" and ")}: it needs ${Math.round(clash.need)} mm there and has ${Math.round(clash.have)} mm`,
      wouldWork: `${most < limits.flange[0] ? "" : `a flange of at most ${most} mm, or `}a reflex radius of at least ${Math.ceil(flange + lip + 5)} mm`,
    });
  }
  return refusals;
}

/** Between the rim and every level there must be wall enough for both radii. */
export function checkLevels(
  spec: ShellSpec,
  outline: Outline,
  floor: FloorShape,
  blocks: readonly Block[],
  radii: Radii,
): Refusal[] {
  const refusals: Refusal[] = [];
  const { rim } = radii;
  for (const b of blocks) {
    const need = rim + Math.max(radii.step(b.top, "wall"), radii.step(b.riser, "wall")) + 5;
    if (b.depth < need) {
      refusals.push({
        path: `${b.path}.depth`,
        value: b.depth,
        why: `${b.top} lies ${b.depth} mm below the rim, which leaves no wall between the rim radius ${rim} mm and the radius to the wall`,
        wouldWork: `a depth of at least ${Math.ceil(need)} mm`,
      });
    }
  }
  let shallowest = Infinity;
  for (let s = 0; s < outline.chain.length; s += 100) {
    const p = pointAt(outline.chain, s);
    shallowest = Math.min(shallowest, floor.depthAt(p.x, p.y));
  }
  const least = rim + radii.cove + 20;
  if (shallowest < least) {
    const smaller = Math.floor(shallowest - rim - 20);
    const mm = Math.round(shallowest);
    const deep = mm < 0 ? `${-mm} mm above the rim` : `${mm} mm deep`;
    refusals.push({
      ...leastDepth(spec.floor),
      why: `where the floor is ${deep} there is no wall between the rim radius ${rim} mm and the cove of ${radii.cove} mm`,
      wouldWork: `at least ${Math.ceil(least)} mm of depth${smaller >= limits.cove[0] ? `, or a cove of at most ${smaller} mm` : ""}`,
    });
  }
  return refusals;
}

/** The figure that makes the floor as shallow as it is at its least: a station's depth, or that of the hopper at the wall. */
function leastDepth({ stations, hopper }: ShellSpec["floor"]): { path: string; value: number } {
  const depths = stations.map(({ depth }) => depth);
  const least = Math.min(...depths);
  return hopper && hopper.depthAtWall < least
    ? { path: "shell.floor.hopper.depthAtWall", value: hopper.depthAtWall }
    : { path: `shell.floor.stations[${depths.indexOf(least)}].depth`, value: least };
}

/** Filled wherever the nearest of a chain is asked for: a new one each time would be most of what building a shell leaves to be cleared up. */
const found = blankNearest();

/** Faces that meet at more than 20° form a wedge, which a ball rounds as it should; flatter ones form a slot. */
const PARALLEL = Math.cos(Math.PI / 9);

/**
 * A slot that is narrower than the ball that rolls along its foot would be filled without a word: looks for the narrowest
 * in front of every exposed riser.
 */
export function checkSlots(
  outline: Outline,
  floor: FloorShape,
  blocks: readonly Block[],
  radii: Radii,
  draft: number,
): Refusal[] {
  const tan = Math.tan(draft);
  let narrowest = Infinity;
  let refusals: Refusal[] = [];
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
        if (upright < foot || gap >= least || gap >= narrowest) break;
        narrowest = gap;
        refusals = [
          {
            ...b.reaches,
            why: `between ${solid === b ? `two stretches of ${b.riser}` : `${b.riser} and ${solid ? solid.riser : "the wall"}`} a slot of ${Math.max(0, Math.round(gap))} mm is left at its foot, narrower than ${least > 2 * foot ? `the ${least} mm that can be laid up` : `the radius of ${foot} mm on both sides needs`}`,
            wouldWork: slotThatWorks(
              foot,
              gap,
              radii.given(b.riser, "floor") === undefined ? undefined : b.riser,
            ),
          },
        ];
        break;
      }
    }
  }
  return refusals;
}

/** No slot narrower than this is laid up, mm, however small the radii at its foot. */
const LEAST_SLOT = 60;

/** `riser`: of a radius to the floor that is given for it alone. */
function slotThatWorks(foot: number, gap: number, riser: string | undefined): string {
  const smaller = Math.floor(gap / 2 - 3);
  const called = riser === undefined ? "a step radius" : `a radius between ${riser} and floor`;
  const radius =
    smaller >= limits.step[0] && gap >= LEAST_SLOT ? `, or ${called} of at most ${smaller} mm` : "";
  return `a slot of at least ${Math.max(LEAST_SLOT, Math.ceil(2 * foot + 5))} mm, or none${radius}`;
}

interface EdgePoint {
  readonly x: number;
  readonly y: number;
  /** Out of the solid. */
  readonly nx: number;
  readonly ny: number;
}

/** Points along a block's riser that lie inside the pool, about `step` mm apart, closer on tight arcs. */
export function edgePoints(b: Block, outline: Outline, step: number): EdgePoint[] {
  const { length, width } = outline.extent;
  const points: EdgePoint[] = [];
  b.footprint.segments.forEach((s) => {
    // Endless lines are looked at only where the pool is.
    const middle = s.length / 2;
    const from = Math.max(0, middle - 2 * (length + width));
    const to = Math.min(s.length, middle + 2 * (length + width));
    // A rounded end turns quickly: a neck before it is seen from a few of its points only.
    const pace = s.kind === "arc" ? Math.min(step, Math.max(20, s.radius / 6)) : step;
    for (let t = from + Math.min(pace, s.length) / 2; t < to; t += pace) {
      const { x, y, tx, ty } = segmentAt(s, t);
      if (x < 0 || x > length || Math.abs(y) > width / 2) continue;
      if (nearest(outline.chain, x, y, found).distance < -20) points.push({ x, y, nx: ty, ny: -tx });
    }
  });
  return points;
}

function facesWall(outline: Outline, x: number, y: number, from: EdgePoint, spread: number): boolean {
  const n = nearest(outline.chain, x, y, found);
  return n.distance + spread > 0 && n.nx * from.nx + n.ny * from.ny > PARALLEL;
}

function faces(o: Block, x: number, y: number, from: EdgePoint, spread: number): boolean {
  const n = nearest(o.footprint, x, y, found);
  return n.distance <= spread && n.distance > -60 && n.nx * from.nx + n.ny * from.ny < -PARALLEL;
}

/**
 * Treads that lie wholly below the floor or under other treads: they are kept in the file and named, never lost in
 * silence. A look just inside each riser settles almost every block; the rest are searched all over.
 */
export function hiddenBlocks(outline: Outline, floor: FloorShape, blocks: readonly Block[]): Adjustment[] {
  const { length, width } = outline.extent;
  const seenAt = (b: Block, x: number, y: number): boolean =>
    nearest(outline.chain, x, y).distance < -30 &&
    b.depth < floor.depthAt(x, y) &&
    covers(b, x, y) &&
    !blocks.some((o) => o !== b && o.depth < b.depth && covers(o, x, y));
  const seen = (b: Block): boolean => {
    if (edgePoints(b, outline, 200).some((p) => seenAt(b, p.x - 20 * p.nx, p.y - 20 * p.ny))) return true;
    const step = 60;
    for (let x = step / 2; x < length; x += step)
      for (let y = -width / 2 + step / 2; y < width / 2; y += step) if (seenAt(b, x, y)) return true;
    return false;
  };
  return blocks.flatMap((b): Adjustment[] => {
    if (seen(b)) return [];
    return [
      {
        id: `${b.top}/hidden`,
        what: `${b.top} is not to be seen`,
        asked: b.depth,
        used: Math.round(floor.deepest),
        unit: "mm",
        why: "the floor or another tread lies above it everywhere",
      },
    ];
  });
}
