/** Cutting strips from bars: what is asked and what comes back. Lengths in mm. */

export interface BarDemand {
  /** Name of the piece. */
  readonly id: string;
  /** Cut length, bevels included, above 0, mm. */
  readonly lengthMm: number;
  /** Whole number, 0 or more. */
  readonly quantity: number;
}

export interface BarStock {
  readonly id: string;
  readonly lengthMm: number;
  /** How many there are, a whole number; absent: as many as are wanted. */
  readonly quantity?: number;
  /** Price of one bar, in any currency. All bars that are not remnants have one, or none has. */
  readonly price?: number;
  /** What an earlier lot left over: its ends are good, it costs nothing unless it has a price. */
  readonly remnant?: boolean;
}

export interface BarOptions {
  /** Width of the saw's cut between two pieces, mm. */
  readonly kerfMm: number;
  /** What is cut off each end of a new bar, kerf included, mm. */
  readonly endTrimMm: number;
  /** The shortest rest that is worth keeping, mm. */
  readonly keepFromMm: number;
  /** Most work, in steps of which a machine does some thirty million a second; the answer hangs on nothing else. */
  readonly effort?: number;
  /** Asked often: whether to end with the best plan so far. */
  readonly stop?: () => boolean;
  /** Hears of each better plan or bound, in the plan's measure. */
  readonly onBetter?: (cost: number, bound: number, measure: BarMeasure) => void;
}

/** What a plan is best in: the number of bars of the one length there is, the length of bars taken, or their price. */
export type BarMeasure = "bars" | "mm" | "price";

export interface BarPlan {
  /** Cuts, bars that are cut alike together, by stock. */
  readonly bars: readonly BarCut[];
  readonly use: readonly BarUse[];
  /** Bars that the stock lacks; the plan cuts them all the same, as `lacking`. */
  readonly missing: readonly MissingBars[];
  /** Pieces that are longer than any bar, not in the plan. */
  readonly tooLong: readonly TooLong[];
  readonly measure: BarMeasure;
  /** What the bars of the plan come to in its measure, remnants without a price not counted. */
  readonly cost: number;
  /** No plan with as few missing bars costs less: proved. */
  readonly bound: number;
  /** Rests worth keeping, the longest first. */
  readonly remnants: readonly BarRemnant[];
  readonly lengths: BarLengths;
}

export interface BarCut {
  readonly stock: string;
  readonly lengthMm: number;
  readonly remnant: boolean;
  /** Whether these bars are missing in the stock. */
  readonly lacking: boolean;
  /** How many bars are cut so. */
  readonly times: number;
  /** The pieces, longest first, each with where it begins from the bar's end. */
  readonly cuts: readonly { readonly id: string; readonly lengthMm: number; readonly fromMm: number }[];
  /** Good length that is left. */
  readonly restMm: number;
  /** Whether the rest is worth keeping. */
  readonly keep: boolean;
}

export interface BarUse {
  readonly stock: string;
  readonly lengthMm: number;
  readonly bars: number;
}

export interface MissingBars extends BarUse {
  /** The pieces that cannot be cut for want of them. */
  readonly pieces: readonly { readonly id: string; readonly quantity: number }[];
  readonly says: string;
}

export interface TooLong {
  readonly id: string;
  readonly lengthMm: number;
  readonly quantity: number;
  readonly says: string;
}

export interface BarRemnant {
  readonly lengthMm: number;
  readonly quantity: number;
}

/** Where the length of all bars of a plan goes; the four parts add up to the whole, mm. */
export interface BarLengths {
  readonly barsMm: number;
  readonly piecesMm: number;
  /** End trims and saw cuts. */
  readonly sawMm: number;
  readonly keptMm: number;
  readonly wasteMm: number;
}
