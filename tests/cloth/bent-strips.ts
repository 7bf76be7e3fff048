import { fc } from "@fast-check/vitest";
import { exactRing, firstOverlap } from "../packing/exact-overlap.ts";

type Point = readonly [number, number];

/** A strip as a piece of cloth may lie flat: its outline, and the fields between its cross lines, all counter-clockwise, x y pairs, mm. */
export interface BentStrip {
  readonly outline: Float64Array;
  readonly fields: readonly (readonly number[])[];
}

/** Evenly spread, as `fc.double` is not. */
const between = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1e6 }).map((part) => min + (part / 1e6) * (max - min));

/** Strips that curl up, so far that many lie over themselves; none of their fields is turned over, nor lies on the next. */
export const bentStrips: fc.Arbitrary<BentStrip> = fc
  .tuple(
    fc.array(fc.record({ step: between(20, 60), turn: between(-0.25, 0.25) }), {
      minLength: 8,
      maxLength: 30,
    }),
    between(-0.4, 0.4),
    between(10, 40),
    between(10, 40),
  )
  .map(([bends, curl, left, right]) => {
    const steps = bends.map(({ step, turn }) => ({ step, turn: turn + curl }));
    let [x, y, heading] = [0, 0, 0];
    const lefts: Point[] = [];
    const rights: Point[] = [];
    const mark = () => {
      const [cos, sin] = [Math.cos(heading), Math.sin(heading)];
      lefts.push([x - left * sin, y + left * cos]);
      rights.push([x + right * sin, y - right * cos]);
    };
    mark();
    for (const { step, turn } of steps) {
      heading += turn;
      x += step * Math.cos(heading - turn / 2);
      y += step * Math.sin(heading - turn / 2);
      mark();
    }
    return {
      outline: Float64Array.from([...rights, ...[...lefts].reverse()].flat()),
      fields: steps.map((_, i) => [rights[i], rights[i + 1], lefts[i + 1], lefts[i]].flat()),
    };
  })
  .filter(({ fields }) =>
    fields.every((field, i) => isConvex(field) && (i === 0 || !meet(field, fields[i - 1]))),
  );

/** Whether any two fields of a strip lie over each other, decided exactly, in whole numbers. */
export const lieOver = ({ fields }: BentStrip): boolean => firstOverlap(fields.map(exactRing)) !== null;

const meet = (a: readonly number[], b: readonly number[]) => firstOverlap([a, b].map(exactRing)) !== null;

function isConvex(ring: readonly number[]): boolean {
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const at = (k: number) => [ring[(i + k) % n], ring[(i + k + 1) % n]];
    const [[ax, ay], [bx, by], [cx, cy]] = [at(0), at(2), at(4)];
    if ((bx - ax) * (cy - by) - (by - ay) * (cx - bx) <= 0) return false;
  }
  return true;
}
