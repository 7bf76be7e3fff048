import type { Cut } from "./lattice.ts";
import type { Turning } from "./turning.ts";

/** A stretch of a zone is a corner worth a cut where it curves by this much, rad: 15°. */
const CORNER = Math.PI / 12;
/** How deep a cut may go, as parts of the way from the zone's edge to the line. */
const DEPTHS = [0.3, 0.5, 0.7, 0.85, 1];
/** A cut shorter than this is none, mm. */
const SHORTEST = 30;

/**
 * Cuts that might relieve the cloth of a zone, the shortest first of each place: from either edge towards the line, in the middle of
 * every corner that leaves cloth over (Gaussian curvature above zero: the zone turns less there than flat cloth would). Where it
 * is below zero cloth is wanting: a cut would have to be filled, so there is none.
 */
export function likelyCuts(turning: Turning): Cut[] {
  const { stations, ws, turned, there } = turning;
  const m = ws.length;
  const reachAt = (i: number, side: Cut["side"]) => {
    let reach = 0;
    for (let k = 0; k < m; k++)
      if (there[i * m + k] === 1) reach = Math.max(reach, side === "left" ? ws[k] : -ws[k]);
    return reach;
  };
  return cornersOf(stations.map((_, i) => turned[i * m + m - 1] - turned[i * m])).flatMap((i) =>
    (["left", "right"] as const).flatMap((side) => {
      const reach = reachAt(i, side);
      return DEPTHS.filter((depth) => depth * reach >= SHORTEST).map((depth) => ({
        side,
        station: stations[i],
        tip: (1 - depth) * reach,
      }));
    }),
  );
}

/** Indices in the middle of every rise of a profile by more than CORNER. */
function cornersOf(profile: readonly number[]): number[] {
  const corners: number[] = [];
  let start = 0;
  for (let i = 1; i <= profile.length; i++) {
    if (i < profile.length && profile[i] >= profile[i - 1] - 1e-9) continue;
    const half = (profile[start] + profile[i - 1]) / 2;
    if (profile[i - 1] - profile[start] > CORNER) {
      let middle = start;
      while (profile[middle] < half) middle++;
      corners.push(middle);
    }
    start = i;
  }
  return corners;
}
