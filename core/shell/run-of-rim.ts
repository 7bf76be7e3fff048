import type { Outline, Segment } from "../plan/chain.ts";
import { arc, line, type Place } from "../plan/segments.ts";
import type { FootprintAsk } from "./footprint-ask.ts";

/**
 * The stretch of the rim that a feature follows. A tight corner (no room for the inner edge as drawn) that lies wholly
 * within it is rounded; one that an end falls into is left out, and the feature ends where the corner begins.
 */
export function clearOfCorners(
  outline: Outline,
  ask: FootprintAsk,
  fromStation: number,
  toStation: number,
): { from: number; span: number; inside: number[] } {
  const { chain } = outline;
  const total = chain.length;
  const turn = (s: number) => s - Math.floor(s / total) * total;
  let from = fromStation - ask.wrap;
  const given = turn(toStation - fromStation) || total;
  let span = Math.min(total, given + 2 * ask.wrap);
  const need = ask.reach + ask.reentrant;
  const tight = (i: number) => {
    const s = chain.segments[(i + chain.segments.length) % chain.segments.length];
    return s.kind === "arc" && s.sweep > 0 && s.radius < need;
  };
  const inside: number[] = [];
  chain.segments.forEach((s, i) => {
    if (!tight(i) || s.kind !== "arc") return;
    // Rounding it takes this much of the sides; next to another tight arc the two are taken together.
    const takes = (need - s.radius) * Math.tan(Math.min(s.sweep, 2.4) / 2);
    const before = tight(i - 1) ? 0 : takes;
    const after = tight(i + 1) ? 0 : takes;
    const a = turn(chain.stations[i] - from);
    const b = a + s.length;
    if (a - before >= 0 && b + after <= span) inside.push(i);
    else if (a < span && b - a < total) {
      // An end falls into the corner's reach: keep the longer side of it.
      if (a > span - b) span = a;
      else {
        from += b;
        span -= b;
      }
    } else if (b > total) {
      from += b - total;
      span -= b - total;
    }
  });
  return { from: turn(from), span, inside };
}

/**
 * A stub at an end of the run, too short for the end's radius, is taken over by the segment beside it, which is
 * lengthened by as much; but not by an arc that would turn back on itself.
 */
export function withoutStubs(run: readonly Segment[], least: number): Segment[] {
  const path = [...run];
  const isStub = (stub: Segment, beside: Segment): boolean =>
    stub.length < least &&
    (beside.kind === "line" || Math.abs(beside.sweep) + stub.length / beside.radius < Math.PI);
  while (path.length > 1 && isStub(path[path.length - 1], path[path.length - 2])) {
    const stub = path.pop() as Segment;
    path.push(longer(path.pop() as Segment, stub.length, true));
  }
  while (path.length > 1 && isStub(path[0], path[1])) {
    const stub = path.shift() as Segment;
    path.unshift(longer(path.shift() as Segment, stub.length, false));
  }
  return path;
}

/** A segment that goes on as it runs by so much at its end, or begins so much sooner, mm. */
export function longer(s: Segment, by: number, atEnd: boolean): Segment {
  if (s.kind === "line") {
    const [dx, dy] = [s.ux * by, s.uy * by];
    return atEnd ? line(s.ax, s.ay, s.bx + dx, s.by + dy) : line(s.ax - dx, s.ay - dy, s.bx, s.by);
  }
  const turn = (Math.sign(s.sweep) * by) / s.radius;
  return arc(s.cx, s.cy, s.radius, atEnd ? s.start : s.start - turn, s.sweep + turn);
}

/** A straight piece from a place on in its direction, mm. */
export const onward = ({ x, y, tx, ty }: Place, by: number): Segment => line(x, y, x + by * tx, y + by * ty);
