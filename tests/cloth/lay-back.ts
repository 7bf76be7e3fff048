import type { Fit } from "../../core/cloth/fit.ts";
import { hangCloth } from "../../core/cloth/hang.ts";
import { MET } from "../../core/cloth/join-yarns.ts";
import type { Net } from "../../core/cloth/net.ts";
import { type ClothZone, zonePoint } from "../../core/cloth/zone.ts";

/** How far cut cloth comes to lie from the points that it was cut for, mm: of all points, and of those on the zone's boundary. */
export interface LaidBack {
  readonly inside: number;
  readonly boundary: number;
  /** Points that finer cloth could not be had for. */
  readonly missing: number;
}

/**
 * Lays flat cloth back on the surface: hangs it there once more as a net several times finer and looks where every flat place of a drape comes to
 * lie. Nothing of how places are found in cloth has a part in it.
 */
export function layBack(zone: ClothZone, fit: Fit, spacing: number): LaidBack {
  const cloth = hangCloth(zone, fit.hanging, fit.cuts, spacing);
  if (!cloth) throw new Error("No finer cloth could be hung.");
  const { columns, flat } = fit.drape;
  const wanted = new Float64Array(9);
  const found = new Float64Array(3);
  let [inside, boundary, missing] = [0, 0, 0];
  columns.forEach(({ ws, place, flaps }, c) => {
    const nets = [cloth.lefts[flaps.left], cloth.rights[flaps.right]];
    ws.forEach((w, k) => {
      if (!zonePoint(zone, place, w, wanted)) throw new Error("The zone has no surface.");
      const v = flat[c][2 * k + 1];
      const net = v >= 0 ? nets[0] : nets[1];
      if (!pointOn(net, flat[c][2 * k], Math.abs(v), found)) {
        missing++;
        return;
      }
      const off = Math.hypot(found[0] - wanted[0], found[1] - wanted[1], found[2] - wanted[2]);
      inside = Math.max(inside, off);
      const isEdge = k === 0 || k === ws.length - 1 || c === 0 || c === columns.length - 1;
      if (isEdge) boundary = Math.max(boundary, off);
    });
  });
  return { inside, boundary, missing };
}

/** The point of a net at yarn lengths u, v ≥ 0 from its origin: between the four nodes of its cell. */
function pointOn(net: Net, u: number, v: number, out: Float64Array): boolean {
  const h = net.spacing;
  const [i, j] = [Math.floor(u / h), Math.floor(v / h)];
  const [s, t] = [u / h - i, v / h - j];
  const corners = [
    [i, j, (1 - s) * (1 - t)],
    [i + 1, j, s * (1 - t)],
    [i, j + 1, (1 - s) * t],
    [i + 1, j + 1, s * t],
  ] as const;
  out.fill(0);
  for (const [x, y, weight] of corners) {
    if (net.ask(x, y) !== MET.yes) return false;
    const at = net.index(x, y);
    for (let k = 0; k < 3; k++) out[k] += weight * net.points[at + k];
  }
  return true;
}
