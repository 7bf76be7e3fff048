import type { Refusal } from "../../core/shell/shell.ts";
import { type LengthStyle, mmPerInch, printLength } from "../../core/units/length.ts";
import { isImperial } from "./imperial.ts";

/** A refusal in one sentence: why, and what would be right, with its lengths as they are written here. */
export const wordsFor = (
  { why, wouldWork }: Pick<Refusal, "why" | "wouldWork">,
  lengths: LengthStyle,
): string => inLengths(`${why.replace(/\.$/, "")}; ${wouldWork} would work.`, lengths);

/**
 * A sentence that tells lengths in mm, with each written in the style chosen. What is told as "at most" is rounded down and what
 * is told as "at least" up, so that it still holds.
 */
export function inLengths(sentence: string, lengths: LengthStyle): string {
  if (lengths === "mm") return sentence;
  return sentence.replaceAll(
    /(at most (?:about )?|at least )?(-?\d+(?:\.\d+)?) mm(?![\w²/])/g,
    (_, limit: string | undefined, figure: string) => {
      const mm = Number(figure);
      const grain = isImperial(lengths) ? mmPerInch / 16 : 1;
      const round = limit?.startsWith("at most") ? Math.floor : limit ? Math.ceil : null;
      return `${limit ?? ""}${printLength(round ? round(mm / grain + (limit?.startsWith("at most") ? 1e-6 : -1e-6)) * grain : mm, lengths)}`;
    },
  );
}
