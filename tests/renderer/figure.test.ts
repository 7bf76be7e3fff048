import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { count, degrees, mm, part } from "../../core/project/figures.ts";
import { measureOf, printFigure, readFigure, steppedTo } from "../../renderer/parts/figure.ts";

const length = measureOf(mm(-20000, 20000));
const angle = measureOf(degrees(0, 10));
const share = measureOf(part());
const plies = measureOf(count(1, 8));
const value = (reading: ReturnType<typeof readFigure>) => (reading.ok ? reading.value : reading.problem);

describe("figures in their fields", () => {
  test("a length is read in the unit that is shown, in any other, and as a sum", () => {
    expect(value(readFigure("7900", length, "mm"))).toBe(7900);
    expect(value(readFigure("7.9", length, "m"))).toBe(7900);
    expect(value(readFigure("3800-150", length, "mm"))).toBe(3650);
    // 24 ft 6 1/2 in = 294.5 in of 25.4 mm.
    expect(value(readFigure(`24' 6 1/2"`, length, "mm"))).toBeCloseTo(294.5 * 25.4, 9);
    expect(value(readFigure("24ft 6.5in", length, "m"))).toBeCloseTo(294.5 * 25.4, 9);
    expect(value(readFigure("6", length, "in"))).toBeCloseTo(152.4, 9);
  });

  test("what is printed in millimetres is read back to the last thousandth, fractions and all", () => {
    fc.assert(
      fc.property(fc.integer({ min: -20_000_000, max: 20_000_000 }), (thousandths) => {
        const figure = thousandths / 1000;
        expect(value(readFigure(printFigure(figure, length, "mm"), length, "mm"))).toBeCloseTo(figure, 9);
      }),
    );
  });

  test("what is printed in feet and inches is read back within a thirty-second of an inch", () => {
    fc.assert(
      fc.property(fc.double({ min: -20_000, max: 20_000, noNaN: true }), (figure) => {
        const read = readFigure(printFigure(figure, length, "ft-in"), length, "ft-in");
        expect(read.ok && Math.abs(read.value - figure)).toBeLessThanOrEqual(25.4 / 32 + 1e-6);
      }),
    );
  });

  test("angles, parts and counts come with their signs and take simple sums", () => {
    expect(printFigure(2.5, angle, "mm")).toBe("2.5°");
    expect(value(readFigure("2.5°", angle, "mm"))).toBe(2.5);
    expect(value(readFigure("3 - 0.5 deg", angle, "mm"))).toBe(2.5);
    expect(printFigure(0.351, share, "mm")).toBe("35.1 %");
    expect(printFigure(0.83635, share, "mm")).toBe("83.6 %");
    expect(printFigure(1, share, "mm")).toBe("100 %");
    expect(value(readFigure("35.1 %", share, "mm"))).toBe(0.351);
    expect(value(readFigure("50-15", share, "mm"))).toBe(0.35);
    expect(value(readFigure("2", plies, "mm"))).toBe(2);
  });

  test.each(["", "wide", "3..5", "4,5", "1e3", "--2", "3 4"])(
    "%j is no number, and the answer says what is",
    (text) => {
      const reading = readFigure(text, angle, "mm");
      expect(reading.ok).toBe(false);
      expect(value(reading)).toContain("Write for example");
    },
  );

  test("steps land on whole steps and stay within the limits", () => {
    expect(steppedTo(7904, length, false)).toBe(7900);
    expect(steppedTo(7904.4, length, true)).toBe(7904);
    expect(steppedTo(99_999, length, false)).toBe(20_000);
    expect(steppedTo(0.3, plies, true)).toBe(1);
    expect(steppedTo(0.1 + 0.2, share, false)).toBe(0.3);
  });
});
