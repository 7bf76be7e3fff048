import type { BarProblem } from "./bar-problem.ts";

/** Beyond this no table is made. */
const LARGEST = 4_000_000;

/**
 * Gives the least cost, `most` at the highest, that bars can add up to and that is not below a bound: two lengths at
 * 4 and 5 never cost 7. Where the costs are too large for a table, the bound itself.
 */
export function possibleCosts({ kinds }: BarProblem, most: number): (bound: number) => number {
  const costs = [...new Set(kinds.map(({ cost }) => cost))].filter((cost) => cost > 0);
  if (most > LARGEST) return (bound) => Math.min(bound, most);
  const possible = new Uint8Array(most + 1);
  possible[0] = 1;
  for (const cost of costs) for (let sum = cost; sum <= most; sum++) possible[sum] |= possible[sum - cost];
  return (bound) => {
    let cost = Math.min(bound, most);
    while (cost < most && possible[cost] === 0) cost++;
    return cost;
  };
}
