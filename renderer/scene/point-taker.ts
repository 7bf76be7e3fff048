import type { Aim } from "../tools/tool.ts";

/** Takes places of the shell that are pointed at and clicked in the scene, while it is there: nothing is chosen by them then. */
export interface PointTaker {
  /** Where the pointer is on the shell; null: beside it. */
  point(aim: Aim | null): void;
  click(aim: Aim): void;
}

let taker: PointTaker | null = null;

export const pointTaker = (): PointTaker | null => taker;

/** Hands the scene's places to one taker, until the function that it gives is called. */
export function takePoints(next: PointTaker): () => void {
  taker = next;
  return () => {
    if (taker === next) taker = null;
  };
}
