import { spanPlace } from "../surface/strip-point.ts";
import type { Drape } from "./drape.ts";
import { type Fit, fitCloth, MOST_CUTS } from "./fit.ts";
import { flapsOf } from "./flaps.ts";
import type { Column, Cut } from "./lattice.ts";
import { type ClothZone, edgesAt, roughZonePoint } from "./zone.ts";

/** Two zones are mirror images where all of their places looked at are within this of it, mm. */
const TRUE = 0.2;
/** Such places lie this far apart along the line, mm. */
const STEP = 40;

/** How cloth lies on a zone, with so many cuts at the most. */
export type ClothFitter = (zone: ClothZone, mostCuts?: number) => Fit | null;

/**
 * Fits cloth (`fitCloth`) to the zones of one surface, and gives a zone that is the mirror image of one before in the plane y = 0, across which pools are
 * often symmetric, the mirror image of its cloth: the same to the last digit, at a fraction of the time.
 */
export function clothFitter(locking: number, spacing: number): ClothFitter {
  const known: { zone: ClothZone; mostCuts: number; fit: Fit | null }[] = [];
  return (zone, mostCuts = MOST_CUTS) => {
    const twin = known.find((other) => other.mostCuts === mostCuts && areMirrored(other.zone, zone));
    const fit = twin
      ? twin.fit && mirrored(twin.zone, twin.fit, zone)
      : fitCloth(zone, locking, spacing, mostCuts);
    known.push({ zone, mostCuts, fit });
    return fit;
  };
}

const here = new Float64Array(9);
const there = new Float64Array(9);

/** Whether two zones, the one from its beginning and the other from its end, are mirror images in the plane y = 0. */
function areMirrored(a: ClothZone, b: ClothZone): boolean {
  const length = a.to - a.from;
  if (a.left !== b.left || a.right !== b.right || Math.abs(b.to - b.from - length) > TRUE) return false;
  const steps = Math.ceil(length / STEP);
  for (let step = 0; step <= steps; step++) {
    const along = (length * step) / steps;
    const [p, q] = [spanPlace(a.strip, a.from + along), spanPlace(b.strip, b.to - along)];
    const [edges, others] = [edgesAt(a, p), edgesAt(b, q)];
    if (edges.some((w, k) => Math.abs(w - others[k]) > TRUE)) return false;
    for (const w of [0, ...edges]) {
      roughZonePoint(a, p, w, here);
      roughZonePoint(b, q, w, there);
      if (Math.hypot(here[0] - there[0], here[1] + there[1], here[2] - there[2]) > TRUE) return false;
    }
  }
  return true;
}

/** The fit of a zone turned into that of its mirror image: its line runs the other way, so left stays left and the warp is turned end for end. */
function mirrored(from: ClothZone, fit: Fit, to: ClothZone): Fit {
  const across = (station: number) => from.from + to.to - station;
  const turned = (cut: Cut): Cut => twinCuts.get(cut) as Cut;
  const twinCuts = new Map(fit.cuts.map((cut) => [cut, { ...cut, station: across(cut.station) }]));
  const { drape, hanging } = fit;
  const flaps = flapsOf(fit.cuts, from.from, from.to).map(({ side }, f) => ({
    side,
    station: hanging.flaps[f],
  }));
  return {
    drape: mirroredDrape(drape, to, across, turned),
    cuts: fit.cuts.map(turned).reverse(),
    hanging: {
      ...hanging,
      station: across(hanging.station),
      flaps: (["left", "right"] as const).flatMap((side) =>
        flaps
          .filter((flap) => flap.side === side)
          .map(({ station }) => across(station))
          .reverse(),
      ),
    },
    outline: reversed(fit.outline),
    overlaps: fit.overlaps,
    isRough: fit.isRough,
  };
}

function mirroredDrape(
  { columns, flat, shear, bend }: Drape,
  zone: ClothZone,
  across: (station: number) => number,
  turned: (cut: Cut) => Cut,
): Drape {
  const cutsOf = (side: Cut["side"]) => Math.max(0, ...columns.map(({ flaps }) => flaps[side]));
  const count = { left: cutsOf("left"), right: cutsOf("right") };
  return {
    columns: columns
      .map((column, c): Column => {
        const station = across(column.station);
        // What lay before its cut lies now beyond it.
        const after = columns[c + 1]?.after;
        return {
          station,
          place: spanPlace(zone.strip, station),
          ws: column.ws,
          points: column.points.map((value, k) => (k % 3 === 1 ? -value : value)),
          flaps: { left: count.left - column.flaps.left, right: count.right - column.flaps.right },
          after: after ? turned(after) : null,
        };
      })
      .reverse(),
    flat: flat.map((places) => places.map((value, k) => (k % 2 === 0 ? -value : value))).reverse(),
    shear: { ...shear, station: across(shear.station) },
    bend,
  };
}

/** An outline turned end for end, still counter-clockwise. */
function reversed(outline: Float64Array): Float64Array {
  const points = Array.from({ length: outline.length / 2 }, (_, i) => [-outline[2 * i], outline[2 * i + 1]]);
  return Float64Array.from(points.reverse().flat());
}
