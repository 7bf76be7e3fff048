/**
 * Project files broken in every way that files get broken: cut short, mistyped, in the wrong unit, overwritten, made by
 * a program that failed. Made from the demo projects, the same ones on every run.
 */
import { demoNames, demoText } from "./demo-files.ts";

export interface BrokenFile {
  /** The demo and what was done to it. */
  readonly name: string;
  readonly text: string;
  /** The field that a message must name; a pattern where it is not one only. */
  readonly names: string | RegExp;
}

/** What a demo becomes: a text, and the field that a message must name. */
type Damage = Omit<BrokenFile, "name">;
type Path = readonly (string | number)[];

/** Every broken file: about sixty for each demo. */
export function brokenFiles(): BrokenFile[] {
  return demoNames.flatMap((demo, i) => {
    const text = demoText(demo);
    const damages = [
      ...brokenTexts(text),
      ...brokenFigures(text, i),
      ...brokenParts(text),
      ...brokenNames(text),
    ];
    return damages.map(([what, damage]) => ({ name: `${demo}: ${what}`, ...damage }));
  });
}

const wholeFile = /^$/;
const anyField = /./;

/** Spoilt as a text, before anything in it means something. */
function brokenTexts(text: string): [string, Damage][] {
  const cuts = [0.04, 0.13, 0.22, 0.31, 0.41, 0.52, 0.61, 0.74, 0.83, 0.95];
  const half = text.slice(0, text.indexOf(":", text.length / 2) + 2);
  return [
    ...cuts.map((part): [string, Damage] => [
      `cut short at ${part * 100} %`,
      { text: text.slice(0, Math.floor(text.length * part)), names: anyField },
    ]),
    ["last brace lost", { text: text.trimEnd().slice(0, -1), names: wholeFile }],
    ["written twice in a row", { text: text + text, names: wholeFile }],
    [
      "second half written over with noughts",
      { text: half + "\0".repeat(text.length - half.length), names: anyField },
    ],
    ["first half lost", { text: text.slice(text.length / 2), names: wholeFile }],
    ["saved as UTF-16", { text: Buffer.from(text, "utf16le").toString("utf8"), names: wholeFile }],
    ["a name saved as Latin-1", { text: withRaw(text, ["name"], '"Pl\uFFFDver"'), names: "name" }],
    ["all in a list", { text: `[${text}]`, names: wholeFile }],
    ["all in quotes", { text: JSON.stringify(text), names: wholeFile }],
    ["braces in front", { text: `${'{"a":'.repeat(60000)}${text}`, names: anyField }],
    ["comma lost", { text: text.replace(",", ""), names: wholeFile }],
    ["comma too many", { text: text.replace(/\n {2}\},/, ",\n  },"), names: "shell" }],
    ["single quotes", { text: text.replaceAll('"', "'"), names: wholeFile }],
    ["a comment", { text: text.replace('"shell"', '// ours\n  "shell"'), names: wholeFile }],
    [
      "a quote lost",
      { text: text.replace('"rectangle"', '"rectangle').replace('"ribband"', '"ribband'), names: "format" },
    ],
    [
      "a key twice",
      { text: text.replace('"waterLine"', '"waterLine": 100,\n    "waterLine"'), names: "shell.waterLine" },
    ],
    ["brackets without end", { text: withRaw(text, ["layup"], "[".repeat(80000)), names: /^layup\[0\]/ }],
  ];
}

/** Figures that are none, or not in mm. Which figures is told by `turn`, so that each demo has others. */
function brokenFigures(text: string, turn: number): [string, Damage][] {
  const raw = [
    '"3.8 m"',
    '"3800"',
    "NaN",
    "-Infinity",
    "1e999",
    "-1e300",
    "null",
    "true",
    "[]",
    "{}",
    '""',
    "0x10",
    "3,8",
    "12'6",
  ];
  const figures = numbersIn(JSON.parse(text));
  return raw.map((word, i): [string, Damage] => {
    const path = figures[(turn * 31 + i * 53) % figures.length];
    const field = written(path);
    // A comma or a mark in a figure ends it: what comes after is told as a fault of what holds the figure.
    const names = word === "3,8" || word === "12'6" ? startOf(field) : field;
    return [`${field} is ${word}`, { text: withRaw(text, path, word), names }];
  });
}

