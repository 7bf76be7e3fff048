import type { Results } from "./results.ts";

/** Something to look at: the zone it is about, and what there is to say of it. */
export interface Look {
  readonly zone: string;
  readonly says: string;
  /** Where in the zone it is, as a distance along its line, mm; null where it is about all of it. */
  readonly at: number | null;
  /** Whether it is about the zone as it is laid, so that a mend can be tried by laying it, or about the pieces that are cut for it. */
  readonly about: "zone" | "pieces";
  /** Whether the kit is not to be cut by as it is; else it is a note. */
  readonly isFault: boolean;
}

/** How many there are, and where they are told: what is wrong with the shell at its figures, all else on the lay-up floor, zone by zone. */
export interface Told {
  readonly count: number;
  readonly where: "drawing-office" | "lay-up-floor";
}

/** What stands in the way: figures that cannot be built, a surface that fails its self-check, zones adrift, pieces that cannot be cut. */
export function faultsOf(results: Results): Told {
  const { refusals, adrift, measure } = results;
  const ofShell = refusals.length + (measure?.flaws.length ?? 0);
  const ofZones = adrift.length + doubtsOf(results).filter(({ isFault }) => isFault).length;
  // Without a sound shell nothing on it counts.
  return { count: ofShell + ofZones, where: ofShell > 0 ? "drawing-office" : "lay-up-floor" };
}

/** What there is to look at besides, with which a kit can be cut. */
export function notesOf(results: Results): Told {
  const ofShell = results.measure?.doubts.length ?? 0;
  const ofZones = doubtsOf(results).filter(({ isFault }) => !isFault).length;
  return { count: ofShell + ofZones, where: ofZones > 0 ? "lay-up-floor" : "drawing-office" };
}

/** What there is to say of zones as they are laid and then as they are cut, zone by zone in their order. */
export function doubtsOf({ zones, kit }: Pick<Results, "zones" | "kit">): Look[] {
  return zones.flatMap(({ id, doubts }) => [
    ...doubts.map((says) => ({ zone: id, says, at: null, about: "zone" as const, isFault: false })),
    ...(kit?.doubts ?? [])
      .filter(({ zone }) => zone === id)
      .map(({ says, atMm, fault }) => ({
        zone: id,
        says,
        at: atMm ?? null,
        about: "pieces" as const,
        isFault: fault !== undefined,
      })),
  ]);
}
