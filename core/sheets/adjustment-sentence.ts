import type { Adjustment } from "../shell/shell.ts";
import { fixed } from "../units/print.ts";

/** What had to be adjusted on a shell, from which figure to which, and why. */
export function adjustmentSentence({ id, what, asked, used, unit, why }: Adjustment): string {
  // 1400, and not 1400.0: no more figures than there are.
  const figure = (value: number) =>
    `${Number(fixed(value, unit === "mm" ? 1 : 2))} ${unit === "mm" ? "mm" : "°"}`;
  return `${id}: ${what}: asked ${figure(asked)}, used ${figure(used)}: ${why}`;
}
