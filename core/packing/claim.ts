import { EndType, inflatePathsD, JoinType, type PathD, ramerDouglasPeuckerD } from "clipper2-ts";
import { type Ring, ringArea, tidyRing } from "./ring.ts";

/** Outlines with more corners than this are simplified: fewer corners pack faster. */
const FEW = 12;
/** A simplified outline stays within this outside the true one, mm. */
const SIMPLER = 0.5;
/** Decimals of a millimetre that the clipper keeps, and more than it rounds by. */
const PRECISION = 4;
const ROUNDING = 0.001;
/** A corner's point reaches at most this many times the distance before it is cut off, which leaves the distance kept. */
const MITRE = 2;

/**
 * What a piece claims for itself: its outline grown by half the gap all round, so that grown pieces may touch. An outline of many
 * corners is made a little larger and simpler. A hollow that a neighbour could not enter anyway is filled.
 */
export function claimOf(outline: Ring, gapMm: number): Ring {
  const simpler = outline.length / 2 > FEW ? SIMPLER : 0;
  if (gapMm === 0 && simpler === 0) return outline;
  const grown = inflatePathsD(
    [toPath(outline)],
    gapMm / 2 + simpler + ROUNDING,
    JoinType.Miter,
    EndType.Polygon,
    MITRE,
    PRECISION,
  ).map(toPairs);
  // Holes turn the other way and are the smaller ones.
  const outer = grown.reduce((most, ring) => (ringArea(ring) > ringArea(most) ? ring : most));
  return tidyRing(simpler > 0 ? toPairs(ramerDouglasPeuckerD(toPath(outer), simpler)) : outer);
}

function toPath(ring: ArrayLike<number>): PathD {
  return Array.from({ length: ring.length / 2 }, (_, i) => ({ x: ring[2 * i], y: ring[2 * i + 1] }));
}

const toPairs = (path: PathD): number[] => path.flatMap(({ x, y }) => [x, y]);
