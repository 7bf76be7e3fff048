import { expect } from "vitest";
import { type BandPieces, bandPieces } from "../../core/cutting/band-pieces.ts";
import type { Piece } from "../../core/cutting/kit.ts";
import type { LaidBand } from "../../core/layup/laid.ts";
import type { Material, ShopSpec } from "../../core/project/schema.ts";
import { stripArea, unrollStrip } from "../../core/surface/strip.ts";

export const plyOf = (pieces: readonly Piece[], ply: number) => pieces.filter((piece) => piece.ply === ply);

interface Lap {
  readonly from: number;
  readonly to: number;
}

/** The laps of one ply's pieces, from their stations alone: each piece must begin before the one before it ends. */
export function lapsOf(zone: LaidBand, pieces: readonly Piece[]): Lap[] {
  const { closed } = zone.strip;
  const laps: Lap[] = [];
  pieces.forEach((piece, i) => {
    const last = i + 1 === pieces.length;
    if (last && !closed) return;
    const next = last ? pieces[0].fromMm + zone.lengthMm : pieces[i + 1].fromMm;
    // The first piece of a closed ring may run past the end of the stations.
    const shift = Math.round((piece.toMm - next) / zone.lengthMm) * (closed ? zone.lengthMm : 0);
    laps.push({ from: next + shift, to: piece.toMm });
  });
  return laps;
}

type Woven = Material & { readonly kind: "woven" };

/** The pieces of a band of cloth. */
export const cutBand = (zone: LaidBand, shop: ShopSpec): BandPieces =>
  bandPieces(zone, zone.material as Woven, shop);

/** What must hold of the pieces of any band; `doubts` excuse what the shop's own figures make impossible. */
export function checkPieces(zone: LaidBand, shop: ShopSpec, { pieces, doubts } = cutBand(zone, shop)): void {
  const { strip } = zone;
  const { gramsPerM2 } = zone.material as Woven;
  const excused = (word: string) => doubts.some(({ says }) => says.includes(word));
  expect(new Set(pieces.map((piece) => piece.name)).size).toBe(pieces.length);
  let below: number[] = [];
  for (let ply = 1; ply <= zone.plies; ply++) {
    const own = plyOf(pieces, ply);
    const [left, right] = zone.plyWidths[ply - 1];
    const laps = lapsOf(zone, own);
    const areaOf = (from: number, to: number) =>
      stripArea(strip, strip.from + from, strip.from + to, left, right);

    // No gap, nothing twice but the laps.
    if (!strip.closed) {
      expect(own[0].fromMm).toBe(0);
      expect(own[own.length - 1].toMm).toBeCloseTo(zone.lengthMm, 6);
    }
    const whole = own.reduce((sum, piece) => sum + piece.toMm - piece.fromMm, 0);
    const lapped = laps.reduce((sum, lap) => sum + lap.to - lap.from, 0);
    expect(whole - lapped).toBeCloseTo(zone.lengthMm, 6);
    const area = own.reduce((sum, piece) => sum + piece.areaMm2, 0);
    const lapArea = laps.reduce((sum, lap) => sum + areaOf(lap.from, lap.to), 0);
    expect(Math.abs(area - lapArea - zone.plyAreasMm2[ply - 1])).toBeLessThan(1e-9 * area + 1e-3);

    // Every lap is true on all three lines.
    for (const { from, to } of laps) {
      const flat = unrollStrip(strip, strip.from + from, strip.from + to, left, right);
      const least = Math.min(flat.midLengthMm, flat.leftLengthMm, flat.rightLengthMm);
      if (!excused("the lap at")) expect(least).toBeGreaterThan(shop.lap - 1);
    }

    for (const piece of own) {
      const longest = Math.max(piece.midMm, piece.leftEdgeMm, piece.rightEdgeMm);
      expect(piece.midMm).toBeCloseTo(piece.toMm - piece.fromMm, 6);
      if (!excused("handling length")) {
        expect(longest).toBeLessThanOrEqual(shop.handlingLength + 1e-6);
        // And as it is cut: sheared it lies slanting, and trim makes it longer. Outlines are kept to 1e-4 mm.
        expect(piece.lengthMm).toBeLessThanOrEqual(shop.handlingLength + 1e-3);
      }
      expect(piece.glassKg).toBeCloseTo((gramsPerM2 * piece.flatAreaMm2) / 1e9, 12);
    }

    const joints = laps.map((lap) => (lap.from + lap.to) / 2);
    if (!excused("ply below")) {
      for (const joint of joints) {
        for (const other of below) {
          const apart = Math.abs(joint - other) % zone.lengthMm;
          const distance = strip.closed ? Math.min(apart, zone.lengthMm - apart) : apart;
          expect(distance).toBeGreaterThan(shop.jointStagger - 1e-6);
        }
      }
    }
    below = joints;
  }
}
