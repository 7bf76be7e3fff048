import { fc, test } from "@fast-check/vitest";
import { describe, expect } from "vitest";
import { roomiestPlace } from "../../../core/sheets/paper/roomiest.ts";

/** A star round 0 0, never crossing itself. */
const star = fc
  .array(fc.double({ min: 20, max: 500, noNaN: true }), { minLength: 3, maxLength: 14 })
  .map((radii) =>
    radii.flatMap((radius, i) => {
      const turn = (2 * Math.PI * i) / radii.length;
      return [radius * Math.cos(turn), radius * Math.sin(turn)];
    }),
  );

/** Crossings of a level line to the right, counted: a slow and obvious check. */
function isInside(ring: readonly number[], x: number, y: number): boolean {
  let crossings = 0;
  for (let i = 0; i < ring.length; i += 2) {
    const [ax, ay] = [ring[i], ring[i + 1]];
    const [bx, by] = [ring[(i + 2) % ring.length], ring[(i + 3) % ring.length]];
    if (ay > y !== by > y && ax + ((bx - ax) * (y - ay)) / (by - ay) > x) crossings++;
  }
  return crossings % 2 === 1;
}

describe("the roomiest place", () => {
  test.prop([star])("lies inside, and so do words as long as it says", (ring) => {
    const place = roomiestPlace(ring);
    expect(place).not.toBeNull();
    if (place === null) return;
    const { x, y, width, height } = place;
    for (let i = -9; i <= 9; i++) {
      expect(isInside(ring, x + (width * i) / 20, y)).toBe(true);
      expect(isInside(ring, x, y + (height * i) / 20)).toBe(true);
    }
  });

  test("in a band that goes round a corner is in one of its legs, not in the hollow", () => {
    const place = roomiestPlace([0, 0, 1000, 0, 1000, 100, 100, 100, 100, 900, 0, 900]);
    expect(place?.y).toBeLessThan(100);
    expect(place?.width).toBe(1000);
  });

  test("of what has no area is none", () => {
    expect(roomiestPlace([0, 0, 10, 0, 20, 0])).toBeNull();
  });
});
