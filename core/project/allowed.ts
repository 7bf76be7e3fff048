import { z } from "zod";
import { measures } from "./figures.ts";

/**
 * What a schema allows, in plain words, read from the schema itself, so that messages and limits cannot drift apart:
 * "a length in mm from 600 to 2800", "one of shallow or deep".
 */
export function allowedBy(schema: z.core.$ZodType): string {
  if (schema instanceof z.ZodOptional) return allowedBy(schema.unwrap());
  if (schema instanceof z.ZodNumber) {
    const measure = measures.get(schema)?.measure ?? "a number";
    return `${measure} from ${schema.minValue} to ${schema.maxValue}`;
  }
  if (schema instanceof z.ZodString) {
    if (schema.def.checks?.some((check) => check._zod.def.check === "string_format")) {
      return `a name of small letters, digits and hyphens such as ledge-1, at most ${schema.maxLength} long`;
    }
    return `a text of ${schema.minLength ?? 0} to ${schema.maxLength} characters`;
  }
  if (schema instanceof z.ZodBoolean) return "true or false";
  if (schema instanceof z.ZodLiteral)
    return listed(
      [...schema.values].map((value) => JSON.stringify(value)),
      "or",
    );
  if (schema instanceof z.ZodEnum) return listed(wordsOf(schema).map(quoted), "or");
  if (schema instanceof z.ZodTuple) return `a list of exactly ${schema.def.items.length} entries`;
  if (schema instanceof z.ZodArray) {
    const { least, most } = entriesOf(schema);
    return `a list of ${least} to ${most} entries`;
  }
  if (schema instanceof z.ZodObject) return `an object with ${listed(neededKeys(schema).map(quoted), "and")}`;
  if (schema instanceof z.ZodUnion) {
    const kinds = kindsOf(schema);
    return kinds.length > 0
      ? `an object whose kind is ${listed(kinds.map(quoted), "or")}`
      : schema.options.map(allowedBy).join(", or ");
  }
  throw new Error(`No words yet for a schema of the type ${schema._zod.def.type}.`);
}

/** How many entries a list may have. */
export function entriesOf(schema: z.ZodArray): { readonly least: number; readonly most: number } {
  let [least, most] = [0, Number.POSITIVE_INFINITY];
  for (const { _zod } of schema.def.checks ?? []) {
    const check = _zod.def as {
      readonly check: string;
      readonly minimum?: number;
      readonly maximum?: number;
    };
    if (check.check === "min_length") least = check.minimum ?? least;
    if (check.check === "max_length") most = check.maximum ?? most;
  }
  return { least, most };
}

/** The keys that an object may have. */
export function keysOf(schema: z.ZodObject): string[] {
  return Object.keys(schema.shape);
}

/** Those keys of an object that it cannot be without; all, where it needs none. */
function neededKeys(schema: z.ZodObject): string[] {
  const needed = keysOf(schema).filter((key) => !(schema.shape[key] instanceof z.ZodOptional));
  return needed.length > 0 ? needed : keysOf(schema);
}

/** The words that a literal or an enumeration allows; empty for anything else. */
export function wordsOf(schema: z.core.$ZodType): string[] {
  if (schema instanceof z.ZodLiteral) return [...schema.values].filter((value) => typeof value === "string");
  return schema instanceof z.ZodEnum ? schema.options.map(String) : [];
}

/** The kinds of a union that is told apart by its key `kind`; empty for any other union. */
export function kindsOf(schema: z.ZodUnion): string[] {
  if (!(schema instanceof z.ZodDiscriminatedUnion)) return [];
  return schema.options.flatMap((option) =>
    option instanceof z.ZodObject ? wordsOf(option.shape.kind) : [],
  );
}

/** `a`, `a or b`, `a, b or c`. */
export function listed(words: readonly string[], join: "and" | "or"): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} ${join} ${words.at(-1)}`;
}

/** A word as it stands in the file. */
export const quoted = (word: string) => JSON.stringify(word);
