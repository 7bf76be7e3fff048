/** The words of a typed quantity: numbers, units and signs. */
import type { Unit, UnitTable } from "./table.ts";

export type Token =
  | { readonly kind: "number"; readonly value: number; readonly text: string }
  | { readonly kind: "unit"; readonly unit: Unit; readonly text: string }
  /** `tight` when no space stands on either side. */
  | { readonly kind: "sign"; readonly value: 1 | -1; readonly text: string; readonly tight: boolean };

/** Carries the clause that says what is wrong; caught in quantity.ts and never seen outside. */
export class Unreadable extends Error {}

const fractionMarks: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};

/** One spelling for every mark: straight quotes, plain minus, fractions in figures, single spaces, lower case. */
function plain(text: string): string {
  return text
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (mark) => ` ${fractionMarks[mark]}`)
    .replace(/[’′]/g, "'")
    .replace(/[”″]|''/g, '"')
    .replace(/[−–]/g, "-")
    .replace(/²/g, "2")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase();
}

const numberAhead = /^(?:(?:(\d+) )?(\d+)\/(\d+)|\d+(?:\.\d*)?|\.\d+)/;
const wholeDashFraction = /^(\d+)-(\d+\/\d+)/;
const wordAhead = /^(?:[a-z]+|.)/u;

/**
 * Cuts a text into tokens.
 * @throws Unreadable when a word is not a unit of the table, a fraction makes no sense, or `6-1/2` leaves open
 * whether it is a drawing's six and a half or a subtraction
 */
export function tokenise(text: string, table: UnitTable): Token[] {
  const source = plain(text);
  const spellings = table.units
    .flatMap((unit) => unit.names.map((name) => ({ name, unit })))
    .sort((a, b) => b.name.length - a.name.length);
  const tokens: Token[] = [];
  for (let at = 0; at < source.length; ) {
    const rest = source.slice(at);
    if (rest[0] === " ") {
      at++;
      continue;
    }
    const token = signAhead(source, at) ?? numberToken(rest) ?? unitToken(rest, spellings);
    if (!token) throw new Unreadable(unknownWord(rest, table));
    tokens.push(token);
    at += token.text.length;
  }
  return tokens;
}

function signAhead(source: string, at: number): Token | undefined {
  const text = source[at];
  if (text !== "+" && text !== "-") return undefined;
  const tight = source[at - 1] !== " " && source[at + 1] !== " ";
  return { kind: "sign", value: text === "-" ? -1 : 1, text, tight };
}

function numberToken(rest: string): Token | undefined {
  const either = wholeDashFraction.exec(rest);
  if (either) {
    const [text, whole, part] = either;
    throw new Unreadable(
      `"${text}" may mean ${whole} ${part} or ${whole} minus ${part}; write "${whole} ${part}" or "${whole} - ${part}"`,
    );
  }
  const found = numberAhead.exec(rest);
  if (!found) return undefined;
  const [text, whole, top, bottom] = found;
  if (top === undefined) return { kind: "number", value: Number(text), text };
  if (Number(bottom) === 0) throw new Unreadable(`the fraction "${top}/${bottom}" divides by zero`);
  if (whole !== undefined && Number(top) >= Number(bottom)) {
    throw new Unreadable(`in "${text}" the fraction is not smaller than one`);
  }
  return { kind: "number", value: Number(whole ?? 0) + Number(top) / Number(bottom), text };
}

function unitToken(rest: string, spellings: readonly { name: string; unit: Unit }[]): Token | undefined {
  // `m` must not be cut out of `mile`.
  const found = spellings.find(
    ({ name }) => rest.startsWith(name) && !(/[a-z]$/.test(name) && /^[a-z]/.test(rest.slice(name.length))),
  );
  return found && { kind: "unit", unit: found.unit, text: found.name };
}

function unknownWord(rest: string, table: UnitTable): string {
  if (rest[0] === ",") return "a comma may mean a decimal or thousands; write 7.48 or 3800";
  const word = wordAhead.exec(rest)?.[0] ?? rest;
  const known = table.units.map(({ names }) => names[0]).join(", ");
  return `"${word}" is not a unit of ${table.kind.replace(/^an? /, "")} (known: ${known})`;
}
