import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { covered, spaced, without } from "../../core/layup/intervals.ts";

const interval = fc
  .tuple(fc.integer({ min: -50, max: 150 }), fc.integer({ min: 0, max: 60 }))
  .map(([from, length]) => ({ from, to: from + length }));
const whole = { from: 0, to: 100 };

describe("stretches of a line", () => {
  it("without others and their cover agree with counting millimetre by millimetre", () => {
    fc.assert(
      fc.property(fc.array(interval, { maxLength: 8 }), (taken) => {
        const isTaken = (at: number) => taken.some(({ from, to }) => from < at && at < to);
        const left = without(whole, taken);
        const middles = Array.from({ length: 100 }, (_, i) => i + 0.5);
        for (const at of middles)
          expect(left.some(({ from, to }) => from < at && at < to)).toBe(!isTaken(at));
        expect(covered(whole, taken)).toBe(middles.filter(isTaken).length);
        left.slice(1).forEach(({ from }, i) => {
          expect(from).toBeGreaterThan(left[i].to);
        });
      }),
    );
  });

  it("hold as many places at a pitch as go in, evenly", () => {
    expect(spaced({ from: 0, to: -1 }, 10)).toEqual([]);
    expect(spaced({ from: 4, to: 4 }, 10)).toEqual([4]);
    expect(spaced({ from: 0, to: 9 }, 10)).toEqual([4.5]);
    expect(spaced({ from: 0, to: 24 }, 10)).toEqual([2, 12, 22]);
    expect(spaced({ from: 0, to: 30 }, 10)).toEqual([0, 10, 20, 30]);
  });
});
