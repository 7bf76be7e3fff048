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
  waterLine: "water line, below the rim",
  stations: "depths along the length",
};

export const labelOf = (key: string | number): string =>
  typeof key === "number"
    ? `${key + 1}`
    : (labels[key] ?? key.replaceAll(/([A-Z])/g, (_, letter: string) => ` ${letter.toLowerCase()}`));

/** What the choices of a list are called. */
const choices: Readonly<Record<string, string>> = {
  ell: "L-shaped",
  along: "along the wall",
  round: "all round",
  end: "at an end",
  corner: "in a corner",
};

export const choiceName = (word: string): string => choices[word] ?? word.replaceAll("-", " ");
