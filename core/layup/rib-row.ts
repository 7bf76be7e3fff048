import type { ZoneSpec } from "../project/schema.ts";
import { type Astray, isAstray, mm } from "./adrift.ts";
import { stationOf } from "./anchors.ts";
import { type Interval, spaced, without } from "./intervals.ts";
import { askOf, laidRibs, type NamedRib } from "./laid-ribs.ts";
import { fittingsUnder, overFittings, type Rib, type RibAsk, ribThatBends } from "./rib.ts";
import { around } from "./rim-marks.ts";
import { cornersFor, featureEnds, grownCorners, type Obstacle, stationIn } from "./row-obstacles.ts";
import { materialOf, type Site } from "./site.ts";

type RowSpec = Extract<ZoneSpec, { kind: "rib-row" }>;

/**
 * Lays a row of ribs at a pitch: as many as go between the corners, evenly about the middle of each clear length. One in the way
 * of a fitting or of a feature's end moves within half the pitch, or is left out with a doubt that names what is in its way; one that would
 * be bent too far over the radius at its foot stops above it, with a doubt as well.
 * Numbers count all places of the row, so that one left out does not rename the others.
 */
export function layRibRow(site: Site, spec: RowSpec): ReturnType<typeof laidRibs> | Astray {
  const strip = materialOf(site.project, spec.material, "strip");
  if (isAstray(strip)) return strip;
  const from = stationOf(site, spec.from);
  if (isAstray(from)) return from;
  const to = stationOf(site, spec.to);
  if (isAstray(to)) return to;
  const { length } = site.shell.outline.chain;
  const span = to.station - from.station;
  const whole = { from: from.station, to: from.station + (span > 0 ? span : span + length) };
  const half = strip.width / 2;
  const aside = spec.clear + half;
  const within = (o: Interval) => onTurns(o, whole, length).length > 0;
  const corners = grownCorners(site, cornersFor(site, strip.width).filter(within), aside);
  const clear = without(
    { from: whole.from + half, to: whole.to - half },
    corners.flatMap((corner) => onTurns(widened(corner, aside), whole, length)),
  );
  const row: Row = {
    site,
    spec,
    ask: askOf(site, spec, strip),
    ends: featureEnds(site).flatMap((end) => {
      // Between two treads of one flight the strip needs only to lie flat beside the riser's radius.
      const beside = end.inner ? half + site.shell.spec.radii.step : aside;
      return onTurns(widened(end, beside), whole, length);
    }),
  };
  const places = clear.flatMap((stretch) =>
    spaced(stretch, spec.pitch).map((wanted) => placeNear(row, wanted, stretch)),
  );
  if (places.length === 0) {
    return {
      why: `The row of ${mm(whole.to - whole.from)} has no room between its corners for a strip ${mm(strip.width)} wide kept clear by ${mm(spec.clear)}.`,
      mend: "A smaller clear, or a longer row.",
    };
  }
  parted(places, Math.max(strip.width, spec.pitch / 2), (whole.from + whole.to) / 2);
  const laid = places.flatMap(({ rib }, i): NamedRib[] => (rib ? [{ name: String(i + 1), rib }] : []));
  const missing = places.flatMap(({ rib, why }, i) => (rib ? [] : [`rib ${i + 1} is left out: ${why}`]));
  if (laid.length === 0) {
    return {
      why: `No rib of the row finds a place. The first: ${places[0].why}.`,
      mend: places[0].mend,
    };
  }
  return laidRibs(site, spec, strip, laid, missing);
}

interface Row {
  readonly site: Site;
  readonly spec: RowSpec;
  readonly ask: RibAsk;
  /** Where features end, widened by what a strip's middle keeps off them. */
  readonly ends: readonly Obstacle[];
}

/** One place of the row: its rib, or why there is none. */
interface Place {
  readonly wanted: number;
  station: number;
  rib: Rib | null;
  /** What it would be too near to where it is wanted; empty if nothing. */
  clearOf: string;
  why: string;
  mend: string;
}

