import { formatPath, type Problem, type ProblemParts, problem, shorten, type TextPlace } from "./problem.ts";

/**
 * A strict JSON reader that knows where everything stands. JSON.parse is not enough here: its messages differ from
 * engine to engine and often carry no position, it stops at the first fault, and it takes the last of two equal keys
 * without a word, which loses a figure in silence.
 */
export interface JsonText {
  /** The value; undefined when the text could not be read to its end. A word or number that is not JSON reads as NaN. */
  readonly value: unknown;
  /** Everything wrong with the text as JSON, in the order of the text. */
  readonly problems: readonly Problem[];
  /** Where a field's value begins in the text, by its path; undefined for a field that is not there. */
  readonly placeOf: (path: string) => TextPlace | undefined;
}

/** Deeper nesting than this is no project file, and would only exhaust the stack. */
const deepest = 50;

/** Reads a text as JSON and never throws: what is wrong is in `problems`, each with its field, line and column. */
export function readJson(text: string): JsonText {
  const problems: Problem[] = [];
  const starts = new Map<string, number>();
  const keys: PropertyKey[] = [];
  const lines = lineStarts(text);
  let at = text.charCodeAt(0) === 0xfeff ? 1 : 0; // a byte order mark is harmless

  function placeOf(path: string): TextPlace | undefined {
    const offset = starts.get(path);
    return offset === undefined ? undefined : placeAt(lines, offset);
  }

  function report(offset: number, parts: Omit<ProblemParts, "path">) {
    problems.push(problem({ path: formatPath(keys), ...parts }, placeAt(lines, offset)));
  }

  /** Reports that something else was wanted here, and gives up. */
  function stop(wanted: string, hint?: string): never {
    skipBlank();
    const remedy = `${wanted} was wanted`;
    if (at >= text.length) {
      const fault = "ends here: the text is cut short";
      report(at, { found: "the end of the text", allowed: wanted, fault, remedy });
    } else {
      const found = shorten(text.slice(at).match(/^[\w.+-]{1,20}|./su)?.[0]);
      report(at, { found, allowed: wanted, fault: `goes on with ${found}`, remedy, hint });
    }
    throw new Unreadable();
  }

  function skipBlank() {
    while (at < text.length && " \t\n\r".includes(text.charAt(at))) at++;
  }

  function readValue(): unknown {
    skipBlank();
    starts.set(formatPath(keys), at);
    if (keys.length > deepest) {
      const allowed = `nested at most ${deepest} deep`;
      report(at, { found: "deeper nesting", allowed, fault: "is nested too deep" });
      throw new Unreadable();
    }
    const first = text.charAt(at);
    if (first === "{") return readObject();
    if (first === "[") return readList();
    if (first === '"') return readString();
    const word = text.slice(at, at + 400).match(/^[\w.+-]+/)?.[0];
    if (word === undefined) return stop("a value", markHints[first]);
    at += word.length;
    if (word in words) return words[word];
    if (/^-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?$/.test(word)) return Number(word) || 0; // no minus nought
    const allowed = "a number, a text in double quotes, true, false or null";
    report(at - word.length, { found: word, allowed, hint: hintFor(word) });
    return Number.NaN;
  }

  function readObject(): Record<string, unknown> {
    const object: Record<string, unknown> = {};
    readMembers("}", () => {
      if (text.charAt(at) !== '"')
        stop("a key in double quotes", markHints[text.charAt(at)] ?? decimalHint(text.charAt(at)));
      const keyAt = at;
      const key = readString();
      keys.push(key);
      skipBlank();
      if (text.charAt(at) !== ":") stop('":" after the key');
      at++;
      if (Object.hasOwn(object, key)) {
        const fault = "is written twice";
        report(keyAt, {
          found: "a second value",
          allowed: "written once",
          fault,
          hint: "Remove one of the two.",
        });
      }
      // defineProperty, since plain assignment to the key __proto__ would set the prototype instead.
      const slot = { value: readValue(), enumerable: true, configurable: true, writable: true };
      Object.defineProperty(object, key, slot);
      keys.pop();
    });
    return object;
  }

  function readList(): unknown[] {
    const list: unknown[] = [];
    readMembers("]", () => {
      keys.push(list.length);
      list.push(readValue());
      keys.pop();
    });
    return list;
  }

  /** The members between an opening bracket and `closing`, parted by commas. */
  function readMembers(closing: string, readMember: () => void) {
    at++;
    skipBlank();
    let next = text.charAt(at);
    while (next !== closing) {
      readMember();
      skipBlank();
      next = text.charAt(at);
      if (next === closing) break;
      if (next !== ",") stop(`"," or "${closing}"`, markHints[next]);
      at++;
      skipBlank();
      next = text.charAt(at);
      if (next === closing) {
        const remedy = `remove the comma before "${closing}"`;
        report(at, { found: "a comma at the end", allowed: "no comma", fault: "ends in a comma", remedy });
      }
    }
    at++;
  }

  function readString(): string {
    const from = at;
    at++;
    while (at < text.length && text.charAt(at) !== '"') {
      if (text.charCodeAt(at) < 0x20) stop("a text on one line", "A closing quote may be missing.");
      at += text.charAt(at) === "\\" ? 2 : 1;
    }
    if (at >= text.length) stop("a closing quote");
    at++;
    const quoted = text.slice(from, at);
    if (quoted.includes("\uFFFD")) {
      const fault = "holds characters that could not be read";
      report(from, { found: shorten(quoted), allowed: "UTF-8 text", fault, hint: saveAsUtf8 });
    }
    try {
      return JSON.parse(quoted) as string;
    } catch {
      const allowed = 'a text with no other escapes than \\" \\\\ \\/ \\b \\f \\n \\r \\t \\u0000';
      report(from, { found: shorten(quoted), allowed });
      return "";
    }
  }

  try {
    skipBlank();
    if (at >= text.length) {
      report(0, { found: "nothing", allowed: "a JSON object", fault: "is empty" });
    } else if (text.slice(0, 200).includes("\0")) {
      const fault = "is not plain text";
      report(0, { found: "other bytes", allowed: "UTF-8 text", fault, hint: saveAsUtf8 });
    } else {
      const value = readValue();
      skipBlank();
      if (at < text.length) stop("the end of the text");
      return { value, problems, placeOf };
    }
  } catch (fault) {
    if (!(fault instanceof Unreadable)) throw fault;
  }
  return { value: undefined, problems, placeOf };
}

