import type { Results } from "./results.ts";

/** Something to look at: the zone it is about, and what there is to say of it. */
export interface Look {
  readonly zone: string;
  readonly says: string;
  /** Where in the zone it is, as a distance along its line, mm; null where it is about all of it. */
  readonly at: number | null;
  /** Whether it is about the zone as it is laid, so that a mend can be tried by laying it, or about the pieces that are cut for it. */
  readonly about: "zone" | "pieces";
}

/** How many things there are to look at: figures that cannot be built, zones adrift, doubts about zones, pieces and the shell. */
export function toLookAt(results: Results): number {
  const { refusals, adrift, measure } = results;
  return refusals.length + adrift.length + doubtsOf(results).length + (measure?.doubts.length ?? 0);
}

/** Where these things are told: what is wrong with the shell at its figures, all else on the lay-up floor, zone by zone. */
export function whereToLook(results: Results): "drawing-office" | "lay-up-floor" {
  const { refusals, adrift } = results;
  const byZone = refusals.length === 0 && adrift.length + doubtsOf(results).length > 0;
  return byZone ? "lay-up-floor" : "drawing-office";
}

/** What is doubtful about zones as they are laid and then as they are cut, zone by zone in their order. */
export function doubtsOf({ zones, kit }: Pick<Results, "zones" | "kit">): Look[] {
  return zones.flatMap(({ id, doubts }) => [
    ...doubts.map((says) => ({ zone: id, says, at: null, about: "zone" as const })),
    ...(kit?.doubts ?? [])
      .filter(({ zone }) => zone === id)
      .map(({ says }) => ({ zone: id, says, at: placeIn(says), about: "pieces" as const })),
  ]);
}

/** Laps are told one by one, and core tells their places in words. */
function placeIn(says: string): number | null {
  const lap = /(?:^|: )the lap at (\d+) mm /.exec(says);
  return lap ? Number(lap[1]) : null;
}
