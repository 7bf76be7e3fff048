import { expect, test } from "vitest";
import type { StripPlan } from "../../core/cutting/lots/strips.ts";
import type { Mark } from "../../core/sheets/paper/drawing.ts";
import { widthOf } from "../../core/sheets/paper/font.ts";
import { papers, roomOn, turnedPaper } from "../../core/sheets/paper/page.ts";
import { stripPages } from "../../core/sheets/strip-pages.ts";
import { fonts } from "./paper/fonts.ts";

/** Bars of 2400 mm, each sawn into pieces of these lengths, with a cut of 3 mm between. */
function planOf(bars: readonly (readonly { id: string; lengthMm: number }[])[]): StripPlan {
  const drawn = bars.map((pieces) => {
    let fromMm = 5;
    const cuts = pieces.map(({ id, lengthMm }) => {
      const cut = { id, lengthMm, fromMm };
      fromMm += lengthMm + 3;
      return cut;
    });
    const restMm = 2400 - fromMm;
    return {
      stock: "bar",
      lengthMm: 2400,
      remnant: false,
      lacking: false,
      times: 1,
      cuts,
      restMm,
      keep: false,
    };
  });
  const plan = { bars: drawn, measure: "length", cost: 0, bound: 0 } as unknown as StripPlan["plan"];
  return { material: "rib-strip", plan, noStock: false, kerfMm: 3 };
}

const long = (i: number) => `stiffener-coping-by-the-long-seat-${i}/c`;
const wordsOf = (marks: readonly Mark[]) => marks.flatMap((mark) => (mark.kind === "words" ? [mark] : []));

// Six narrow parts in a row, one at the very end of its bar, and a bar of parts that have room for their names.
test.each([papers.a4, turnedPaper(papers.a4), papers.letter])(
  "every name of the plan for the saw is whole, on the paper and clear of all others",
  (paper) => {
    const narrow = [2, 3, 4, 5, 6, 7].map((i) => ({ id: long(i), lengthMm: 60 + 5 * i }));
    const bars = [
      [{ id: long(1), lengthMm: 1860 }, ...narrow],
      [
        { id: "a", lengthMm: 1200 },
        { id: "b", lengthMm: 1100 },
      ],
    ];
    const plan = planOf(Array.from({ length: 14 }, () => bars).flat());
    const pages = stripPages([plan], new Map(), { lot: "Week 14", paper, fonts });
    const { left, right, low } = roomOn(paper);
    const names = [...[1, 2, 3, 4, 5, 6, 7].map(long), "a", "b"];
    const counts = new Map(names.map((name) => [name, 0]));
    for (const page of pages) {
      const boxes = wordsOf(page.marks)
        .map(({ x, y, words, size, align, bold }) => {
          const width = widthOf(bold ? fonts.bold : fonts.plain, words, size);
          const from = align === "middle" ? x - width / 2 : align === "right" ? x - width : x;
          return { words, from, to: from + width, y, top: y + 0.73 * size };
        })
        .filter(({ words }) => names.some((name) => words.endsWith(name)));
      for (const [i, box] of boxes.entries()) {
        const name = names.find((each) => box.words === each || box.words.endsWith(`  ${each}`));
        if (!name) throw new Error(`${box.words} is on the page.`);
        counts.set(name, (counts.get(name) ?? 0) + 1);
        expect(box.from).toBeGreaterThanOrEqual(left - 1e-6);
        expect(box.to).toBeLessThanOrEqual(right + 1e-6);
        expect(box.y).toBeGreaterThanOrEqual(low - 1e-6);
        for (const other of boxes.slice(i + 1)) {
          const apart =
            box.to <= other.from || other.to <= box.from || box.top <= other.y || other.top <= box.y;
          expect(apart, `${box.words} and ${other.words}`).toBe(true);
        }
      }
    }
    expect([...counts.values()]).toEqual(names.map(() => 14));
  },
);
