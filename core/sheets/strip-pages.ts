import type { BarCut } from "../cutting/bars/bar-plan.ts";
import type { StripPlan } from "../cutting/lots/strips.ts";
import { fixed } from "../units/print.ts";
import { box, type Drawing, filled, line, type Mark, outline, pens, words } from "./paper/drawing.ts";
import { endOf, type Fonts, widthOf } from "./paper/font.ts";
import { framedPage, type Paper, roomOn, scaleBar } from "./paper/page.ts";
import type { PieceCard } from "./piece-cards.ts";
import { verdict } from "./strip-plan.ts";

const SCALES = [5, 10, 12.5, 15, 20, 25, 30, 40, 50, 75];
/** Height of a bar on paper, of all that belongs to it, and of each further line of names under it, mm. */
const BAR = 9;
const STEP = 17;
const LINE = 2.8;
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
  const pages = plans.flatMap((plan) => {
    const { bars } = plan.plan;
    const longest = Math.max(0, ...bars.map(({ lengthMm }) => lengthMm));
    const scale =
      SCALES.find((each) => longest / each <= room.right - room.left - LEFT) ?? SCALES[SCALES.length - 1];
    let number = 0;
    const own: { plan: StripPlan; scale: number; marks: Mark[] }[] = [];
    let free = room.low;
    for (const bar of bars) {
      const first = number + 1;
      number += bar.times;
      const known = { ...bar, lacking: bar.lacking && !plan.noStock };
      const names = namesOf(known, cards, scale, room.left, room.right, fonts);
      const height = STEP + LINE * Math.max(0, ...names.map(({ row }) => row));
      if (free - height < room.low) {
        own.push({ plan, scale, marks: scaleBar(room.right - 100, room.high - 5, 100 * scale) });
        free = room.high - HEAD;
      }
      own[own.length - 1].marks.push(...barMarks(known, first, names, scale, room.left, free, fonts));
      free -= height;
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

/** The name of a piece on its bar: in the piece (`row` -1), beside the figure under its beginning (0), or on a line further down. */
interface NamePlace {
  readonly card: PieceCard | undefined;
  readonly called: string;
  readonly row: number;
  /** Where it begins on a line further down: under its piece, or as near as the paper goes. */
  readonly at: number;
}

/** Size of names and figures under a bar, mm. */
const UNDER = 2;

/** Where the names of a bar's pieces go, so that each is whole: those too long for their piece under it, clear of each other. */
function namesOf(
  { cuts }: BarCut,
  cards: ReadonlyMap<string, PieceCard>,
  scale: number,
  left: number,
  right: number,
  fonts: Fonts,
): NamePlace[] {
  const x = (mm: number) => left + LEFT + mm / scale;
  const free: number[] = [];
  const places: NamePlace[] = [];
  // From the right: a name has room as far as that of the next piece on its line, and its line down crosses none above it.
  for (let i = cuts.length - 1; i >= 0; i--) {
    const { id, lengthMm, fromMm } = cuts[i];
    const card = cards.get(id);
    const called = card?.called ?? id;
    const begins = x(fromMm);
    const beside = begins + widthOf(fonts.plain, `${fixed(fromMm, 1)}  `, UNDER);
    const width = widthOf(fonts.plain, called, UNDER);
    const at = Math.min(begins, right - width);
    let row = -1;
    if (widthOf(fonts.bold, called, SMALLEST) > lengthMm / scale - 1) {
      row = beside + width < (free[0] ?? right) - 1 ? 0 : 1;
      while (row > 0 && free[row] !== undefined && at + width > free[row] - 1) row++;
      if (row > 0) free[row] = at;
    }
    free[0] = begins;
    places.unshift({ card, called, row, at });
  }
  return places;
}

/** Bars cut alike: the first of them is number `first`; their top is at `y`. */
function barMarks(
  { stock, lengthMm, lacking, remnant, times, cuts, restMm, keep }: BarCut,
  first: number,
  names: readonly NamePlace[],
  scale: number,
  left: number,
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
    ...cuts.flatMap(({ lengthMm: own, fromMm }, i) => {
      const { card, called, row, at } = names[i];
      const width = own / scale;
      const middle = x(fromMm + own / 2);
      const begins = fixed(fromMm, 1);
      return [
        filled(box(x(fromMm), low, width, BAR), "paper", pens.line),
        ...bevelMarks(card, x(fromMm), low, width),
        ...(row < 0 ? fitted(called, middle, low + 5.2, width - 1, fonts, true) : []),
        ...fitted(fixed(own, 1), middle, low + (row < 0 ? 1.6 : 3.4), width - 1, fonts, false),
        words(x(fromMm), low - 2.8, row === 0 ? `${begins}  ${called}` : begins, UNDER),
        line([x(fromMm), low, x(fromMm), low - 1], pens.hair),
        ...(row > 0
          ? [
              words(at, low - 2.8 - LINE * row, called, UNDER),
              line([x(fromMm) - 0.5, low, x(fromMm) - 0.5, low - 1.4 - LINE * row], pens.hair),
            ]
          : []),
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
