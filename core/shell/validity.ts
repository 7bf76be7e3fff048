/** What no mould could make: each check refuses it with the reason and a figure that would work. Lengths mm. */
import type { Outline } from "../plan/chain.ts";
import { outwardClearance } from "../plan/clearance.ts";
import { blankNearest, nearest } from "../plan/nearest.ts";
import type { Figure } from "../plan/outlines/corner-figure.ts";
import { pointAt } from "../plan/point-at.ts";
import { segmentAt } from "../plan/segments.ts";
import type { FloorSpec, ShellSpec } from "../project/schema.ts";
import { limits } from "../project/shell-schema.ts";
import { type Block, covers } from "./blocks.ts";
import { isDrawable } from "./drawable.ts";
import { smallestThatWorks } from "./figure-that-works.ts";
import { type FloorShape, shapeFloor } from "./floor-profile.ts";
import { depthFrom } from "./levels-apart.ts";
import type { Radii } from "./radii.ts";
import type { Adjustment, Refusal } from "./shell.ts";
import { tenths } from "./tenths.ts";

/** The flange must hold the rim's and the lip's radius, and its outer edge must not meet itself in a reflex corner. */
export function checkCoping(spec: ShellSpec, outline: Outline, rim: number): Refusal[] {
  const { flange, edge } = spec.coping;
  const refusals: Refusal[] = [];
  const lip = edge.kind === "flat" ? 0 : edge.radius;
  // The ball under the edge must clear the wall as well, so that a smaller rim radius leaves it no more room.
  const least = Math.max(rim, lip) + lip + 10;
  /** What the coping's outer edge needs outside the rim. */
  const outside = (flange: number) => flange + lip + 5;
  if (flange < least) {
    const why =
      rim < lip
        ? `a flange of ${tenths(flange)} mm is thinner than twice the edge radius of ${tenths(lip)} mm`
        : `a flange of ${tenths(flange)} mm is thinner than the rim radius ${tenths(rim)} mm and the edge radius ${tenths(lip)} mm together`;
    refusals.push({
      path: "shell.coping.flange",
      value: flange,
      why,
      wouldWork: outwardClearance(outline, outside(least))
        ? smallerRadius(flange, rim, lip)
        : `a flange of at least ${Math.ceil(least)} mm`,
    });
  }
  if (edge.kind === "dropped" && edge.drop < edge.radius) {
    refusals.push({
      path: "shell.coping.edge.drop",
      value: edge.drop,
      why: `the edge drops ${tenths(edge.drop)} mm, less than its radius of ${tenths(edge.radius)} mm`,
      wouldWork: `a drop of at least ${Math.ceil(edge.radius)} mm`,
    });
  }
  const clash = outwardClearance(outline, outside(flange));
  if (clash) {
    const most = Math.floor(clash.have - lip - 5);
    const need = Math.ceil(outside(Math.max(flange, least)));
    const [where, across] = clash.where;
    const apart = across
      ? `at least ${2 * need} mm between ${where} and ${across}`
      : `a radius of at least ${need} mm at ${where}`;
    const wider = spec.outline.kind === "ell" && !across ? `a reflex radius of at least ${need} mm` : apart;
    const offers = [
      ...(most < Math.max(limits.flange[0], least) ? [] : [`a flange of at most ${most} mm`]),
      ...(across || isDrawable(spec.outline, where, need) ? [wider] : []),
    ];
    refusals.push({
      path: "shell.coping.flange",
      value: flange,
      why: `the coping would run into itself at ${clash.where.join(" and ")}: it needs ${Math.round(clash.need)} mm there and has ${Math.round(clash.have)} mm`,
      wouldWork: offers.join(", or ") || `longer sides at ${where}`,
    });
  }
  return refusals;
}