/** Thrown inside the reader where the text cannot be read any further; the problem has been reported already. */
class Unreadable extends Error {}

const words: Record<string, unknown> = { __proto__: null, true: true, false: false, null: null };
const saveAsUtf8 = "Save the file as UTF-8.";

/** Marks of other languages, where JSON has none. */
const markHints: Readonly<Record<string, string>> = {
  "/": "JSON has no comments.",
  "#": "JSON has no comments.",
  "'": "JSON writes texts in double quotes.",
};

/** After `"length": 9,` a digit is most likely the rest of a figure written with a decimal comma. */
function decimalHint(mark: string): string | undefined {
  return /\d/.test(mark) ? "A decimal figure is written with a point." : undefined;
}

/** The usual slips of people who write JSON by hand or print it from another language. */
function hintFor(word: string): string | undefined {
  if (/^[-+]?(nan|inf|infinity)$/i.test(word)) return "Something worked out this figure and failed.";
  if (/^(true|false|null|none)$/i.test(word)) return "Write true, false or null in small letters.";
  if (/^[-+]?[\d.]+(mm|cm|m)$/.test(word)) return "Lengths are plain numbers in mm.";
  if (/^[-+]?[\d.]+$/.test(word)) return "Write a number as in 0.5, 12 or -3.";
  return /^[A-Za-z]/.test(word) ? `Write a text in double quotes: "${word}".` : undefined;
}

function lineStarts(text: string): number[] {
  const starts = [0];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return starts;
}

function placeAt(lines: readonly number[], offset: number): TextPlace {
  let line = 0;
  let past = lines.length;
  while (past - line > 1) {
    const middle = (line + past) >> 1;
    if (lines[middle]! <= offset) line = middle;
    else past = middle;
  }
  return { line: line + 1, column: offset - lines[line]! + 1 };
}
