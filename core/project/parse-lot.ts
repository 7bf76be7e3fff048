import { explain } from "./explain.ts";
import { type Lot, lotVersion, lot as schema } from "./lot-schema.ts";
import { isObject } from "./migrate.ts";
import { nowhere, type Places, problemsAt, withReaders } from "./place-problems.ts";
import { type Problem, type ProblemParts, shorten } from "./problem.ts";
import { readJson } from "./read-json.ts";

export type ParsedLot =
  | { readonly ok: true; readonly lot: Lot }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Whether a text is meant for a lot file, so far as it can be read. */
export function isLotText(text: string): boolean {
  const { value } = readJson(text);
  return isObject(value) && value.format === "ribband-lot";
}

/**
 * Reads the text of a lot file. Never throws: a file that is not right comes back with every problem in it, each naming
 * the field, the value, what is allowed, and the line and column.
 */
export function parseLot(text: string): ParsedLot {
  const json = readJson(text);
  if (json.value === undefined) return { ok: false, problems: json.problems };
  const checked = checkLot(json.value, json.placeOf);
  if (json.problems.length === 0) return checked;
  return { ok: false, problems: withReaders(json.problems, checked.ok ? [] : checked.problems) };
}

function checkLot(value: unknown, placeOf: Places = nowhere): ParsedLot {
  const refuse = (...parts: ProblemParts[]): ParsedLot => ({
    ok: false,
    problems: problemsAt(parts, value, placeOf),
  });
  if (!isObject(value)) {
    return refuse({ path: "", found: shorten(value), allowed: "a lot: one JSON object in braces" });
  }
  const { version } = value;
  if (typeof version === "number" && Number.isInteger(version) && version > lotVersion) {
    const hint = "The file was saved by a newer Ribband: open it with that one.";
    return refuse({ path: "version", found: shorten(version), allowed: `at most ${lotVersion}`, hint });
  }
  const parsed = schema.safeParse(value);
  const references = [...checkIds(value), ...checkPrices(value), ...checkRemnants(value)];
  if (!parsed.success) return refuse(...explain(schema, value, parsed.error.issues), ...references);
  if (references.length > 0) return refuse(...references);
  return { ok: true, lot: parsed.data };
}

interface Entry {
  readonly path: string;
  readonly entry: { readonly [key: string]: unknown };
}

/** The entries of a lot's stock that are objects at all, with their paths. */
function stockEntries(value: unknown): Entry[] {
  const stock = isObject(value) && isObject(value.stock) ? value.stock : {};
  return ["rolls", "sheets", "bars"].flatMap((list) => {
    const entries = Array.isArray(stock[list]) ? (stock[list] as unknown[]) : [];
    return entries.flatMap((entry, i) => (isObject(entry) ? [{ path: `stock.${list}[${i}]`, entry }] : []));
  });
}

/** An id belongs to one entry of the whole stock. */
function checkIds(value: unknown): ProblemParts[] {
  const first = new Map<unknown, string>();
  return stockEntries(value).flatMap(({ path, entry: { id } }) => {
    const earlier = first.get(id);
    if (typeof id !== "string" || earlier === undefined) {
      first.set(id, path);
      return [];
    }
    const found = shorten(id);
    const fault = `is ${found}, as is ${earlier}.id`;
    return [{ path: `${path}.id`, found, fault, allowed: "an id that no other entry of the stock has" }];
  });
}

/** Of one material all new stock has a price or none has: a cost without some of its prices would mislead. */
function checkPrices(value: unknown): ProblemParts[] {
  const fresh = stockEntries(value).filter(({ entry }) => entry.remnant !== true);
  return fresh.flatMap(({ path, entry }) => {
    if (entry.price !== undefined) return [];
    const priced = fresh.find(
      ({ entry: other }) => other.material === entry.material && other.price !== undefined,
    );
    if (!priced) return [];
    const hint = `${priced.path}, of the same material, has one: all of a material have a price or none has.`;
    return [
      { path: `${path}.price`, found: "nothing", fault: "is missing", allowed: "the price of one", hint },
    ];
  });
}

/** A remnant is there so many times, never as often as is wanted. */
function checkRemnants(value: unknown): ProblemParts[] {
  return stockEntries(value).flatMap(({ path, entry }) => {
    if (entry.remnant !== true || entry.count !== undefined) return [];
    return [
      {
        path: `${path}.count`,
        found: "nothing",
        fault: "is missing",
        allowed: "how many there are of this remnant",
      },
    ];
  });
}
