import type { BarCut, BarDemand, BarOptions } from "./bar-plan.ts";
import type { BarProblem, Pattern, PatternUse } from "./bar-problem.ts";
import type { PosedBars } from "./pose-bars.ts";

/** Rests are given to the thousandth of a mm. */
const thousandths = (mm: number) => Math.round(mm * 1000) / 1000 + 0;

/**
 * Gives the pieces of a solution their names and places: bar after bar, the fullest first, each size's pieces in the
 * order in which they were asked for; bars that come out alike are one entry.
 */
export function handOut(posed: PosedBars, uses: readonly PatternUse[], options: BarOptions): BarCut[] {
  const { problem, sources } = posed;
  const waiting = posed.demands.map((group) => group.map((demand) => ({ demand, left: demand.quantity })));
  const next = (size: number): BarDemand => {
    const [first] = waiting[size];
    if (--first.left === 0) waiting[size].shift();
    return first.demand;
  };
  const used = new Map<string, number>();
  const cuts: (BarCut & { times: number })[] = [];
  for (const { pattern, times } of inOrder(problem, uses)) {
    const { stock, lacking } = sources[pattern.kind];
    for (let k = 0; k < times; k++) {
      const bars = (used.get(stock.id) ?? 0) + 1;
      used.set(stock.id, bars);
      const cut: BarCut = {
        stock: stock.id,
        lengthMm: stock.lengthMm,
        remnant: stock.remnant === true,
        lacking: lacking || bars > (stock.quantity ?? Infinity),
        times: 1,
        ...placed(pattern.items.map(next), stock.lengthMm, stock.remnant === true, options),
      };
      const last = cuts.at(-1);
      if (last && alike(last, cut)) last.times++;
      else cuts.push(cut);
    }
  }
  return cuts;
}

/** By kind as they were given, lacking ones behind those that are there; fullest first. */
function inOrder({ sizes }: BarProblem, uses: readonly PatternUse[]): PatternUse[] {
  const filled = ({ items }: Pattern) => items.reduce((sum, i) => sum + sizes[i], 0);
  return [...uses].sort(
    ({ pattern: a }, { pattern: b }) =>
      a.kind - b.kind || filled(b) - filled(a) || compareItems(a.items, b.items),
  );
}

function compareItems(a: readonly number[], b: readonly number[]): number {
  for (let k = 0; k < Math.min(a.length, b.length); k++) if (a[k] !== b[k]) return a[k] - b[k];
  return a.length - b.length;
}

/** Places pieces on a bar one after another, a kerf between them, from the end trim on. */
function placed(
  pieces: readonly BarDemand[],
  lengthMm: number,
  remnant: boolean,
  { kerfMm, endTrimMm, keepFromMm }: BarOptions,
): Pick<BarCut, "cuts" | "restMm" | "keep"> {
  const trim = remnant ? 0 : endTrimMm;
  let at = trim;
  const cuts = pieces.map(({ id, lengthMm: own }) => {
    const fromMm = thousandths(at);
    at += own + kerfMm;
    return { id, lengthMm: own, fromMm };
  });
  // The last piece may end where the bar does: then there is no cut behind it.
  const restMm = Math.max(0, thousandths(lengthMm - trim - at));
  return { cuts, restMm, keep: restMm > 0 && restMm >= keepFromMm };
}

function alike(a: BarCut, b: BarCut): boolean {
  if (a.stock !== b.stock || a.lacking !== b.lacking || a.cuts.length !== b.cuts.length) return false;
  return a.cuts.every(({ id }, k) => id === b.cuts[k].id);
}
