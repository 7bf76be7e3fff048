import { expect, it } from "vitest";
import { checkOutline } from "../cutting/check-outline.ts";
import { checkPieces, cutBand } from "../cutting/check-pieces.ts";
import { layBandBack } from "../cutting/laid-back.ts";
import { randomBands } from "../cutting/random-bands.ts";
import { seedsOf } from "../house/seeds.ts";

const seeds = seedsOf(300);

it(`cuts the bands of ${seeds.length} random shells without a gap, and what is cut lies down where it belongs`, () => {
  const failed: string[] = [];
  let [refused, pieces, unfit, unrolled, sheared] = [0, 0, 0, 0, 0];
  for (const seed of seeds) {
    const found = randomBands(seed);
    if (!found) {
      refused++;
      continue;
    }
    for (const zone of found.bands) {
      try {
        const cut = cutBand(zone, found.shop);
        checkPieces(zone, found.shop, cut);
        // What is told not to lie may lie over itself.
        for (const piece of cut.pieces)
          if (!cut.doubts.some(({ says }) => says.startsWith(`${piece.name}: `))) checkOutline(piece);
        const back = layBandBack(zone, cut);
        pieces += back.pieces;
        unfit += back.unfit;
        unrolled = Math.max(unrolled, back.unrolled);
        sheared = Math.max(sheared, back.sheared);
        failed.push(...back.faults.map((fault) => `seed ${seed}: ${fault}`));
      } catch (error) {
        failed.push(`seed ${seed}, ${zone.id}: ${error instanceof Error ? error.message : error}`);
      }
    }
    if (seed % 5 === 0 || seed === seeds.at(-1))
      console.log(
        `${seed} of ${seeds[0]} to ${seeds.at(-1)} (${refused} refused): ${pieces} pieces, ${unfit} told as unfit; laid back within ` +
          `${unrolled.toFixed(2)} mm unrolled, ${sheared.toFixed(2)} mm sheared; ${failed.length} faults`,
      );
  }
  for (const fault of failed) console.log(fault);
  expect(failed).toEqual([]);
  expect(unfit).toBeLessThan(0.02 * pieces);
});
