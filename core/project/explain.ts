import { z } from "zod";
import { readLength } from "../units/length.ts";
import { allowedBy, keysOf, kindsOf, listed, quoted, wordsOf } from "./allowed.ts";
import { branchFor, fieldAt } from "./branch.ts";
import { lengthMeasure, measures } from "./figures.ts";
import { nearestWord } from "./nearest-word.ts";
import { formatPath, type ProblemParts, shorten } from "./problem.ts";

type Path = readonly PropertyKey[];
type Field = NonNullable<ReturnType<typeof fieldAt>>;

/**
 * Turns what a schema found wrong with a value into messages, each field told on its own. Of a union only the branch
 * that was meant is spoken of. `path` leads to the value; the paths of the issues go on from there.
 */
export function explain(
  schema: z.core.$ZodType,
  value: unknown,
  issues: readonly z.core.$ZodIssue[],
  path: Path = [],
): ProblemParts[] {
  /** Fields told by the unknown key that stands for them: a name that is written wrongly is one mistake, not also a missing one. */
  const told = new Set<string>();
  const problems = issues.flatMap((issue) => {
    const field = fieldAt(schema, value, issue.path);
    if (!field) throw new Error(`The schema knows no field ${formatPath(issue.path)}.`);
    const full = [...path, ...issue.path];
    if (issue.code === "unrecognized_keys") {
      return issue.keys.map((key) => {
        const { missing, known } = keysAt(field);
        const meant = nearestWord(key, missing);
        if (meant) told.add(formatPath([...full, meant]));
        return unknownKey([...full, key], meant ?? nearestWord(key, known), known);
      });
    }
    const branch = issue.code === "invalid_union" ? meantBranch(field) : undefined;
    if (branch) return explain(branch.schema, field.value, branch.issues, full);
    return [wrongValue(field, full)];
  });
  return problems.filter(({ path, found }) => found !== shorten(undefined) || !told.has(path));
}

/** The branch that a value was meant for, and what is wrong with the value by it; undefined if it fits none. */
function meantBranch({ schema, value }: Field) {
  const branch = schema instanceof z.ZodUnion ? branchFor(schema, value) : undefined;
  const issues = branch && z.safeParse(branch, value).error?.issues;
  return branch && issues && { schema: branch, issues };
}

function wrongValue({ schema, value }: Field, path: Path): ProblemParts {
  // A union that is told apart by its kind answers for that key too, when the kind is none that it knows.
  const words = path.at(-1) === "kind" && schema instanceof z.ZodUnion ? kindsOf(schema) : wordsOf(schema);
  const allowed = words.length > 0 ? listed(words.map(quoted), "or") : allowedBy(schema);
  const found = shorten(value);
  return {
    path: formatPath(path),
    found,
    fault: value === undefined ? "is missing" : `is ${found}`,
    allowed,
    hint: hintFor(schema, value, words),
  };
}

/** The keys that an object may have, and those of them that it has not. */
function keysAt({ schema, value }: Field): { known: readonly string[]; missing: readonly string[] } {
  const branch = schema instanceof z.ZodUnion ? branchFor(schema, value) : schema;
  const known = branch instanceof z.ZodObject ? keysOf(branch) : [];
  return { known, missing: known.filter((word) => !Object.hasOwn(value as object, word)) };
}

/** `nearest`: the key that it seems to stand for; the others are listed after it. */
function unknownKey(path: Path, nearest: string | undefined, known: readonly string[]): ProblemParts {
  const others = listed(
    known.filter((word) => word !== nearest),
    "or",
  );
  const meant =
    others === "" ? `did you mean ${nearest}?` : `did you mean ${nearest}? Else known here: ${others}`;
  return {
    path: formatPath(path),
    found: `the key ${shorten(String(path.at(-1)))}`,
    fault: "is not known here",
    allowed: listed(known, "or"),
    remedy: nearest ? meant : `known here: ${others}`,
  };
}

/** The mistakes that are easy to recognise: a unit in the text, metres for millimetres, a number in quotes, a near word. */
function hintFor(schema: z.core.$ZodType, value: unknown, words: readonly string[]): string | undefined {
  const isVersion = schema instanceof z.ZodLiteral && typeof schema.value === "number";
  if (isVersion && typeof value === "string" && /^\d+$/.test(value)) return hintForNumber(value);
  if (typeof value === "string" && words.length > 0) {
    const nearest = nearestWord(value, words);
    return nearest && `Did you mean ${quoted(nearest)}?`;
  }
  const number = schema instanceof z.ZodUnion ? schema.options.find((o) => o instanceof z.ZodNumber) : schema;
  if (!(number instanceof z.ZodNumber)) return undefined;
  const isLength = measures.get(number)?.measure === lengthMeasure;
  if (typeof value === "string") return isLength ? hintForLength(value) : hintForNumber(value);
  if (typeof value !== "number" || Number.isNaN(value)) return undefined;
  if (!Number.isFinite(value)) return "That is too large to read.";
  const mm = rounded(value * 1000);
  const metres = isLength && Math.abs(value) < 30 && number.safeParse(mm).success;
  return metres ? `This looks like metres: write ${mm}.` : undefined;
}

function hintForLength(text: string): string {
  const length = readLength(text);
  const advice = length.ok ? `: write ${rounded(length.value)}` : "";
  return `Lengths are plain numbers in mm, without quotes${advice}.`;
}

function hintForNumber(text: string): string | undefined {
  const number = Number.parseFloat(text);
  return Number.isFinite(number) ? `Write the number alone, without quotes: ${number}.` : undefined;
}

/** Without the noise that a change of unit leaves in the last digits. */
const rounded = (value: number) => Number(value.toPrecision(12));
