import type { LaidZone, Layup } from "../../core/layup/laid.ts";
import type { Site } from "../../core/layup/site.ts";
import { flatFaces } from "../../core/layup/tape-treads.ts";
import { type UnrolledWall, unrollWall } from "../../core/layup/tape-wall.ts";
import { type TapeFigure, zoneOnTape } from "../../core/layup/tape-zones.ts";
import type { TapeView } from "./messages.ts";

/** Figures that take longer than this many points to read are worth a pause after them. */
const MANY = 40;

/**
 * Makes an unroller of lay-ups: the wall once for each site, each zone once. It pauses after what takes long, so that the caller
 * may stop there.
 */
export function makeUnroller(): (site: Site, layup: Layup) => Generator<void, TapeView> {
  const walls = new WeakMap<Site, UnrolledWall>();
  const figures = new WeakMap<LaidZone, TapeFigure[]>();

  return function* (site, { zones }) {
    let wall = walls.get(site);
    if (!wall) {
      wall = unrollWall(site);
      walls.set(site, wall);
      yield;
    }
    const drawn: TapeView["zones"][number][] = [];
    for (const zone of zones) {
      let known = figures.get(zone);
      if (!known) {
        known = zoneOnTape(site, zone);
        figures.set(zone, known);
        if (known.some(({ outline }) => outline.length > 2 * MANY)) yield;
      }
      if (known.length > 0) drawn.push({ id: zone.id, figures: known });
    }
    return { wall, zones: drawn, faces: flatFaces(site, zones) };
  };
}
