import {
  differenceD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathsD,
} from "clipper2-ts";
import { pairsOf, pathOf } from "./clip-path.ts";
import { signedArea } from "./flat-shape.ts";

/** Decimals of a millimetre to which polygons are kept by the clipper. */
const PRECISION = 4;
/** Arcs round re-entrant corners stay within this of their circle, mm. */
const ARC = 0.02;

/** Closed polygons as x y pairs, mm; outer ones counter-clockwise, holes clockwise. */
export type Region = readonly (readonly number[])[];

/** A region drawn in by a margin (mm ≥ 0) all round: every point that is left lies that far or further from the edge. */
export function inset(region: Region, margin: number): number[][] {
  if (margin === 0) return region.map((loop) => [...loop]);
  return fromPaths(
    inflatePathsD(toPaths(region), -margin, JoinType.Round, EndType.Polygon, 2, PRECISION, ARC),
  );
}

/** A region without the parts that others cover. */
export function subtract(region: Region, others: Region): number[][] {
  if (others.length === 0) return region.map((loop) => [...loop]);
  return fromPaths(differenceD(toPaths(region), toPaths(others), FillRule.NonZero, PRECISION));
}

/** The same region cut across (along y) through the middle of every hole, so that each part is a polygon without holes. */
export function withoutHoles(region: Region): number[][] {
  const holes = region.filter((loop) => signedArea(loop) < 0);
  if (holes.length === 0) return region.map((loop) => [...loop]);
  const xs = region.flatMap((loop) => loop.filter((_, i) => i % 2 === 0));
  const ys = region.flatMap((loop) => loop.filter((_, i) => i % 2 === 1));
  const [low, high] = [Math.min(...ys) - 1, Math.max(...ys) + 1];
  const cuts = holes.map((hole) => {
    const across = hole.filter((_, i) => i % 2 === 0);
    return (Math.min(...across) + Math.max(...across)) / 2;
  });
  const edges = [Math.min(...xs) - 1, ...cuts.sort((a, b) => a - b), Math.max(...xs) + 1];
  return edges.slice(1).flatMap((to, i) => {
    const from = edges[i];
    const slab = [[from, low, to, low, to, high, from, high]];
    return fromPaths(intersectD(toPaths(region), toPaths(slab), FillRule.NonZero, PRECISION));
  });
}

const toPaths = (region: Region): PathsD => region.map(pathOf);

const fromPaths = (paths: PathsD): number[][] => paths.map(pairsOf);
