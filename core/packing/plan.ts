import { type Demand, fitsAlone, type GridOrder } from "./demand.ts";
import type { Cut, Marker, MarkerPlan, Missing, Placement, Stock } from "./order.ts";
import { turned } from "./variant.ts";

/** A piece where it lies: the number of its line in the order and of its turn, and its origin. */
export interface Lying {
  readonly demand: number;
  readonly turn: number;
  readonly xMm: number;
  readonly yMm: number;
}

function placementOf(demands: readonly Demand[], { demand, turn, xMm, yMm }: Lying): Placement {
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

/** Pieces on some stock as a marker; `usedMm` is where the last of them ends. */
export function markerOf(
  demands: readonly Demand[],
  { id, widthMm, lengthMm }: Stock,
  usedMm: number,
  lying: readonly Lying[],
  cuts: readonly Cut[] = [],
): Marker {
  return {
    stock: id,
    widthMm,
    lengthMm,
    usedMm,
    areaMm2: lying.reduce((sum, { demand }) => sum + demands[demand].areaMm2, 0),
    placements: lying.map((each) => placementOf(demands, each)),
    cuts,
  };
}

/** The plan of these markers, with what they do not hold listed. */
export function planOf(order: GridOrder, markers: readonly Marker[]): MarkerPlan {
  const placed = new Map<string, number>();
  for (const { placements } of markers)
    for (const { piece } of placements) placed.set(piece, (placed.get(piece) ?? 0) + 1);
  const missing = order.demands.flatMap((demand): Missing[] => {
    const { id, quantity } = demand.piece;
    const lacking = quantity - (placed.get(id) ?? 0);
    if (lacking === 0) return [];
    return [{ piece: id, quantity: lacking, reason: fitsAlone(demand, order) ? "no stock left" : "too big" }];
  });
  return { markers, missing };
}
