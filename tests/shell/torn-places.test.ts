import { expect, test } from "vitest";
import { startingShop } from "../../core/project/defaults.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import { randomShell } from "./random-shell.ts";
import { roughestTrack } from "./smoothness.ts";

interface Place {
  readonly seed: number;
  readonly at: readonly [number, number, number];
  readonly why: string;
}

/** Places of random shells where the field once was torn or kinked, and why. */
const places: readonly Place[] = [
  { seed: 258, at: [21, 1626, -232], why: "a tread against a corner that grows" },
  { seed: 337, at: [105, 1533, -199], why: "a tread against a corner that grows" },
  { seed: 178, at: [8983, -1173, -429], why: "a seat against a corner that grows" },
  { seed: 184, at: [9577, 1039, -1640], why: "a seat against a bench round a corner" },
  { seed: 97, at: [398, -455, -530], why: "a ball out of a valley over two noses" },
  { seed: 235, at: [4404, 992, -319], why: "a ball out of a valley over two noses" },
  { seed: 372, at: [955, 1760, -676], why: "a ball out of a valley over two noses" },
  { seed: 259, at: [733, -1200, -536], why: "a ball along a nose round a tight end" },
  {
    seed: 776,
    at: [4085, 1104, -259],
    why: "a ball out of a valley between a riser and the wall",
  },
  { seed: 34, at: [7997, 1239, -550], why: "a ball out of a valley over two noses" },
];

/** The lay-up surface: what is laid before the reinforcement as shops begin with, mm. */
const OUT = startingShop.laidThickness;

test.each(places)("seed $seed is whole at $at: $why", ({ seed, at }) => {
  const built = buildShell(randomShell(seed));
  if (!built.ok) throw new Error(`seed ${seed} was refused`);
  const field = built.shell.field.within(at[0], at[1], at[2], 250, 250);
  for (const offset of [0, OUT]) {
    const rough = roughestTrack(field, 11, 25, at, 60, offset);
    expect(rough.seen).toBeGreaterThan(100);
    expect(rough.tear, JSON.stringify(rough)).toBeLessThan(0.1);
    expect(rough.kink, JSON.stringify(rough)).toBeLessThan(Math.PI / 180);
  }
});