/** The rounder of the radii of a flange that can be no wider, cut down so that it holds both, mm. */
function smallerRadius(flange: number, rim: number, lip: number): string {
  const half = Math.floor((flange - 10) / 2);
  const [edge, coping] = [Math.min(half, Math.floor(flange - 10 - rim)), Math.floor(flange - 10 - lip)];
  if (edge >= limits.edge[0]) return `an edge radius of at most ${edge} mm`;
  if (lip <= half) return `a rim radius of at most ${coping} mm`;
  return `an edge radius of at most ${half} mm and with it a rim radius of at most ${half} mm`;
}

/** The least depth at which a tread leaves wall between the radius at the rim and its own, mm. */
export const leastDepthOf = ({ top, riser }: Pick<Block, "top" | "riser">, radii: Radii): number =>
  radii.rim + Math.max(radii.step(top, "wall"), radii.step(riser, "wall")) + 5;

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
    const need = leastDepthOf(b, radii);
    if (b.depth < need) {
      refusals.push({
        path: `${b.path}.depth`,
        value: b.depth,
        why: `${b.top} lies ${tenths(b.depth)} mm below the rim, which leaves no wall between the rim radius ${tenths(rim)} mm and the radius to the wall`,
        wouldWork: `a depth of at least ${depthFrom(
          need,
          blocks.flatMap((o) => (o.feature === b.feature ? [] : [o.depth])),
        )} mm`,
      });
    }
  }
  const shallowest = shallowestAtWall(outline, floor);
  const least = rim + radii.cove + 20;
  if (shallowest < least) {
    const smaller = Math.floor(shallowest - rim - 20);
    const cove =
      smaller >= limits.cove[0] ? `${radii.called("wall", "floor", "cove")} of at most ${smaller} mm` : null;
    const figure = leastDepth(spec.floor);
    const depth = smallestThatWorks(figure.value, limits.floorDepth[1], (tried) => {
      const shaped = shapeFloor({ ...spec, floor: figure.changed(tried) }, outline);
      return "depthAt" in shaped && shallowestAtWall(outline, shaped) >= least;
    });
    const offers = [depth === null ? null : `at least ${depth} mm of depth`, cove].filter(
      (each) => each !== null,
    );
    const mm = Math.round(shallowest);
    const deep = mm < 0 ? `${-mm} mm above the rim` : `${mm} mm deep`;
    refusals.push({
      path: figure.path,
      value: figure.value,
      why: `where the floor is ${deep} there is no wall between the rim radius ${tenths(rim)} mm and the cove of ${tenths(radii.cove)} mm`,
      wouldWork:
        offers.length > 0
          ? offers.join(", or ")
          : `a floor that is at least ${Math.ceil(least)} mm deep all along the wall`,
    });
  }
  return refusals;
}

/** Least depth of the floor along the rim, mm. */
function shallowestAtWall({ chain }: Outline, floor: FloorShape): number {
  let least = Infinity;
  for (let s = 0; s < chain.length; s += 100) {
    const p = pointAt(chain, s);
    least = Math.min(least, floor.depthAt(p.x, p.y));
  }
  return least;
}

/**
 * The figure that makes the floor as shallow as it is at its least: a station's depth, or that of the hopper at the wall; and the
 * floor with another in its place.
 */
function leastDepth(floor: FloorSpec): Figure & { value: number; changed: (depth: number) => FloorSpec } {
  const { stations, hopper } = floor;
  const depths = stations.map(({ depth }) => depth);
  const least = Math.min(...depths);
  if (hopper && hopper.depthAtWall < least) {
    const changed = (depthAtWall: number) => ({ ...floor, hopper: { ...hopper, depthAtWall } });
    return { path: "shell.floor.hopper.depthAtWall", value: hopper.depthAtWall, changed };
  }
  const shallow = depths.indexOf(least);
  const changed = (depth: number) => ({
    ...floor,
    stations: stations.map((each, i) => (i === shallow ? { ...each, depth } : each)),
  });
  return { path: `shell.floor.stations[${shallow}].depth`, value: least, changed };
}

/** Filled wherever the nearest of a chain is asked for: a new one each time would be most of what building a shell leaves to be cleared up. */
const found = blankNearest();

/** A point of a riser in plan. */
export interface EdgePoint {
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
