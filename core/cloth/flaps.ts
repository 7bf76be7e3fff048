import type { Cut } from "./lattice.ts";

/** Cloth between two cuts of one side, or between a cut and an end of the zone. */
export interface Flap {
  readonly side: Cut["side"];
  readonly from: number;
  readonly to: number;
  /** From this distance of the line on it hangs by itself: that of the shallower of its cuts, mm ≥ 0. */
  readonly tip: number;
}

/** The flaps that cuts (of each side in the order of their stations) make of a zone: none on a side without cuts. */
export function flapsOf(cuts: readonly Cut[], from: number, to: number): Flap[] {
  return (["left", "right"] as const).flatMap((side) => {
    const own = cuts.filter((cut) => cut.side === side);
    if (own.length === 0) return [];
    return Array.from({ length: own.length + 1 }, (_, k) => ({
      side,
      from: k > 0 ? own[k - 1].station : from,
      to: k < own.length ? own[k].station : to,
      tip: Math.max(k > 0 ? own[k - 1].tip : 0, k < own.length ? own[k].tip : 0),
    }));
  });
}

/** Whether cloth so far to the left of the line belongs to a flap, not to the body. */
export const inFlap = ({ side, tip }: Flap, w: number): boolean => (side === "left" ? w > tip : w < -tip);
