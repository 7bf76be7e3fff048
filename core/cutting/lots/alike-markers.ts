import type { Marker } from "../../packing/order.ts";
import { grouped } from "../grouped.ts";

/** Rolls or sheets that are cut in the same way. */
export interface AlikeMarkers {
  readonly marker: Marker;
  /** Number of the first of them in the plan, from 1 on; the others follow it. */
  readonly first: number;
  readonly times: number;
}

/** Markers with those behind each other that are cut alike; the last one, of which the rest is, stays last. */
export function alikeTogether(markers: readonly Marker[]): Marker[] {
  return [...grouped(markers.toReversed(), keyOf).values()].flat().reverse();
}

/** The markers of a plan, those in a row that are cut alike as one. */
export function alikeMarkers(markers: readonly Marker[]): AlikeMarkers[] {
  const groups: AlikeMarkers[] = [];
  let last = "";
  for (const [i, marker] of markers.entries()) {
    const key = keyOf(marker);
    const group = groups.at(-1);
    if (group && key === last) groups[groups.length - 1] = { ...group, times: group.times + 1 };
    else groups.push({ marker, first: i + 1, times: 1 });
    last = key;
  }
  return groups;
}

/** The same text for the same stock with the same pieces in the same places, in whatever order they are listed. */
function keyOf({ stock, usedMm, placements, cuts }: Marker): string {
  const places = placements.map(({ piece, turnDeg, mirrored, xMm, yMm }) =>
    [turnDeg, mirrored, xMm, yMm, piece].join(" "),
  );
  return JSON.stringify([stock, usedMm, places.sort(), cuts.map(({ fromMm, toMm }) => [fromMm, toMm])]);
}
