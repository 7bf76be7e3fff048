import { at, type OutlineRefusal } from "./drawn.ts";

/** Neighbouring points closer than this are one point given twice, mm. */
const LEAST_GAP = 1;

/** Points of a closed ring that are given twice in a row. */
export function repeatedPoints(points: readonly (readonly [number, number])[]): OutlineRefusal[] {
  return points.flatMap(([x, y], i) => {
    const last = i === points.length - 1;
    const next = last ? 0 : i + 1;
    const gap = Math.hypot(points[next][0] - x, points[next][1] - y);
    if (gap >= LEAST_GAP) return [];
    const named = last ? i : next;
    const why = last
      ? "The last point is the first one again; the outline closes by itself."
      : `Points ${i + 1} and ${next + 1} are ${gap === 0 ? "the same" : `only ${Number(gap.toPrecision(2))} mm apart`}.`;
    const wouldWork = `leave out point ${named + 1}, or move it at least ${LEAST_GAP} mm away`;
    return [{ path: at("points", named), value: points[named], why, wouldWork }];
  });
}
