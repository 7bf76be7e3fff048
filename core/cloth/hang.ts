import { spanPlace } from "../surface/strip-point.ts";
import { flapsOf } from "./flaps.ts";
import type { Hanging } from "./foretell.ts";
import { MET } from "./join-yarns.ts";
import type { Cut } from "./lattice.ts";
import { type Cloth, type ClothPlace, clothOrigin, locate } from "./locate.ts";
import { Net } from "./net.ts";
import { geodesicYarn } from "./yarn.ts";
import { type ClothZone, zonePoint } from "./zone.ts";

/** Nets over a zone that may be cut: to each side of the warp one a flap, in the order of the line, or one where nothing is cut. */
export interface CutCloth {
  readonly lefts: readonly Net[];
  readonly rights: readonly Net[];
}

/** A net may reach this much further than its zone, mm, and the more so the more it is sheared: yarns then run slanting. */
const MARGIN = 150;
/** Flaps begin at warp and weft yarns this far apart, mm, whatever the spacing of the net, which divides it, and set out
 * as the weft runs over as much to both sides: so a finer net is the same cloth. */
const FEET = 30;
/** A foot this near to a warp yarn is on it, mm. */
const CLOSE = 0.5;
/** Places on the way from the origin to the foot of a flap, mm apart. */
const STRIDE = 20;

/**
 * Hangs cloth over a zone: on two geodesics square to each other, the warp along the line's parallel at the origin and the weft
 * across; every flap beyond the tip of its cuts on a geodesic of its own, which carries on the weft that the body has at its foot. Null where there
 * is no surface.
 */
export function hangCloth(
  zone: ClothZone,
  hanging: Hanging,
  cuts: readonly Cut[],
  spacing: number,
): CutCloth | null {
  const body = hangBody(zone, hanging, spacing);
  if (!body) return null;
  const lefts: Net[] = [];
  const rights: Net[] = [];
  for (const [f, flap] of flapsOf(cuts, zone.from, zone.to).entries()) {
    const sign = flap.side === "left" ? 1 : -1;
    const foot = footAt(zone, body, hanging, hanging.flaps[f], sign * flap.tip);
    if (!foot) return null;
    const net = sign > 0 ? body.left : body.right;
    // A cut that ends beyond the warp parts no more than its own side.
    const hung = hangFlap(zone, net, foot.u, Math.max(0, sign * foot.v));
    if (!hung) return null;
    (sign > 0 ? lefts : rights).push(hung);
  }
  return { lefts: lefts.length > 0 ? lefts : [body.left], rights: rights.length > 0 ? rights : [body.right] };
}

function hangBody(zone: ClothZone, origin: Hanging, spacing: number): Cloth | null {
  const { near } = zone;
  const at = new Float64Array(9);
  if (!zonePoint(zone, spanPlace(zone.strip, origin.station), origin.w, at)) return null;
  const point = at.slice(0, 3);
  const n = at.subarray(3, 6);
  const along = at.slice(6, 9);
  const leftwards = [
    n[1] * along[2] - n[2] * along[1],
    n[2] * along[0] - n[0] * along[2],
    n[0] * along[1] - n[1] * along[0],
  ];
  const warp = geodesicYarn(near, { point, direction: along }, spacing);
  const weft = geodesicYarn(near, { point, direction: leftwards }, spacing);
  if (!warp || !weft) return null;
  const width = zone.left + zone.right;
  const spare = 1.1 + origin.shear;
  const nodes = (length: number) => Math.ceil((spare * length + MARGIN) / spacing);
  const reach = {
    ahead: nodes(zone.to - origin.station + width),
    back: nodes(origin.station - zone.from + width),
    rows: nodes(width + origin.astray),
  };
  const rightwards = { node: (k: number, ...rest: NodeRest) => weft.node(-k, ...rest) };
  return {
    left: new Net(near, warp, weft, 1, spacing, reach, true),
    right: new Net(near, warp, rightwards, -1, spacing, reach, true),
  };
}

type NodeRest = [points: Float64Array, normals: Float64Array, at: number];

/** The place in the body's cloth of a point of the zone, found by walking there from the origin: along the zone, then across. */
function footAt(
  zone: ClothZone,
  body: Cloth,
  origin: Hanging,
  station: number,
  w: number,
): ClothPlace | null {
  const place = clothOrigin();
  const point = new Float64Array(9);
  const steps = Math.ceil(Math.max(Math.abs(station - origin.station), Math.abs(w - origin.w)) / STRIDE);
  for (let step = 1; step <= 2 * steps; step++) {
    const along = Math.min(1, step / steps);
    const across = Math.max(0, step / steps - 1);
    const s = origin.station + along * (station - origin.station);
    if (!zonePoint(zone, spanPlace(zone.strip, s), origin.w + across * (w - origin.w), point)) return null;
    if (locate(body, point, 0, place) !== MET.yes) return null;
  }
  return place;
}

/**
 * The flap of a net from the first warp yarn beyond its foot on, hung on the geodesic that carries on the weft nearest to the foot. What lies between
 * foot and yarn is the body's still, on both sides of the cut alike.
 */
function hangFlap(zone: ClothZone, net: Net, u: number, v: number): Net | null {
  const each = Math.round(FEET / net.spacing);
  const row = each * Math.max(0, Math.ceil((v - CLOSE) / FEET));
  const column = each * Math.round(u / FEET);
  const below = Math.max(0, row - each);
  const above = row + each;
  if (net.ask(column, above) !== MET.yes || net.ask(column, below) !== MET.yes) return null;
  const node = net.index(column, row);
  const [low, high] = [net.index(column, below), net.index(column, above)];
  const weft = geodesicYarn(
    zone.near,
    {
      point: net.points.slice(node, node + 3),
      direction: [0, 1, 2].map((k) => net.points[high + k] - net.points[low + k]),
    },
    net.spacing,
  );
  return weft && net.flap(row, column, weft);
}
