import type { Refusal } from "../../core/shell/shell.ts";
import { type LengthStyle, mmPerInch, printLength } from "../../core/units/length.ts";
import { isImperial } from "./imperial.ts";
import { faceName, lineName } from "./names.ts";

/** A refusal in one sentence: why, and what would be right, with its lengths as they are written here. */
export const wordsFor = (
  { why, wouldWork }: Pick<Refusal, "why" | "wouldWork">,
  lengths: LengthStyle,
): string => asRead(`${why.replace(/\.$/, "")}; ${wouldWork} would work.`, lengths);

/** Ids in a sentence: of transitions (`floor|steps/riser-2`), faces (`steps/tread-2`) and numbered things (`light-1`). */
const IDS =
  /[a-z][a-z0-9-]*(?:\/[a-z0-9-]+)?\|[a-z][a-z0-9-]*(?:\/[a-z0-9-]+)?(?:#\d+)?|[a-z][a-z0-9-]*\/(?:top|riser|tread|lip)(?:-\d+)?(?![\w-])|[a-z]+(?:-[a-z]+)*-\d+(?![\d.-])/g;

const FIGURE = /-?\d+(?:\.\d+)?/g;
/** A length told in mm, several before one mm (`897 × 2482 mm`, `2162, 4324 and 6483 mm`), and whether it is a limit. */
const LENGTHS =
  /(at most (?:about )?|at least )?((?:(?:-?\d+(?:\.\d+)? × )+|(?:-?\d+(?:\.\d+)?, )*-?\d+(?:\.\d+)? and )?-?\d+(?:\.\d+)?) mm(?![\w²/])/g;

/** A part of a run told as the file does, which its field shows as a percentage. */
const PART = /(\ba part of (?:at (?:most|least) )?)(\d(?:\.\d+)?)(?![\d.])/g;

/**
 * A sentence of core as it is read here: ids as people say them, parts in percent, and lengths, told in mm, in the style chosen. What is told as
 * "at most" is rounded down and what is told as "at least" up, so that it still holds.
 */
export function asRead(sentence: string, lengths: LengthStyle): string {
  const said = sentence
    .replaceAll(IDS, (id) => (id.includes("|") ? `“${lineName(id)}”` : faceName(id)))
    .replaceAll(
      PART,
      (_, before: string, part: string) => `${before}${Math.round(Number(part) * 1000) / 10} %`,
    );
  if (lengths === "mm") return said;
  return said.replaceAll(LENGTHS, (_, limit: string | undefined, figures: string) => {
    const grain = isImperial(lengths) ? mmPerInch / 16 : 1;
    const most = limit?.startsWith("at most");
    const round = most ? Math.floor : limit ? Math.ceil : null;
    const printed = (mm: number) =>
      printLength(round ? round(mm / grain + (most ? 1e-6 : -1e-6)) * grain : mm, lengths);
    return `${limit ?? ""}${figures.replaceAll(FIGURE, (figure) => printed(Number(figure)))}`;
  });
}
