import type { BarCut } from "../cutting/bars/bar-plan.ts";
import type { StripPlan } from "../cutting/lots/strips.ts";
import { fixed } from "../units/print.ts";
import { box, type Drawing, filled, line, type Mark, outline, pens, words } from "./paper/drawing.ts";
import { endOf, type Fonts, widthOf } from "./paper/font.ts";
import { framedPage, type Paper, roomOn, scaleBar } from "./paper/page.ts";
import type { PieceCard } from "./piece-cards.ts";
import { verdict } from "./strip-plan.ts";

const SCALES = [5, 10, 12.5, 15, 20, 25, 30, 40, 50, 75];
/** Height of a bar on paper and of all that belongs to it, mm. */
const BAR = 9;
const STEP = 17;
const LEFT = 14;
/** Size of the smallest type, mm. */
const SMALLEST = 1.6;
const HEAD = 10;
/** How far a bevelled end is slanted at the most, mm on paper. */
const SLANT = 1.6;

/**
 * The plan for the saw on paper: bars to scale, those cut alike together with their number, each piece with its name and length and where it begins;
 * hatched is what is left over, and an end that is bevelled is slanted.
 */
export function stripPages(
  plans: readonly StripPlan[],
  cards: ReadonlyMap<string, PieceCard>,
  { lot, paper, fonts }: { readonly lot: string; readonly paper: Paper; readonly fonts: Fonts },
): Drawing[] {
  const room = roomOn(paper);
  const a = Math.floor((room.high - room.low - HEAD) / STEP);
  const pages = plans.flatMap((plan) => {
    const { bars } = plan.plan;
    const longest = Math.max(0, ...bars.map(({ lengthMm }) => lengthMm));
    const scale =
      SCALES.find((each) => longest / each <= room.right - room.left - LEFT) ?? SCALES[SCALES.length - 1];
    let number = 0;
    const drawn = bars.map((bar) => {
      const first = number + 1;
      number += bar.times;
      return (y: number) =>
        barMarks(
          { ...bar, lacking: bar.lacking && !plan.noStock },
          first,
          cards,
          scale,
          room.left,
          room.right,
          y,
          fonts,
        );
    });
    const own: { plan: StripPlan; scale: number; marks: Mark[] }[] = [];
    for (let i = 0; i < drawn.length; i += a) {
      const marks = drawn.slice(i, i + a).flatMap((draw, k) => draw(room.high - HEAD - k * STEP));
      own.push({ plan, scale, marks: [...scaleBar(room.right - 100, room.high - 5, 100 * scale), ...marks] });
    }
    return own;
  });
  return pages.map(({ plan, scale, marks }, i) => {
    const head = {
      title: `Strips of ${plan.material}`,
      about: `${lot} · ${verdict(plan.plan)} · saw cut ${plan.kerfMm} mm${bevelWords(plan, cards)} · scale 1:${scale}`,
      right: "strip plan",
    };
    return framedPage(paper, head, i + 1, pages.length, fonts, marks);
  });
}

