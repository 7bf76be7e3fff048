/** Tables for people, as plain text in a fixed width. Whatever they are given, they hold nothing that commands a terminal. */
import { harmless } from "./harmless.ts";

export interface Column {
  readonly head: string;
  /** Figures stand at the right of their column, words at the left. */
  readonly align?: "right";
}

/** Width of a terminal that nobody has widened. */
const WIDTH = 80;
const GAP = "  ";
const INDENT = "  ";
/** No column of words is squeezed below this. */
const NARROWEST = 12;

/**
 * Prints a table with its heads and a rule, every line at most `width` characters (80) as long as its figures fit. Words
 * that are too long go on in the next line, broken at a space or after one of | / , - where they can be; nothing is left out.
 */
export function printTable(
  columns: readonly Column[],
  texts: readonly (readonly string[])[],
  width = WIDTH,
): string {
  const rows = texts.map((row) => row.map(harmless));
  const widths = fitted(columns, rows, width - INDENT.length);
  const line = (cells: readonly string[]) =>
    (INDENT + cells.map((cell, i) => padded(cell, widths[i], columns[i].align)).join(GAP)).trimEnd();
  const lines = [line(columns.map((column) => column.head)), line(widths.map((each) => "─".repeat(each)))];
  for (const row of rows) {
    const cells = row.map((cell, i) => broken(cell, widths[i]));
    const height = Math.max(...cells.map((parts) => parts.length));
    for (let k = 0; k < height; k++) lines.push(line(cells.map((parts) => parts[k] ?? "")));
  }
  return `${lines.join("\n")}\n`;
}

/** A heading with what stands under it; nothing when nothing does. */
export function section(heading: string, body: string): string {
  return body === "" ? "" : `${heading}\n${body}`;
}

/** A heading with sentences under it, each set in lines of at most 80 characters; nothing when there are none. */
export function findings(heading: string, sentences: readonly string[]): string {
  const hanging = "    ";
  const lines = (each: string) => broken(harmless(each), WIDTH - hanging.length, "");
  return section(heading, sentences.map((each) => `  - ${lines(each).join(`\n${hanging}`)}\n`).join(""));
}

/** Number of characters as they are counted on the screen: accents and signs beyond the first plane are one each. */
const lengthOf = (text: string) => [...text].length;

function fitted(columns: readonly Column[], rows: readonly (readonly string[])[], room: number): number[] {
  const widths = columns.map(({ head }, i) =>
    Math.max(lengthOf(head), ...rows.map((row) => lengthOf(row[i]))),
  );
  const free = () => room - widths.reduce((sum, each) => sum + each, 0) - GAP.length * (columns.length - 1);
  while (free() < 0) {
    // Squeeze the widest column of words.
    let widest = -1;
    columns.forEach(({ align, head }, i) => {
      const least = Math.max(NARROWEST, lengthOf(head));
      if (align !== "right" && widths[i] > least && (widest < 0 || widths[i] > widths[widest])) widest = i;
    });
    if (widest < 0) break;
    widths[widest]--;
  }
  return widths;
}

function padded(text: string, width: number, align: Column["align"]): string {
  const space = " ".repeat(Math.max(0, width - lengthOf(text)));
  return align === "right" ? space + text : text + space;
}

/** Breaks a text at spaces, and after any character of `joints`; within a word only where nothing else is left. */
function broken(text: string, width: number, joints = "|/,-"): string[] {
  const lines: string[] = [];
  let rest = [...text];
  while (rest.length > width) {
    let at = width;
    while (at > 0 && rest[at] !== " " && rest[at - 1] !== " " && !joints.includes(rest[at - 1])) at--;
    if (at === 0) at = width;
    lines.push(rest.slice(0, at).join("").trimEnd());
    rest = rest.slice(rest[at] === " " ? at + 1 : at);
  }
  return [...lines, rest.join("")];
}
