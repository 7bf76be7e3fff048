import type { Outline } from "../plan/chain.ts";
import { pointAt } from "../plan/point-at.ts";
import type { ShellSpec } from "../project/schema.ts";

/** A place of the rim that anyone finds on the plug without a drawing, for a tape to start from. */
export interface RimMark {
  /** E.g. `deep-right`, `shallow centre`, `start of span-3`. */
  readonly name: string;
  /** Rim station, mm. */
  readonly station: number;
}

/** Marks nearer to each other than this are one, mm. */
const SAME = 1;

/**
 * The marks of a rim: the middle of the shallow and of the deep end, on the centre line; then the middle of every corner, or
 * where the outline has no corners the start of every run.
 */
export function rimMarks(outline: Outline, spec: Pick<ShellSpec, "outline">): RimMark[] {
  const { length } = outline.chain;
  const { kind } = spec.outline;
  const marks: RimMark[] = [
    { name: "shallow centre", station: 0 },
    { name: "deep centre", station: deepCentre(outline) },
  ];
  const drawn = kind === "freeform" || kind === "path";
  for (const run of outline.runs) {
    if (!drawn && run.kind === "straight") continue;
    const at = run.from + (drawn ? 0 : run.length / 2);
    const station = at - Math.floor(at / length) * length;
    if (marks.some((mark) => Math.abs(around(station - mark.station, length)) < SAME)) continue;
    marks.push({ name: drawn ? `start of ${run.id}` : run.id, station });
  }
  return marks;
}

/** The mark nearest to a rim station along the rim, and how far on from it (counter-clockwise positive) the station lies, mm. */
export function nearestMark(
  marks: readonly RimMark[],
  station: number,
  rimLength: number,
): { readonly from: string; readonly alongMm: number } {
  let from = "";
  let alongMm = Infinity;
  for (const mark of marks) {
    const along = around(station - mark.station, rimLength);
    if (Math.abs(along) >= Math.abs(alongMm) - 1e-9) continue;
    alongMm = along;
    from = mark.name;
  }
  return { from, alongMm };
}

/** A difference of stations the short way round, −length/2 … length/2. */
export const around = (difference: number, length: number): number =>
  difference - Math.round(difference / length) * length;

/** Step in which the outline is searched for its crossings of the centre line, mm. */
const STEP = 20;

/** Rim station of the outline's point on the centre line (y = 0) with the greatest x. */
function deepCentre({ chain }: Outline): number {
  let best = 0;
  let furthest = -Infinity;
  const yAt = (station: number) => pointAt(chain, station).y;
  let after = yAt(STEP / 2);
  for (let s = STEP / 2; s < chain.length; s += STEP) {
    let [low, high] = [s, s + STEP];
    const before = after;
    after = yAt(high);
    if (before * after > 0) continue;
    const sign = before <= 0 ? 1 : -1;
    for (let round = 0; round < 50; round++) {
      const middle = (low + high) / 2;
      if (sign * yAt(middle) <= 0) low = middle;
      else high = middle;
    }
    const { x } = pointAt(chain, low);
    if (x <= furthest) continue;
    furthest = x;
    best = low;
  }
  return best < chain.length ? best : best - chain.length;
}
