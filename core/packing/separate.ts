import { type Effort, findPlace } from "./find-place.ts";
import { type Layout, lossOf, type Places, placesOf, put, putAll, totalDepth } from "./layout.ts";
import { type Random, shuffle } from "./random.ts";

/** How long to go on: rounds without a new least overlap, and how often to begin again from it. */
export interface Patience {
  readonly rounds: number;
  readonly strikes: number;
}

/** Weights grow by up to GROW where pieces overlap most, by LEAST where they hardly do, and fade where they do not. */
const GROW = 2;
const LEAST = 1.2;
const FADE = 0.8;

/**
 * Moves overlapping pieces apart within the strip as it is: in each round every overlapping piece in turn to the place of
 * least weighted overlap that is found for it, and the weights of pairs that still overlap are raised, so that stubborn ones
 * give way (guided local search, Voudouris and Tsang, EJOR 113 (1999); for packing Egeblad, Nielsen and Odgaard, EJOR 183
 * (2007); rounds, strikes and weights as in Gardeyn, Vanden Berghe and Wauters, arXiv:2509.13329). Each `next` is a round.
 * Returns whether no overlap is left; otherwise the layout is the one with the least overlap that was seen.
 */
export function* separate(
  layout: Layout,
  patience: Patience,
  effort: Effort,
  random: Random,
): Generator<void, boolean> {
  layout.weight.fill(1);
  let least = totalDepth(layout);
  if (least === 0) return true;
  let best: Places = placesOf(layout);
  for (let strike = 0; strike < patience.strikes; ) {
    const atStart = least;
    for (let idle = 0; idle < patience.rounds; ) {
      moveApart(layout, effort, random);
      const total = totalDepth(layout);
      yield;
      if (total === 0) return true;
      raiseWeights(layout);
      // Only a good part less than before counts as getting on.
      if (total < 0.98 * least) idle = 0;
      else idle++;
      if (total < least) {
        least = total;
        best = placesOf(layout);
      }
    }
    if (least < 0.98 * atStart) strike = 0;
    else strike++;
    putAll(layout, best);
  }
  return false;
}

function moveApart(layout: Layout, effort: Effort, random: Random): void {
  const overlapping: number[] = [];
  for (let p = 0; p < layout.count; p++) if (lossOf(layout, p) > 0) overlapping.push(p);
  for (const p of shuffle(overlapping, random)) {
    const loss = lossOf(layout, p);
    if (loss === 0) continue;
    const found = findPlace(layout, p, effort, random);
    if (found.loss < loss) put(layout, p, found.variant, found.x, found.y);
  }
}

function raiseWeights({ count, depth, weight }: Layout): void {
  let most = 0;
  for (const value of depth) if (value > most) most = value;
  for (let i = 0; i < count * count; i++) {
    if (depth[i] > 0) weight[i] *= LEAST + ((GROW - LEAST) * depth[i]) / most;
    else weight[i] = Math.max(1, weight[i] * FADE);
  }
}
