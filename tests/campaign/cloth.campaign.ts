import { expect, it } from "vitest";
import { automaticLayup } from "../../core/layup/house-rules.ts";
import type { LaidBand } from "../../core/layup/laid.ts";
import { layUp, transitionsOf } from "../../core/layup/lay-up.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { checkOutline } from "../cutting/check-outline.ts";
import { checkPieces, cutBand } from "../cutting/check-pieces.ts";
import { layBandBack } from "../cutting/laid-back.ts";
import { seedCount } from "../house/seeds.ts";
import { randomShell } from "../shell/random-shell.ts";

const seeds = seedCount(300);

it(`cuts the bands of ${seeds} random shells without a gap, and what is cut lies down where it belongs`, () => {
  const failed: string[] = [];
  let [refused, pieces, unfit, unrolled, sheared] = [0, 0, 0, 0, 0];
  for (let seed = 1; seed <= seeds; seed++) {
    const built = buildShell(randomShell(seed));
    if (!built.ok) {
      refused++;
      continue;
    }
    const bare = { ...defaultProject(), shell: built.shell.spec };
    const transitions = transitionsOf(bare, built.shell);
    const project = { ...bare, layup: automaticLayup(bare, built.shell, transitions) };
    const { zones } = layUp(project, built.shell, { transitions });
    for (const zone of zones.filter((each): each is LaidBand => "strip" in each)) {
      try {
        const cut = cutBand(zone, project.shop);
        checkPieces(zone, project.shop, cut);
        for (const piece of cut.pieces) checkOutline(piece);
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
    if (seed % 5 === 0 || seed === seeds)
      console.log(
        `${seed} of ${seeds} (${refused} refused): ${pieces} pieces, ${unfit} told as unfit; laid back within ` +
          `${unrolled.toFixed(2)} mm unrolled, ${sheared.toFixed(2)} mm sheared; ${failed.length} faults`,
      );
  }
  for (const fault of failed) console.log(fault);
  expect(failed).toEqual([]);
  expect(unfit).toBeLessThan(0.02 * pieces);
});
