import { expect, test } from "vitest";
import { InkLines } from "../../renderer/scene/ink/ink-line.ts";

/** Triangles that are drawn, as the ends that their corners hold and the corners themselves. */
function drawn(ink: InkLines) {
  const { start, count } = ink.geometry.drawRange;
  const index = ink.geometry.getIndex();
  const from = ink.geometry.getAttribute("start");
  const to = ink.geometry.getAttribute("end");
  if (!index) throw new Error("Ink without an index.");
  return Array.from(index.array.slice(start, start + count), (v) => ({
    ends: [from.getX(v), from.getY(v), from.getZ(v), to.getX(v), to.getY(v), to.getZ(v)],
    corner: v % 4,
  }));
}

test("each segment is two triangles over its four corners, which all hold both of its ends", () => {
  const ink = new InkLines(1, 0);
  const segments = Float32Array.from({ length: 6 * 5 }, (_, i) => i);
  ink.draw(segments);
  const corners = drawn(ink);
  expect(corners).toHaveLength(6 * 5);
  corners.forEach(({ ends }, i) => {
    const own = Math.floor(i / 6);
    expect(ends).toEqual(Array.from(segments.subarray(6 * own, 6 * own + 6)));
  });
  expect(corners.slice(0, 6).map(({ corner }) => corner)).toEqual([0, 2, 1, 1, 2, 3]);
});

test("fewer segments than before, or the first few of an array, leave nothing of the others", () => {
  const ink = new InkLines(1, 0);
  ink.draw(new Float32Array(6 * 40).fill(7));
  ink.draw(new Float32Array(6 * 50).fill(1), 6 * 3);
  expect(drawn(ink)).toHaveLength(6 * 3);
  expect(drawn(ink).every(({ ends }) => ends.every((c) => c === 1))).toBe(true);
  ink.draw(new Float32Array(6 * 400).fill(2));
  expect(drawn(ink)).toHaveLength(6 * 400);
  ink.draw(new Float32Array(0));
  expect(ink.visible).toBe(false);
});
