import type { BarDemand } from "../../core/cutting/bars/bar-plan.ts";

/**
 * The 5600 problem: widths to be cut from master rolls of 5600 and how many of each. From "Cutting stock problem",
 * Wikipedia, as read in a stored copy at hitchhikersgui.de/Cutting_stock_problem; its optimum is 73 rolls with a
 * waste of 0.401 %, and ceil(407160 / 5600) = 73 proves that fewer will not do.
 */
export const cutting5600: readonly BarDemand[] = [
  [1380, 22],
  [1520, 25],
  [1560, 12],
  [1710, 14],
  [1820, 18],
  [1880, 18],
  [1930, 20],
  [2000, 10],
  [2050, 12],
  [2100, 14],
  [2140, 16],
  [2150, 18],
  [2200, 20],
].map(([lengthMm, quantity]) => ({ id: `w${lengthMm}`, lengthMm, quantity }));
