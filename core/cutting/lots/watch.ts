import type { Cost } from "../../packing/cost.ts";

/** Who waits for a lot: hears what is being done, and may ask for what there is by now. */
export interface Watch {
  readonly onStage: (stage: string) => void;
  /** Hears again and again what is being worked on just now. */
  readonly onPart: (part: string) => void;
  /** Hears of each better plan of a material. */
  readonly onBetter: (better: Better) => void;
  /** Asked often: whether to end the piece of work at hand with the best so far. */
  readonly stop: () => boolean;
}

/** A plan that is better than those before it. */
export interface Better {
  readonly material: string;
  /** What it takes, in words: `43.1 m of roll`. */
  readonly takes: string;
  readonly cost: Cost;
}

/** Nobody waits. */
export const unwatched: Watch = {
  onStage: () => {},
  onPart: () => {},
  onBetter: () => {},
  stop: () => false,
};