/** The rib at the wanted place, or at the nearest clear one within half the pitch on the same stretch. */
function placeNear(row: Row, wanted: number, stretch: Interval): Place {
  const place: Place = { wanted, station: wanted, rib: null, clearOf: "", why: "", mend: "" };
  const low = Math.max(stretch.from, wanted - row.spec.pitch / 2);
  const high = Math.min(stretch.to, wanted + row.spec.pitch / 2);
  const middle = (stretch.from + stretch.to) / 2;
  const others = edgesNear(row, wanted)
    .filter((station) => station >= low && station <= high)
    .sort((a, b) => nearer(a, b, wanted) || nearer(a, b, middle));
  for (const station of [wanted, ...others]) {
    const end = row.ends.find(({ from, to }) => station > from && station < to);
    if (end) {
      place.why ||= tooNear(end.what);
      place.clearOf ||= end.what;
      continue;
    }
    const rib = ribThatBends(row.site, stationIn(station, row.site.shell.outline.chain.length), row.ask);
    if (isAstray(rib)) {
      // Where there is too little wall, beside is no better: the rib is not wanted there.
      place.why ||= rib.why.replace(/\.$/, "");
      place.mend = rib.mend;
      break;
    }
    const under = fittingsUnder(row.site, rib, row.ask, row.spec.clear);
    if (under.length > 0) {
      place.why ||= tooNear(overFittings(under));
      place.clearOf ||= overFittings(under);
      continue;
    }
    const off = Math.abs(station - wanted);
    const moved = off < 0.5 ? [] : [`moved by ${mm(off)}, clear of ${place.clearOf}`];
    return { ...place, station, rib: { ...rib, doubts: [...moved, ...rib.doubts] } };
  }
  place.mend ||= "Another pitch or a smaller clear.";
  return place;
}

const tooNear = (what: string): string => `it would stand too near to ${what}`;

/** Places just beyond whatever may stand in the way near a place. */
function edgesNear({ site, spec, ask, ends }: Row, wanted: number): number[] {
  const { length } = site.shell.outline.chain;
  const fittings = site.keepOuts.flatMap((keepOut) => {
    if (keepOut.on !== "wall") return [];
    const middle = wanted + around(keepOut.station - wanted, length);
    const reach = keepOut.halfWidth + Math.max(keepOut.clearance, spec.clear) + ask.strip.width / 2;
    return [{ from: middle - reach, to: middle + reach }];
  });
  return [...ends, ...fittings].flatMap(({ from, to }) => [from - BEYOND, to + BEYOND]);
}

/** Just beyond, mm. */
const BEYOND = 1e-3;

/** Orders two stations by their distance from a third; those equally far (to 1 µm) are equal. */
function nearer(a: number, b: number, from: number): number {
  const difference = Math.abs(a - from) - Math.abs(b - from);
  return Math.abs(difference) < 2 * BEYOND ? 0 : difference;
}

/** Of two ribs that have moved too near to each other, the one that moved further is left out, or the one further from the middle. */
function parted(places: readonly Place[], least: number, middle: number): void {
  const standing = places.filter((place) => place.rib);
  for (let i = 0; i + 1 < standing.length; ) {
    const [a, b] = [standing[i], standing[i + 1]];
    if (b.station - a.station >= least - 1e-6) {
      i++;
      continue;
    }
    const off = ({ station, wanted }: Place) => Math.abs(station - wanted);
    const far = ({ wanted }: Place) => Math.abs(wanted - middle);
    const out = off(a) > off(b) + 1e-6 || (Math.abs(off(a) - off(b)) <= 1e-6 && far(a) > far(b)) ? a : b;
    out.why = `clear of what is in its way it would stand ${mm(b.station - a.station)} from the next`;
    out.rib = null;
    standing.splice(i + (out === a ? 0 : 1), 1);
    i = Math.max(0, i - 1);
  }
}

const widened = <T extends Interval>(of: T, by: number): T => ({ ...of, from: of.from - by, to: of.to + by });

/** An obstacle on the turns of the rim that a row touches. */
function onTurns<T extends Interval>(obstacle: T, row: Interval, length: number): T[] {
  return [-1, 0, 1, 2]
    .map((turn) => ({ ...obstacle, from: obstacle.from + turn * length, to: obstacle.to + turn * length }))
    .filter(({ from, to }) => to >= row.from && from <= row.to);
}
