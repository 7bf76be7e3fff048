import type { BarProblem, PatternUse } from "./bar-problem.ts";

/**
 * Moves each filling to the shortest bar of the same cost that is there and holds it, so that of remnants, which all
 * cost the same, the longest stay whole. Fillings are taken from the shortest up; the cost stays as it is.
 */
export function shortestBars({ sizes, kinds }: BarProblem, uses: readonly PatternUse[]): PatternUse[] {
  const free = kinds.map(({ supply }) => supply);
  for (const { pattern, times } of uses) free[pattern.kind] -= times;
  const filled = ({ pattern }: PatternUse) => pattern.items.reduce((sum, i) => sum + sizes[i], 0);
  const moved: PatternUse[] = [];
  for (const use of [...uses].sort((a, b) => filled(a) - filled(b))) {
    let { times } = use;
    const from = use.pattern.kind;
    const shorter = kinds
      .flatMap((kind, t) =>
        kind.cost === kinds[from].cost && kind.capacity >= filled(use) && kind.capacity < kinds[from].capacity
          ? [t]
          : [],
      )
      .sort((a, b) => kinds[a].capacity - kinds[b].capacity || a - b);
    for (const kind of shorter) {
      const number = Math.min(times, free[kind]);
      if (number <= 0) continue;
      moved.push({ pattern: { kind, items: use.pattern.items }, times: number });
      free[kind] -= number;
      free[from] += number;
      times -= number;
    }
    if (times > 0) moved.push({ pattern: use.pattern, times });
  }
  return moved;
}
