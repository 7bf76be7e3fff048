/**
 * Reading what a person types for a length, an area or a mass: `7.48m`, `24' 6 1/2"`, `3800-150`, `2m + 6in`.
 *
 *   sum    = [sign] term { sign term }
 *   term   = part { part }              the next part in the next smaller unit: 24 ft 6 in, 27 lb 9 oz
 *   part   = number [unit]              a number without a unit takes the field's own
 *   number = 6 | 6.5 | 1/2 | 6 1/2
 *
 * What a workshop could read in two ways is refused, never guessed: a comma, 6-1/2, 24' - 6".
 */
import { type Unit, type UnitTable, unitNamed } from "./table.ts";
import { type Token, tokenise, Unreadable } from "./tokens.ts";

/** What was read, in the table's base unit, or one sentence that says what is wrong with the text. */
export type Reading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly problem: string };

/**
 * Reads a quantity and gives it in the base unit of `table`.
 * @param bare the name of the unit that a number without one takes
 */
export function readQuantity(text: string, table: UnitTable, bare: string): Reading {
  try {
    const value = sum(tokenise(text, table), table, bare);
    if (!Number.isFinite(value)) throw new Unreadable("the number is too large");
    return { ok: true, value: value === 0 ? 0 : value };
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error;
    const problem = `Cannot read "${text}" as ${table.kind}: ${error.message}. Write for example ${table.examples}.`;
    return { ok: false, problem };
  }
}

/** A number with the unit that stood behind it, if one did. */
type Part = { readonly value: number; readonly unit: Unit | undefined; readonly text: string };

function sum(tokens: readonly Token[], table: UnitTable, bare: string): number {
  if (tokens.length === 0) throw new Unreadable("it is empty");
  const bareUnit = unitNamed(table, bare);
  let next = 0;

  const sign = () =>
    tokens[next]?.kind === "sign" ? (tokens[next++] as Token & { kind: "sign" }) : undefined;

  const part = (): Part => {
    const number = tokens[next];
    if (number === undefined) throw new Unreadable("it ends where a number should stand");
    if (number.kind !== "number") throw new Unreadable(`a number should stand before "${number.text}"`);
    const unit = tokens[++next];
    if (unit?.kind !== "unit") return { value: number.value, unit: undefined, text: number.text };
    next++;
    return { value: number.value, unit: unit.unit, text: number.text + unit.text };
  };

  /** The parts that follow `first` without a sign, all together in base units. */
  const term = (first: Part): number => {
    let last = first;
    let total = first.value * (first.unit ?? bareUnit).size;
    while (next < tokens.length) {
      const dash = tokens[next];
      if (dash.kind === "sign" && !joinsInches(last, dash, tokens[next + 1], tokens[next + 2], table)) break;
      if (dash.kind === "sign") next++;
      const following = part();
      total += inSmaller(last, following, table);
      last = { ...following, unit: unitNamed(table, last.unit?.smaller ?? bare) };
    }
    return total;
  };

  let total = 0;
  let direction = sign()?.value ?? 1;
  for (;;) {
    total += direction * term(part());
    const following = sign();
    if (!following) return total;
    direction = following.value;
  }
}

/** The size of a part that follows another without a sign, in base units. */
function inSmaller(last: Part, following: Part, table: UnitTable): number {
  const smaller = last.unit?.smaller;
  if (smaller === undefined || last.unit === undefined) {
    throw new Unreadable(`"${following.text}" follows "${last.text}" without a sign`);
  }
  const unit = unitNamed(table, smaller);
  if (following.unit !== undefined && following.unit !== unit) {
    throw new Unreadable(`"${following.text}" follows "${last.text}" without a sign`);
  }
  const size = following.value * unit.size;
  if (size >= last.unit.size) {
    throw new Unreadable(`"${following.text}" after "${last.text}" is not less than 1 ${last.unit.names[0]}`);
  }
  return size;
}

/**
 * Whether a dash after feet joins inches, as drawings write 24'-6". Only the tight form does; `24' - 6"` and
 * `24ft-6in` are feet and inches to one reader and a subtraction to another, and are refused.
 */
function joinsInches(
  last: Part,
  dash: Token & { kind: "sign" },
  number: Token | undefined,
  unit: Token | undefined,
  table: UnitTable,
): boolean {
  const large = last.unit;
  if (!large?.dashed || !large.smaller || dash.value > 0 || number?.kind !== "number") return false;
  const small = unitNamed(table, large.smaller);
  if (unit?.kind === "unit" && unit.unit !== small) return false;
  const drawn = dash.tight && last.text.endsWith("'");
  // 24' - 150 and 24ft - 30in can only be subtractions; 24'-13" is more likely a slip, and is refused further on.
  if (number.value * small.size >= large.size && !(drawn && unit?.kind === "unit")) return false;
  if (drawn) return true;
  const inches = `${number.text} ${small.names[0]}`;
  throw new Unreadable(
    `"${last.text} - ${number.text}" may mean feet and inches or a subtraction; ` +
      `write "${last.text} ${inches}" or "${last.text} - 0 ${large.names[0]} ${inches}"`,
  );
}
