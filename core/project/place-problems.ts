import { ownerOf } from "./owner.ts";
import { type Problem, type ProblemParts, problem, type TextPlace } from "./problem.ts";

/** Where a field stands in the text it was read from. */
export type Places = (path: string) => TextPlace | undefined;

/** For a value that was not read from a text. */
export const nowhere: Places = () => undefined;

/** Problems of a file with their places in its text, in its order, their fields named by the entries that they belong to. */
export function problemsAt(parts: readonly ProblemParts[], file: unknown, placeOf: Places): Problem[] {
  return inOrder(
    parts.map((each) => problem({ ...each, owner: ownerOf(each.path, file) }, placeNear(each.path, placeOf))),
  );
}

/** What the reader of a text found wrong and what its schema did, each once, in the order of the text. */
export function withReaders(told: readonly Problem[], others: readonly Problem[]): Problem[] {
  // A word that is no JSON was read as NaN: the word itself is the reader's to tell, what is wanted there the schema's.
  const standsFor = (one: Problem, other: Problem) => other.path === one.path && other.found === "NaN";
  const problems = told.map((each) => {
    const { path, found, hint, place } = each;
    const other = others.find((one) => standsFor(each, one));
    return other ? problem({ path, found, hint, allowed: other.allowed }, place) : each;
  });
  const untold = others.filter((other) => !told.some((each) => standsFor(each, other)));
  return inOrder([...problems, ...untold]);
}

/** Where a field stands in the text; for one that does not stand there, the nearest object around it. */
function placeNear(path: string, placeOf: Places): TextPlace | undefined {
  const own = placeOf(path);
  if (own || path === "") return own;
  return placeNear(path.slice(0, Math.max(0, path.lastIndexOf("."), path.lastIndexOf("["))), placeOf);
}

/** In the order of the text; problems without a place stay in the order in which they were found. */
function inOrder(problems: Problem[]): Problem[] {
  const line = ({ place }: Problem) => place?.line ?? 0;
  const column = ({ place }: Problem) => place?.column ?? 0;
  return problems.sort((a, b) => line(a) - line(b) || column(a) - column(b));
}
