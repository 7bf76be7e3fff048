import type { Kit } from "../../core/cutting/kit.ts";
import type { LaidZone, Layup } from "../../core/layup/laid.ts";
import type { Breath } from "./breath.ts";
import { type Cutting, cutPausing, type SentZone } from "./cutting.ts";
import type { Job } from "./messages.ts";
import { remember } from "./remember.ts";

/** Cuts the kit of a job's lay-up: the same kit again for the same figures, null if the job is to stop before it is done. */
export type Cutter = (job: Job, layup: Layup, stopped: () => boolean) => Promise<Kit | null>;

/** A cutter that cuts where the jobs themselves are worked on. */
export function cutHere(breath: Breath): Cutter {
  return remembering(({ project, shells }, layup, stopped) =>
    cutPausing(project, layup, shells, breath, stopped),
  );
}

/** A cutter that has kits cut elsewhere; what was sent with the order before is not sent again. */
export function cutThere(cutting: { cut: Cutting["cut"] }): Cutter {
  const keys = new WeakMap<LaidZone, number>();
  let sent = new Set<number>();
  let next = 1;
  return remembering(({ project, shells }, layup) => {
    const zones = layup.zones.map((zone) => {
      const key = keys.get(zone) ?? next++;
      keys.set(zone, key);
      return { key, zone: sent.has(key) ? null : withoutField(zone) };
    });
    sent = new Set(zones.map(({ key }) => key));
    return cutting.cut({ project, shells, zones });
  });
}

function remembering(cut: Cutter): Cutter {
  const kits = remember<{ kit: Kit | null }>();
  return async (job, layup, stopped) => {
    const { shell, materials, shop, layup: zones } = job.project;
    const known = kits(JSON.stringify([shell, materials, shop, zones, job.shells]), () => ({ kit: null }));
    known.kit ??= await cut(job, layup, stopped);
    return known.kit;
  };
}

function withoutField(zone: LaidZone): SentZone {
  if (!("strip" in zone)) return zone;
  const { field: _, ...strip } = zone.strip;
  return { ...zone, strip };
}
