import type { Material, ZoneSpec } from "../project/schema.ts";
import { cutCurve } from "../surface/cut-curve.ts";
import { offsetLength, type Section } from "../surface/section.ts";
import { type Astray, isAstray, mm } from "./adrift.ts";
import { joinSections } from "./join-sections.ts";
import { called, type KeepOut, liesOver } from "./keep-outs.ts";
import type { LaidRib } from "./laid.ts";
import { march } from "./march.ts";
import { shareAt, shareEdge, spanLeaving, WHOLE } from "./share-edge.ts";
import type { Site } from "./site.ts";
import type { WallSection } from "./wall-section.ts";

export type Strip = Extract<Material, { kind: "strip" }>;
type Foot = Extract<ZoneSpec, { kind: "rib" }>["foot"];

export interface RibAsk {
  /** Distance down the surface from the rim to the rib's top, mm. */
  readonly top: number;
  readonly foot: Foot;
  readonly strip: Strip;
  /** How far a bevelled end runs out beyond the strip's full thickness, mm. */
  readonly bevelMm: number;
}

export interface Rib extends Omit<LaidRib, "name"> {
  readonly doubts: readonly string[];
}

/** How far a bevelled end runs out: thickness / tan(angle between the cut and the surface), mm. */
export const bevelOf = (strip: Strip, bevelDeg: number): number =>
  bevelDeg >= 90 ? 0 : strip.thickness / Math.tan((bevelDeg * Math.PI) / 180);

/**
 * A rib down the outside of the wall at one rim station, or why there is none.
 *
 * `top` and the foot bound the strip's full thickness; its bevelled ends run out beyond them. What is cut is therefore the length
 * at mid-core between the two, ∫(1 + κh) ds with h half the thickness (the strip lies on the ground side, so a cove makes it
 * longer), and a bevel at each end.
 */
export function ribAt(site: Site, station: number, ask: RibAsk): Rib | Astray {
  const wall = site.wallAt(station);
  if (isAstray(wall)) return wall;
  const { strip, top } = ask;
  const below = site.shell.faces[wall.below].id;
  const high = wall.plainTo - (ask.foot.kind === "to" ? ask.foot.clear : 0) - top;
  if (high < strip.width) {
    return {
      why:
        `From ${mm(top)} below the rim the wall leaves ${mm(Math.max(0, high))} for the rib above ${below}, ` +
        `less than the strip's width of ${mm(strip.width)}.`,
      mend: "A higher top, a deeper tread or ledge below it, or no rib here.",
    };
  }
  const doubts: string[] = [];
  if (top - ask.bevelMm < wall.plainFrom - 0.5) {
    const least = leastTop(site, station, ask.bevelMm);
    doubts.push(`the upper bevel lies on the rim's radius: a top of ${mm(least)} or more clears it`);
  }
  let whole = wall.curve;
  let end = wall.plainTo;
  if (ask.foot.kind === "to") end -= ask.foot.clear;
  else {
    const run = runOnto(site, wall, ask.foot.onto + ask.bevelMm);
    if (isAstray(run)) return run;
    whole = run.curve;
    end = wall.footEnd + Math.min(ask.foot.onto, Math.max(0, run.plain - ask.bevelMm));
    if (end < wall.footEnd + ask.foot.onto - 0.5) {
      doubts.push(
        `the foot runs ${mm(end - wall.footEnd)} onto ${below} instead of ${mm(ask.foot.onto)}, where the plain part ends`,
      );
    }
  }
  const leastBendMm = leastBend(whole, top, end, strip.thickness);
  if (isTooStiff(strip, leastBendMm)) doubts.push(bentBeyond(strip, leastBendMm));
  return {
    curve: cutCurve(whole, top, end),
    surfaceLengthMm: end - top,
    cutLengthMm: offsetLength(whole, strip.thickness / 2, top, end) + 2 * ask.bevelMm,
    rimStationMm: station,
    topDownMm: top,
    footDownMm: end,
    leastBendMm,
    doubts,
  };
}

const isTooStiff = (strip: Strip, bendMm: number): boolean => bendMm < strip.bendRadius - 0.5;

const bentBeyond = (strip: Strip, bendMm: number): string =>
  `bent to ${mm(bendMm)}, and ${strip.name} bends to ${mm(strip.bendRadius)} at the least`;

/**
 * A rib that can be laid: as `ribAt`, but where the strip does not bend to the radius at the foot it stops above it, with its bevelled end
 * off it, and says so. A row that runs past a ledge has ribs of both kinds.
 */
