import { EndType, inflatePathsD, JoinType, type PathD, ramerDouglasPeuckerD } from "clipper2-ts";
import { type Ring, ringArea, tidyRing } from "./ring.ts";

/** Outlines with more corners than this are simplified: fewer corners pack faster. */
const FEW = 12;
/** A simplified outline goes out by this, twice at the most, mm; it must have so much fewer corners to be worth it. */
const SIMPLER = 0.5;
const WORTHWHILE = 0.75;
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
  const plain = gapMm === 0 ? outline : grown(outline, gapMm / 2 + ROUNDING);
  if (plain.length / 2 <= FEW) return plain;
  const larger = grown(outline, gapMm / 2 + SIMPLER + ROUNDING);
  const simpler = tidyRing(toPairs(ramerDouglasPeuckerD(toPath(larger), SIMPLER)));
  return simpler.length <= WORTHWHILE * plain.length ? simpler : plain;
}

function grown(outline: Ring, distance: number): Ring {
  const rings = inflatePathsD(
    [toPath(outline)],
    distance,
    JoinType.Miter,
    EndType.Polygon,
    MITRE,
    PRECISION,
  ).map(toPairs);
  // Holes turn the other way and are the smaller ones.
  return tidyRing(rings.reduce((most, ring) => (ringArea(ring) > ringArea(most) ? ring : most)));
}

function toPath(ring: ArrayLike<number>): PathD {
  return Array.from({ length: ring.length / 2 }, (_, i) => ({ x: ring[2 * i], y: ring[2 * i + 1] }));
}

const toPairs = (path: PathD): number[] => path.flatMap(({ x, y }) => [x, y]);
