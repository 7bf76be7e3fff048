import { type LengthStyle, mmPerFoot, mmPerInch, printLength } from "../../../../core/units/length.ts";
import { fixed } from "../../../../core/units/print.ts";
import { isImperial } from "../../../parts/imperial.ts";

export interface Tick {
  readonly at: number;
  /** 2: with a figure, 1: half way, 0: the finest. */
  readonly rank: 0 | 1 | 2;
  readonly label: string;
}

/** Least distances on screen, pixels. */
const BETWEEN_TICKS = 7;
const BETWEEN_FIGURES = 74;

const METRIC = [1, 5, 10, 50, 100, 500, 1000, 5000, 10_000];
const IMPERIAL = [
  mmPerInch / 8,
  mmPerInch / 2,
  mmPerInch,
  3 * mmPerInch,
  6 * mmPerInch,
  mmPerFoot,
  5 * mmPerFoot,
  10 * mmPerFoot,
  50 * mmPerFoot,
];

/** The ticks of a tape between two places (mm) at a scale (pixels a mm), in the units that are shown. */
export function ticksOf(from: number, to: number, scale: number, lengths: LengthStyle): Tick[] {
  const steps = isImperial(lengths) ? IMPERIAL : METRIC;
  const fine = steps.find((step) => step * scale >= BETWEEN_TICKS) ?? steps[steps.length - 1];
  const figured =
    steps.find((step) => step * scale >= BETWEEN_FIGURES && isWhole(step / fine)) ?? steps[steps.length - 1];
  const half = steps.find((step) => step > fine && step < figured && isWhole(figured / step)) ?? figured;
  const ticks: Tick[] = [];
  for (let n = Math.ceil(from / fine - 1e-9); n * fine <= to + 1e-6; n++) {
    const at = n * fine;
    const rank = isWhole(at / figured) ? 2 : isWhole(at / half) ? 1 : 0;
    ticks.push({ at, rank, label: rank === 2 ? tickLabel(at, figured, lengths) : "" });
  }
  return ticks;
}

const isWhole = (ratio: number) => Math.abs(ratio - Math.round(ratio)) < 1e-6;

function tickLabel(at: number, step: number, lengths: LengthStyle): string {
  if (isImperial(lengths)) return at === 0 ? "0" : printLength(at, lengths);
  if (lengths === "mm") return `${fixed(at, 0)} mm`;
  return `${fixed(at / 1000, step >= 1000 ? 0 : step >= 100 ? 1 : step >= 10 ? 2 : 3)} m`;
}

/** A figure that stands over a place of the paper, and how wide it is written, pixels. */
export interface Figure {
  readonly label: string;
  readonly x: number;
  readonly width: number;
}

/** Room kept to the edges of the paper, and between two figures, pixels. */
const TO_EDGE = 2;
const APART = 8;

/**
 * Where figures begin, pixels from the left: each in the middle over its place. One at the edge of the paper is moved in, or left out where it
 * would run into its neighbour there.
 */
export function figuresSeen(
  figures: readonly Figure[],
  paper: number,
): (Figure & { readonly left: number })[] {
  const put = figures.map((figure) => {
    const middle = figure.x - figure.width / 2;
    const left = Math.max(TO_EDGE, Math.min(middle, paper - TO_EDGE - figure.width));
    return { ...figure, left, moved: left !== middle };
  });
  const runsInto = (a: Figure & { left: number }, b: Figure & { left: number }) =>
    a.left < b.left + b.width + APART && b.left < a.left + a.width + APART;
  return put.filter((one) => !one.moved || !put.some((other) => other !== one && runsInto(one, other)));
}

/** A distance as it is read off the tape: to the millimetre, to the hundredth of a metre, or to the eighth of an inch. */
export function readOff(mm: number, lengths: LengthStyle): string {
  if (lengths === "m") return `${fixed(mm / 1000, 2)} m`;
  if (lengths === "mm") return printLength(mm, lengths);
  const eighth = mmPerInch / 8;
  return printLength(Math.round(mm / eighth) * eighth, lengths);
}