export function ribThatBends(site: Site, station: number, ask: RibAsk): Rib | Astray {
  const rib = ribAt(site, station, ask);
  if (isAstray(rib) || ask.foot.kind === "to" || !isTooStiff(ask.strip, rib.leastBendMm)) return rib;
  const wall = site.wallAt(station);
  const stopped = ribAt(site, station, { ...ask, foot: { kind: "to", clear: Math.ceil(ask.bevelMm) } });
  if (isAstray(wall) || isAstray(stopped)) return stopped;
  const below = site.shell.faces[wall.below].id;
  const why = `stopped above ${below}: over its radius it would be ${bentBeyond(ask.strip, rib.leastBendMm)}`;
  return { ...stopped, doubts: [...stopped.doubts, why] };
}

/** Whether a rib ends on the wall itself, above the radius at its foot. */
export function stopsOnWall(
  site: Site,
  { rimStationMm, footDownMm }: Pick<Rib, "rimStationMm" | "footDownMm">,
): boolean {
  const wall = site.wallAt(rimStationMm);
  return !isAstray(wall) && footDownMm <= wall.plainTo;
}

/** The least top, in whole mm, with which a rib's upper bevel is clear of the rim's radius. */
export function leastTop(site: Site, station: number, bevelMm: number): number {
  const wall = site.wallAt(station);
  return isAstray(wall) ? 0 : Math.ceil(wall.plainFrom + bevelMm);
}

/**
 * The wall's section carried on over the face below to `length` mm past the foot's radius, and how far past it that face is
 * plain: `length` or less.
 */
function runOnto(site: Site, wall: WallSection, length: number): { curve: Section; plain: number } | Astray {
  const { near, reader } = site;
  const { footEnd, plane, below } = wall;
  let { curve } = wall;
  const more = footEnd + length - curve.length;
  if (more > 0) {
    const last = 3 * (curve.stations.length - 1);
    const direction = curve.tangents.subarray(last, last + 3);
    const end = curve.points.subarray(last, last + 3);
    const on = march(reader.field, plane, end, { direction, stepMm: 150, lengthMm: more });
    if (!on || on.stations.length < 2) {
      return {
        why: `Below the wall at ${mm(wall.station)} along the rim the surface was lost.`,
        mend: "Move the rib along the rim.",
      };
    }
    curve = joinSections(curve, on);
  }
  const from = curve.stations.findIndex((station) => station > footEnd + 1e-6);
  if (from < 0) return { curve, plain: 0 };
  const { stations } = curve;
  const whole = shareAt(curve, near, below, stations[from]) >= WHOLE;
  const span = whole ? spanLeaving(curve, near, below, from) : null;
  const [inside, outside] = span ? [stations[span[0]], stations[span[1]]] : [footEnd, stations[from]];
  const end = whole && !span ? curve.length : shareEdge(curve, near, below, inside, outside);
  return { curve, plain: Math.min(length, end - footEnd) };
}

/**
 * The tightest radius to which a strip on the ground side of a section bends between two stations, mm, at the side that
 * is pressed together: over a cove that lies on the surface, in the hollow behind a nose it is the strip's other side.
 */
function leastBend(curve: Section, from: number, to: number, thickness: number): number {
  let least = Infinity;
  for (let i = 1; i < curve.stations.length; i++) {
    const length = curve.stations[i] - curve.stations[i - 1];
    const turn = curve.turning[i] - curve.turning[i - 1];
    if (curve.stations[i - 1] >= to - 1e-6 || curve.stations[i] <= from + 1e-6) continue;
    if (Math.abs(turn) < 1e-4) continue;
    least = Math.min(least, turn > 0 ? length / turn : Math.max(0, -length / turn - thickness));
  }
  return least;
}

/** The fittings whose keep-out area a rib would lie on; `clear` mm from the fitting is kept if its own clearance is less. */
export function fittingsUnder(site: Site, rib: Rib, ask: RibAsk, clear: number): KeepOut[] {
  const half = ask.strip.width / 2;
  const { points, stations } = rib.curve;
  return site.keepOuts.filter((keepOut) => {
    const beyond = Math.max(keepOut.clearance, clear);
    if (keepOut.on === "wall") {
      // Along the wall the strip's edges count, down the wall its bevelled ends: the two stretches must both overlap.
      const first = points[2];
      const last = points[points.length - 1];
      const depth = -keepOut.depth;
      const high = first + ask.bevelMm > depth - keepOut.halfHeight - beyond;
      const low = last - ask.bevelMm < depth + keepOut.halfHeight + beyond;
      return high && low && liesOver(keepOut, points[0], points[1], depth, beyond + half);
    }
    for (let i = 0; i < stations.length; i++)
      if (liesOver(keepOut, points[3 * i], points[3 * i + 1], points[3 * i + 2], beyond + half)) return true;
    return false;
  });
}

export const overFittings = (under: readonly KeepOut[]): string => under.map(called).join(" and ");
