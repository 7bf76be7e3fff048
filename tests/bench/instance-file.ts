/** Files of packing and cutting instances: each instance is read by itself, and an odd one says what is wrong with it. */
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, extname, join, sep } from "node:path";
import type { z } from "zod";
import { systemReason } from "../../core/cli/bad-input.ts";
import { isObject } from "../../core/project/migrate.ts";
import { formatPath, problem, shorten } from "../../core/project/problem.ts";
import { readJson } from "../../core/project/read-json.ts";

type Path = readonly PropertyKey[];

/** An instance with the name that its row bears, or a sentence that says why it cannot be tried. */
export type Entry<T> = { readonly name: string; readonly instance: T } | Odd;

/** What cannot be tried, and a sentence that says why. */
export interface Odd {
  readonly name: string;
  readonly problem: string;
}

/** An instance that is none: the field, what is the matter with it, and what is wanted there. */
export class OddInstance extends Error {
  constructor(path: Path, fault: string, wanted: string) {
    const remedy = `${wanted} is wanted`;
    super(problem({ path: formatPath(path), found: "", fault, allowed: wanted, remedy }).sentence);
  }
}

/**
 * The instances of a file, or of all files in a folder and in those within it, in the order of their names; hidden ones are left alone. What
 * cannot be read is an entry with the reason.
 *
 * @param read the instances in a file's text, under the file's name where they have none
 */
export function* instancesAt<T>(
  path: string,
  read: (text: string, name: string) => readonly Entry<T>[],
): Generator<Entry<T>> {
  if (!existsSync(path))
    return yield { name: path, problem: "cannot be read: there is no such file or folder." };
  const files = inFolder(path) ?? [{ file: path, name: basename(path) }];
  if (files.length === 0)
    yield { name: path, problem: "is a folder without files; files *.json with instances are wanted." };
  for (const { file, name } of files) yield* instancesIn(file, name, read);
}

/** The files in a folder, by their paths and by their names as seen from it; null when it is none. */
function inFolder(path: string): { readonly file: string; readonly name: string }[] | null {
  if (!statSync(path, { throwIfNoEntry: false })?.isDirectory()) return null;
  const names = readdirSync(path, { recursive: true, encoding: "utf8" }).map((name) =>
    name.split(sep).join("/"),
  );
  return names
    .filter((name) => !/(^|\/)\./.test(name))
    .sort()
    .map((name) => ({ file: join(path, name), name }))
    .filter(({ file }) => !statSync(file, { throwIfNoEntry: false })?.isDirectory());
}

function instancesIn<T>(
  path: string,
  name: string,
  read: (text: string, name: string) => readonly Entry<T>[],
): readonly Entry<T>[] {
  const ending = extname(name);
  if (ending.toLowerCase() !== ".json")
    return [{ name, problem: "is no file of instances; one that ends in .json is wanted." }];
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    return [{ name, problem: `cannot be read: ${systemReason(error)}.` }];
  }
  return read(text, name.slice(0, -ending.length));
}

/**
 * Reads all instances of a file: the file is one, or a list of them, by itself or under `instances`.
 *
 * @param fallback name for an instance that has none, numbered where there are several
 * @param read makes an instance of the value at a path of the file, under a name; throws OddInstance for one that is none
 */
export function readEach<T>(
  text: string,
  fallback: string,
  read: (value: unknown, path: Path, name: string) => T,
): Entry<T>[] {
  const { value, problems } = readJson(text);
  if (value === undefined) return [{ name: fallback, problem: problems[0].sentence }];
  const entry = (each: unknown, path: Path, name: string): Entry<T> => {
    const fault = problems.find((found) => found.path.startsWith(formatPath(path)));
    if (fault) return { name, problem: fault.sentence };
    try {
      return { name, instance: read(each, path, name) };
    } catch (error) {
      if (!(error instanceof OddInstance)) throw error;
      return { name, problem: error.message };
    }
  };
  const root = isObject(value) ? ["instances"] : [];
  const list = isObject(value) ? value.instances : value;
  if (!Array.isArray(list)) return [entry(value, [], nameOf(value) ?? fallback)];
  const entries = list.map((each: unknown, k) =>
    entry(each, [...root, k], nameOf(each) ?? (list.length > 1 ? `${fallback}-${k}` : fallback)),
  );
  // What is wrong with the text between the instances is nobody's but the file's.
  const between = problems.filter(
    ({ path }) => !list.some((_, k) => path.startsWith(formatPath([...root, k]))),
  );
  entries.push(...between.map(({ sentence }) => ({ name: fallback, problem: sentence })));
  if (entries.length > 0) return entries;
  const { message } = new OddInstance(root, "is an empty list", "one instance or more");
  return [{ name: fallback, problem: message }];
}

/** A value by a schema whose messages say what is wanted at each place; OddInstance for the first place that is not so. */
export function fitted<S extends z.ZodType>(schema: S, value: unknown, path: Path): z.output<S> {
  const { data, error } = schema.safeParse(value);
  if (!error) return data as z.output<S>;
  const [issue] = error.issues;
  const inside = (at: unknown, key: PropertyKey) =>
    (at as Readonly<Record<PropertyKey, unknown>> | undefined)?.[key];
  const found = issue.path.reduce(inside, value);
  const fault = found === undefined ? "is missing" : `is ${shorten(found)}`;
  throw new OddInstance([...path, ...issue.path], fault, issue.message);
}

/** The instances alone, where every one is wanted. Throws an Error with the first problem. */
export function allSound<T>(entries: readonly Entry<T>[]): T[] {
  return entries.map((entry) => {
    if ("problem" in entry) throw new Error(`${entry.name}: ${entry.problem}`);
    return entry.instance;
  });
}

/** The name that an instance has itself. */
function nameOf(value: unknown): string | undefined {
  const name = isObject(value) ? value.name : undefined;
  return (typeof name === "string" && name !== "") || typeof name === "number" ? String(name) : undefined;
}
