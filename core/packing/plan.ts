import { type Demand, fitsAlone } from "./demand.ts";
import type { Marker, MarkerOrder, MarkerPlan, Missing, Placement } from "./order.ts";
import { turned } from "./variant.ts";

/** A piece where it lies: the number of its line in the order and of its turn, and its origin. */
export interface Lying {
  readonly demand: number;
  readonly turn: number;
  readonly xMm: number;
  readonly yMm: number;
}

/** A piece on its stock, for the plan. */
export function placementOf(demands: readonly Demand[], { demand, turn, xMm, yMm }: Lying): Placement {
  const { piece, outline, turns } = demands[demand];
  const { quarters, mirrored } = turns[turn];
  const ring = turned(outline, turns[turn]);
  if (mirrored) turnRound(ring);
  for (let i = 0; i < ring.length; i += 2) {
    ring[i] += xMm;
    ring[i + 1] += yMm;
  }
  return {
    piece: piece.id,
    turnDeg: ([0, 90, 180, 270] as const)[quarters],
    mirrored,
    xMm,
    yMm,
    outline: ring,
  };
}

/** The other way round, in place: turned over, an outline runs clockwise. */
function turnRound(ring: Float64Array): void {
  for (let i = 0, j = ring.length - 2; i < j; i += 2, j -= 2) {
    [ring[i], ring[j]] = [ring[j], ring[i]];
    [ring[i + 1], ring[j + 1]] = [ring[j + 1], ring[i + 1]];
  }
}

/** The plan of these markers, with what they do not hold listed. */
export function planOf(
  order: MarkerOrder,
  demands: readonly Demand[],
  markers: readonly Marker[],
): MarkerPlan {
  const placed = new Map<string, number>();
  for (const { placements } of markers)
    for (const { piece } of placements) placed.set(piece, (placed.get(piece) ?? 0) + 1);
  const missing = demands.flatMap((demand): Missing[] => {
    const quantity = demand.piece.quantity - (placed.get(demand.piece.id) ?? 0);
    if (quantity === 0) return [];
    const fits = fitsAlone(demand, order.stock, order.marginMm);
    return [{ piece: demand.piece.id, quantity, reason: fits ? "no stock left" : "too big" }];
  });
  return { markers, missing };
}
