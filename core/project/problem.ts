/** No field of a file has so long a path, characters; only one that is nested too deep has. */
const LONGEST_PATH = 60;

/** One thing that is wrong in a project file, told so that the reader can put it right without asking. */
export interface Problem {
  /** The field, e.g. `shell.floor.stations[2].depth`; empty for the file as a whole. */
  readonly path: string;
  /** The value found there, shortened; `nothing` where a field is missing. */
  readonly found: string;
  /** What is allowed there, in plain words, with range and unit. */
  readonly allowed: string;
  /** A further sentence for a mistake that is easy to recognise. */
  readonly hint?: string;
  /** The whole message: place, field, value, what is allowed, and a hint where there is one. */
  readonly sentence: string;
  /** Line and column in the text, from 1; absent when the project did not come from a text. */
  readonly place?: TextPlace;
}

export interface TextPlace {
  readonly line: number;
  readonly column: number;
}

export interface ProblemParts {
  readonly path: string;
  /** The name of the list entry that the field belongs to, where it has one. */
  readonly owner?: string | undefined;
  readonly found: string;
  /** What is wrong, as the sentence's predicate: `is 9.1`, `is missing`. By default `is` and the value found. */
  readonly fault?: string;
  readonly allowed: string;
  /** What is right, as a clause: by default `it must be` and what is allowed. */
  readonly remedy?: string;
  /** A further sentence for a mistake that is easy to recognise. */
  readonly hint?: string | undefined;
}

/** Puts a problem's parts into one sentence. */
export function problem(parts: ProblemParts, place?: TextPlace): Problem {
  const { path, found, allowed } = parts;
  const where = place ? `Line ${place.line}, column ${place.column}: ` : "";
  const fault = parts.fault ?? `is ${found}`;
  const remedy = parts.remedy ?? `it must be ${allowed}`;
  const { hint } = parts;
  const field = path !== "" ? readable(path) : place ? "the file" : "The file";
  const owned = ownedField(field, parts.owner);
  const end = remedy.endsWith("?") ? "" : ".";
  const sentence = `${where}${owned} ${fault}; ${remedy}${end}${hint ? ` ${hint}` : ""}`;
  return { path, found, allowed, sentence, ...(hint && { hint }), ...(place && { place }) };
}

/** A path that a person can take in: of a very long one its beginning and its end. */
const readable = (path: string): string =>
  path.length > LONGEST_PATH ? `${path.slice(0, LONGEST_PATH / 2)}…${path.slice(-(LONGEST_PATH / 4))}` : path;

/** A field with the name of the entry that it belongs to: `layup[3].material (foot)`. */
export function ownedField(path: string, owner: string | undefined): string {
  return owner === undefined ? path : `${path} (${owner})`;
}

/** A field's path as a person writes it: `shell.floor.stations[2].depth`. */
export function formatPath(path: readonly PropertyKey[]): string {
  let text = "";
  for (const key of path) {
    if (typeof key === "number") text += `[${key}]`;
    else if (/^[A-Za-z_][\w-]{0,59}$/.test(String(key)))
      text += text === "" ? String(key) : `.${String(key)}`;
    else text += `[${shorten(String(key))}]`;
  }
  return text;
}

/** A value as it is quoted in a message: short, on one line, and telling text from numbers. */
export function shorten(value: unknown): string {
  if (value === undefined) return "nothing";
  if (value === null) return "null";
  if (Array.isArray(value)) return `a list of ${value.length} ${value.length === 1 ? "entry" : "entries"}`;
  if (typeof value === "object") return "an object";
  if (typeof value !== "string") return String(value);
  const characters = [...value];
  return JSON.stringify(characters.length > 40 ? `${characters.slice(0, 37).join("")}…` : value);
}
