/** A stretch of a line, mm: from < to. */
export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** What is left of a stretch when others are taken out of it, in order. */
export function without(whole: Interval, taken: readonly Interval[]): Interval[] {
  const left: Interval[] = [];
  let from = whole.from;
  for (const each of [...taken].sort((a, b) => a.from - b.from)) {
    if (each.to <= from || each.to <= each.from) continue;
    if (each.from >= whole.to) break;
    if (each.from > from) left.push({ from, to: each.from });
    from = each.to;
  }
  if (from < whole.to) left.push({ from, to: whole.to });
  return left;
}

/** Length (mm) of a stretch that others cover, overlaps counted once. */
export function covered(whole: Interval, by: readonly Interval[]): number {
  const bare = without(whole, by).reduce((sum, { from, to }) => sum + to - from, 0);
  return whole.to - whole.from - bare;
}

/**
 * Places at a pitch within a stretch, as many as go in, the same free length at both ends. None in a stretch of negative
 * length; one in the middle of a stretch shorter than the pitch.
 */
export function spaced(stretch: Interval, pitch: number): number[] {
  const length = stretch.to - stretch.from;
  if (length < 0) return [];
  const gaps = Math.floor(length / pitch + 1e-9);
  const first = stretch.from + (length - gaps * pitch) / 2;
  return Array.from({ length: gaps + 1 }, (_, i) => first + i * pitch);
}
