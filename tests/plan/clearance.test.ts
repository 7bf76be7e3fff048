import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Chain } from "../../core/plan/chain.ts";
import { outwardClearance } from "../../core/plan/clearance.ts";
import { pointAt } from "../../core/plan/point-at.ts";
import { anyOutline, built } from "./arbitrary-outlines.ts";

/**
 * The slow way: the largest disc that touches the outline at P from outside and holds no other point Q of it inside has radius
 * |PQ|²/(2 n·(Q − P)) at the least such Q (Federer's formula for the reach); the least of these over many P and Q.
 */
function slowReach(chain: Chain): number {
  const evenly = Array.from({ length: 400 }, (_, i) => (i / 400) * chain.length);
  const onEach = chain.segments.flatMap((segment, i) =>
    [0.01, 0.25, 0.5, 0.75, 0.99].map((part) => chain.stations[i] + part * segment.length),
  );
  const points = [...evenly, ...onEach].map((station) => pointAt(chain, station));
  let least = Infinity;
  for (const p of points) {
    for (const q of points) {
      const [dx, dy] = [q.x - p.x, q.y - p.y];
      const ahead = dx * p.ty - dy * p.tx;
      // On a straight stretch there is nothing ahead but rounding.
      if (ahead > 1e-6) least = Math.min(least, (dx * dx + dy * dy) / (2 * ahead));
    }
  }
  return least;
}

const have = (place: ReturnType<typeof outwardClearance>) => place?.have ?? Infinity;
const FAR = 1e6;

describe("how far an outline can be moved", () => {
  test("outwards: agrees with the largest empty discs of many pairs of points", () => {
    fc.assert(
      fc.property(anyOutline, (outline) => {
        const exact = have(outwardClearance(outline, FAR));
        const slow = slowReach(outline.chain);
        // No pair of points can show a smaller disc than there is; enough of them come near it.
        expect(slow).toBeGreaterThanOrEqual(exact === Infinity ? FAR : exact * (1 - 1e-5));
        if (exact < 2000) expect(slow).toBeLessThan(exact * 1.05 + 40);
      }),
      { numRuns: 25, endOnFailure: true },
    );
  });

  test("a convex outline can be moved outwards without end", () => {
    const outline = built({ kind: "rectangle", length: 9100, width: 3800, cornerRadius: 150 });
    expect(outwardClearance(outline, FAR)).toBeNull();
  });

  test("a reflex corner needs the distance as its radius", () => {
    const outline = built({
      kind: "ell",
      ...{ length: 11000, width: 5500, cutLength: 5000, cutWidth: 2000 },
      ...{ cutAt: "deep-right", cornerRadius: 400, reflexRadius: 250 },
    });
    expect(outwardClearance(outline, 250)).toBeNull();
    expect(outwardClearance(outline, 251)).toMatchObject({ where: ["corner-3"], need: 251, have: 250 });
  });

  test("a peninsula between two legs: half its width is all there is", () => {
    // A U: two legs with a tongue of ground 700 mm wide between them.
    const outline = built({
      kind: "polygon",
      points: [
        [0, 0],
        [8000, 0],
        [8000, 2350],
        [3000, 2350],
        [3000, 3050],
        [8000, 3050],
        [8000, 5400],
        [0, 5400],
      ],
      cornerRadius: 340,
    });
    const tight = outwardClearance(outline, 345);
    // The tongue's two reflex corners are tighter still than its half width of 350 mm.
    expect(tight).toMatchObject({ have: 340 });
    expect(outwardClearance(outline, 340)).toBeNull();
    const narrow = built({
      kind: "path",
      start: [0, 0],
      segments: [
        { kind: "line", to: [8000, 0] },
        { kind: "arc", to: [8000, 2000], bulge: 1 },
        { kind: "line", to: [4000, 2000] },
        { kind: "arc", to: [4000, 2600], bulge: -1 },
        { kind: "line", to: [8000, 2600] },
        { kind: "arc", to: [8000, 4600], bulge: 1 },
        { kind: "line", to: [0, 4600] },
        { kind: "arc", to: [0, 0], bulge: 1 },
      ],
    });
    expect(outwardClearance(narrow, 300)).toBeNull();
    const clash = outwardClearance(narrow, 320);
    expect(clash?.have).toBeCloseTo(300, 9);
    expect(clash?.where).toEqual(["segment-3", "segment-5"]);
  });

  test("a kidney's hollow is its tightest place outside", () => {
    const outline = built({
      kind: "freeform",
      points: [
        [0, 0],
        [1500, -2000],
        [4000, -1000],
        [6500, -2000],
        [8000, 0],
        [4000, 1500],
      ],
    });
    const hollow = outwardClearance(outline, FAR)!;
    expect(hollow.where.every((id) => id === "span-2" || id === "span-3")).toBe(true);
  });
});
