import type { Chain } from "../plan/chain.ts";
import type { FootprintSpec } from "../project/schema.ts";
import type { Adjustment } from "./shell.ts";

export interface FootprintAsk {
  readonly place: FootprintSpec;
  /** From the wall into the pool. */
  readonly reach: number;
  /** Further along the run at each free end, for treads that go round the ones above. */
  readonly wrap: number;
  /** Least plan radius of a re-entrant corner of the riser, so that draft and the radius at its foot fit. */
  readonly reentrant: number;
  /** Plan radius that an outward corner of the riser needs, so that the nose of its tread goes round it as it is. */
  readonly outward: number;
  /** A free end nearer than this to the next wall, or to another feature, is carried to it. */
  readonly slot: number;
  /** Footprints of other features: a free end nearer than `slot` to one is carried to it. */
  readonly others: readonly { readonly footprint: Chain; readonly depth: number }[];
  /** Depth of this tread, mm. */
  readonly depth: number;
  /** Name for adjustments, e.g. `bench-1`. */
  readonly name: string;
  /** What the file calls the reach: of a lower tread, its going beyond the treads above, which reach `above` mm. */
  readonly figure: string;
  readonly above: number;
}

export type FootprintResult =
  | {
      readonly ok: true;
      readonly chain: Chain;
      /** Least plan radius of its outward corners, mm. */
      readonly tightest: number;
      readonly adjustments: readonly Adjustment[];
    }
  | {
      readonly ok: false;
      /** The figure that is refused: the reach, or one of the place's own by its path from there, with what stands there. */
      readonly at: "reach" | { readonly field: string; readonly value: unknown };
      readonly why: string;
      /** Null where what would work is to be found by trying. */
      readonly wouldWork: string | null;
    };

/** A reach in the file's own terms: of lower treads, all goings down to there. */
export function ofReach({ figure, above }: FootprintAsk, bound: string, reach: number): string {
  return above > 0
    ? `goings that come to ${bound} ${reach} mm together`
    : `a ${figure} of ${bound} ${reach} mm`;
}

/** A footprint that has been built. */
export const built = (
  chain: Chain,
  tightest = Infinity,
  adjustments: readonly Adjustment[] = [],
): FootprintResult => ({ ok: true, chain, tightest, adjustments });

/** The refusal of an inner edge that does not go round the outline's corners. */
export function noRoom(ask: FootprintAsk): FootprintResult {
  return {
    ok: false,
    at: "reach",
    why: `reaches ${Math.round(ask.reach)} mm, where its inner edge finds no room in the outline's corners`,
    wouldWork: null,
  };
}