/** Parts that are missing, swapped, renamed or out of range. */
function brokenParts(text: string): [string, Damage][] {
  const set = (path: Path, value: unknown, names?: string): [string, Damage] => [
    `${written(path)} is ${JSON.stringify(value)}`.slice(0, 80),
    { text: withRaw(text, path, JSON.stringify(value)), names: names ?? written(path) },
  ];
  const without = (path: Path): [string, Damage] => [
    `${written(path)} left out`,
    { text: withRaw(text, path, undefined), names: written(path) },
  ];
  return [
    ...["shell", "materials", "shop", "rules", "layup"].map((key) => without([key])),
    without(["shell", "outline", "kind"]),
    without(["shell", "floor", "stations", 0, "depth"]),
    set(["shell"], [], "shell"),
    set(["layup"], {}, "layup"),
    set(["shell", "features"], "none"),
    set(["shell", "outline", "kind"], "oblong"),
    set(["shell", "features", 0, "place", "kind"], "sideways"),
    set(["shell", "draftDeg"], 30),
    set(["shell", "waterLine"], -120),
    set(["shell", "radii", "cove"], 0.2),
    set(["shell", "floor", "stations", 0, "depth"], 1.3),
    set(
      ["shell", "floor", "stations"],
      [
        { at: 3000, depth: 1200 },
        { at: 1000, depth: 1500 },
      ],
      "shell.floor.stations[1].at",
    ),
    set(["layup", 0, "plies"], 2.5),
    set(["shop", "handlingLenght"], 2500),
    set(["shell", "__proto__"], { depth: 2 }),
  ];
}

/** Names that are wrong, taken, or lead nowhere; headings that are not ours. */
function brokenNames(text: string): [string, Damage][] {
  const set = (path: Path, value: unknown, names?: string): [string, Damage] => [
    `${written(path)} is ${JSON.stringify(value)}`,
    { text: withRaw(text, path, JSON.stringify(value)), names: names ?? written(path) },
  ];
  const file = JSON.parse(text);
  const pair = [{ between: ["wall", "flor"], radius: 100 }];
  return [
    set(["format"], "drawing"),
    set(["version"], 4),
    set(["version"], "1"),
    set(["version"], -3),
    set(["version"], 0.5),
    set(["name"], ""),
    set(["layup", 0, "material"], "woven-900"),
    set(["layup", 0, "material"], "rib-strip"),
    set(["layup", 1, "id"], file.layup[0].id),
    set(["materials", 1, "id"], file.materials[0].id),
    set(["shell", "features", 1, "id"], file.shell.features[0].id),
    set(["shell", "features", 0, "id"], "wall"),
    set(["shell", "features", 0, "id"], "Top Step"),
    set(["rules", "ribs", "material"], "woven-600"),
    set(["shell", "radii", "pairs"], pair, "shell.radii.pairs[0].between[1]"),
  ];
}

/** Paths of all numbers but the version's, in the order of the file. */
function numbersIn(value: unknown, path: Path = []): Path[] {
  if (typeof value === "number") return path[0] === "version" ? [] : [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    numbersIn(inner, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}

/** The text with `raw` written as the value at `path`, or the field left out when there is no `raw`. */
function withRaw(text: string, path: Path, raw: string | undefined): string {
  const mark = "written over";
  const file = JSON.parse(text);
  let holder = file;
  for (const key of path.slice(0, -1)) holder = holder[key];
  const last = path[path.length - 1];
  if (raw === undefined) delete holder[last];
  else
    Object.defineProperty(holder, last, {
      value: mark,
      enumerable: true,
      configurable: true,
      writable: true,
    });
  return JSON.stringify(file, null, 2).replace(`"${mark}"`, () => raw ?? "");
}

function written(path: Path): string {
  return path
    .map((key) => (typeof key === "number" ? `[${key}]` : `.${key}`))
    .join("")
    .slice(1);
}

/** A pattern for the field itself or whatever holds it directly. */
function startOf(field: string): RegExp {
  const holder = field.replace(/\.[^.[\]]+$|\[\d+\]$/, "");
  return new RegExp(`^(${[field, holder].map((each) => each.replace(/[.[\]]/g, "\\$&")).join("|")})$`);
}