/** Bars cut alike: the first of them is number `first`; their top is at `y`. */
function barMarks(
  { stock, lengthMm, lacking, remnant, times, cuts, restMm, keep }: BarCut,
  first: number,
  cards: ReadonlyMap<string, PieceCard>,
  scale: number,
  left: number,
  right: number,
  y: number,
  fonts: Fonts,
): Mark[] {
  const x = (mm: number) => left + LEFT + mm / scale;
  const low = y - 5 - BAR;
  const which = times === 1 ? `bar ${first}` : `bars ${first}–${first + times - 1}`;
  const about = `${which}: ${stock}, ${fixed(lengthMm, 1)} mm${remnant ? ", remnant" : ""}${lacking ? ", missing in stock" : ""}`;
  const rest = box(x(lengthMm - restMm), low, restMm / scale, BAR);
  const restWords = `${keep ? "keep" : "rest"} ${fixed(restMm, 0)}`;
  const restWidth = widthOf(fonts.plain, restWords, 2.3);
  return [
    words(left + LEFT, y - 3.6, about, 2.5),
    words(left, low + BAR / 2 - 1.6, `${times} ×`, 4.4, { bold: true }),
    ...(restMm > 0 ? [filled(rest, "hatched")] : []),
    outline(box(x(0), low, lengthMm / scale, BAR), pens.line),
    ...cuts.flatMap(({ id, lengthMm: own, fromMm }, i) => {
      const card = cards.get(id);
      const called = card?.called ?? id;
      const width = own / scale;
      const middle = x(fromMm + own / 2);
      const inside = widthOf(fonts.bold, called, SMALLEST) <= width - 1;
      // Below there is room as far as the next piece begins, of the last as far as the paper goes.
      const below = i + 1 < cuts.length ? x(cuts[i + 1].fromMm) : right;
      const begins = fixed(fromMm, 1);
      const both = `${begins}  ${called}`;
      const fitsBelow = !inside && widthOf(fonts.plain, both, 2) < below - x(fromMm) - 1;
      return [
        filled(box(x(fromMm), low, width, BAR), "paper", pens.line),
        ...bevelMarks(card, x(fromMm), low, width),
        ...(fitsBelow ? [] : fitted(called, middle, low + 5.2, width - 1, fonts, true)),
        ...fitted(fixed(own, 1), middle, low + (fitsBelow ? 3.4 : 1.6), width - 1, fonts, false),
        words(x(fromMm), low - 2.8, fitsBelow ? both : begins, 2),
        line([x(fromMm), low, x(fromMm), low - 1], pens.hair),
      ];
    }),
    ...(restMm > 0 && restWidth < restMm / scale - 1
      ? [
          filled(
            box(x(lengthMm - restMm / 2) - restWidth / 2 - 0.8, low + 2.8, restWidth + 1.6, 3.6),
            "paper",
          ),
          words(x(lengthMm - restMm / 2), low + 3.7, restWords, 2.3, { align: "middle" }),
        ]
      : []),
  ];
}

/** A slant at each end that is bevelled. */
function bevelMarks(card: PieceCard | undefined, x: number, low: number, width: number): Mark[] {
  const slant = Math.min(SLANT, width / 6);
  const [first, last] = card?.saw?.ends ?? [];
  return [
    ...(first === "bevel" ? [line([x, low + BAR, x + slant, low], pens.fine)] : []),
    ...(last === "bevel" ? [line([x + width, low + BAR, x + width - slant, low], pens.fine)] : []),
  ];
}

/** What a slanted end is, with the models where they want it at different angles. */
function bevelWords({ plan }: StripPlan, cards: ReadonlyMap<string, PieceCard>): string {
  const models = new Map<number, Set<string>>();
  for (const { id } of plan.bars.flatMap(({ cuts }) => cuts)) {
    const { saw, model } = cards.get(id) ?? { saw: null, model: "" };
    if (!saw?.ends.includes("bevel")) continue;
    models.set(saw.bevelDeg, (models.get(saw.bevelDeg) ?? new Set()).add(model));
  }
  const angles = [...models].map(([degrees, own]) => {
    return `${fixed(degrees, 0)}°${models.size > 1 ? ` (${[...own].join(", ")})` : ""}`;
  });
  return angles.length > 0 ? ` · slanted end: bevel ${angles.join(", ")}` : "";
}

/** Words made smaller to fit a width; where they would be too small to read, only their end, in which names differ. */
function fitted(text: string, x: number, y: number, width: number, fonts: Fonts, bold: boolean): Mark[] {
  const font = bold ? fonts.bold : fonts.plain;
  const size = Math.max(SMALLEST, Math.min(2.5, (2.5 * width) / widthOf(font, text, 2.5)));
  const shown = endOf(font, text, size, width);
  return shown === "" ? [] : [words(x, y, shown, size, { align: "middle", bold })];
}
