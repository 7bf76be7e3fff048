/** What each figure of the shell is called, by its key in the project file; other keys are told as they are spelt. */
const labels: Readonly<Record<string, string>> = {
  kind: "kind",
  cornerRadius: "corner radius",
  reflexRadius: "inner corner radius",
  roundEnd: "round end",
  cutLength: "cut, along",
  cutWidth: "cut, across",
  cutAt: "cut at",
  breakRadius: "rounding of breaks",
  crossFall: "cross fall",
  depthAtWall: "depth at the wall",
  slopeDeg: "slope of the sides",
  draftDeg: "draft",
  cove: "floor to wall",
  step: "other inner edges",
  nose: "noses",
  pairs: "between two faces",
  between: "between",
  at: "at",
  endRadius: "radius of its ends",
  from: "from",
  to: "to",
  part: "place along it",
  rimRadius: "radius at the rim",
  alongPart: "along",
  acrossPart: "across",
  footBand: "band at the foot of the wall",
  stepBand: "bands on other inner edges",
  noseBand: "bands on noses",
  onto: "onto the floor",
  overCove: "over the cove",
  leastWall: "on walls from a length of",
  leastWidth: "on treads from a width of",
  leastRun: "on runs from a length of",
  top: "top, below the rim",
  clear: "clear of corners and fittings",
  laidThickness: "laid before the reinforcement",
  cornerTurnDeg: "a corner piece turns more than",
  jointStagger: "between joints of plies",
  plyStep: "each ply stops short by",
  trim: "cut wider all round by",
  alike: "cut as one if alike within",
  kerf: "saw cut",
  bevelDeg: "bevel",
  waterLine: "water line, below the rim",
  stations: "depths along the length",
};

export const labelOf = (key: string | number): string =>
  labels[key] ?? String(key).replaceAll(/([A-Z])/g, (_, letter: string) => ` ${letter.toLowerCase()}`);

/** What the entries of a short list of fixed length are called, by the key of the list; a point of the plan otherwise. */
const entries: Readonly<Record<string, readonly string[]>> = {
  cornerRadius: ["shallow right", "deep right", "deep left", "shallow left"],
  between: ["between", "and"],
};
const POINT = ["along", "across"];

/** What a figure is called by its path: by its key, or by its place in a point or a list of fixed length. */
export function labelAt(path: readonly (string | number)[]): string {
  const last = path[path.length - 1];
  if (typeof last === "string") return labelOf(last);
  const owner = path[path.length - 2];
  const names = typeof owner === "string" ? (entries[owner] ?? POINT) : POINT;
  return names[last] ?? `${last + 1}`;
}

/** What the choices of a list are called. */
const choices: Readonly<Record<string, string>> = {
  ell: "L-shaped",
  along: "along the wall",
  round: "all round",
  end: "at an end",
  corner: "in a corner",
};

export const choiceName = (word: string): string => choices[word] ?? word.replaceAll("-", " ");
