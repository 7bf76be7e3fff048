import type { PathD } from "clipper2-ts";

/** A ring as x y pairs, as the path that the clipper wants. */
export const pathOf = (pairs: ArrayLike<number>): PathD =>
  Array.from({ length: pairs.length / 2 }, (_, i) => ({ x: pairs[2 * i], y: pairs[2 * i + 1] }));

/** A path of the clipper's as x y pairs. */
export const pairsOf = (path: PathD): number[] => path.flatMap(({ x, y }) => [x, y]);
