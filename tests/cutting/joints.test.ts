import { expect, test } from "vitest";
import { divide, type Joint, type JointRules } from "../../core/cutting/joints.ts";
import type { Ruler } from "../../core/cutting/ruler.ts";

/** A straight zone. */
const straight = (length: number, closed = false): Ruler => {
  const stations = Float64Array.of(0, length / 2, length);
  return { stations, lines: [stations], length, closed };
};
const rules: JointRules = {
  longest: 2500,
  lap: 50,
  stagger: 150,
  below: [],
  awkward: () => 0,
};
const piecesOf = (joints: readonly Joint[], length: number) => [
  ...joints.map(({ to }, i) => [i > 0 ? joints[i - 1].from : 0, to]),
  [joints.at(-1)?.from ?? 0, length],
];

test("no piece passes what cloth will not lie over, and there are no more pieces than that asks for", () => {
  // A corner at 3000 mm, over which no piece longer than 800 mm lies.
  const lies = (from: number, to: number) => from > 3000 || to < 3000 || to - from <= 800;
  const { joints } = divide(straight(6000), { ...rules, lies });
  const pieces = piecesOf(joints, 6000);
  for (const [from, to] of pieces) expect(lies(from, to), `${from} to ${to}`).toBe(true);
  expect(pieces).toHaveLength(4);
});

test("what lies nowhere is one piece, and no joint is wasted on it", () => {
  const { joints } = divide(straight(4000), { ...rules, lies: (from, to) => from > 3000 || to < 3000 });
  expect(joints).toHaveLength(1);
});

test("joints keep clear of those below; where they cannot, one comes as near as it must and no other", () => {
  const below = divide(straight(6000), rules).joints;
  const clear = (joints: readonly Joint[]) =>
    joints.map(({ at }) => Math.min(...below.map((other) => Math.abs(other.at - at))));
  for (const clearance of clear(divide(straight(6000), { ...rules, below }).joints))
    expect(clearance).toBeGreaterThanOrEqual(150);
  // Here a joint must stand within 50 mm of the first below, and may stand anywhere else.
  const at = below[0].at;
  const lies = (from: number, to: number) => from > at - 60 || to < at + 60;
  const near = clear(divide(straight(6000), { ...rules, below, lies }).joints).filter((each) => each < 150);
  expect(near).toHaveLength(1);
  expect(near[0]).toBeLessThan(60);
});

test("a piece that was found stays where that costs next to nothing", () => {
  const { joints } = divide(straight(6000), rules);
  const [first] = piecesOf(joints, 6000);
  const moved = joints[0].to - 80;
  const isFound = (from: number, to: number) => from === 0 && Math.abs(to - moved) < 20;
  expect(divide(straight(6000), { ...rules, isFound }).joints[0].to).toBeLessThan(first[1]);
});
