export type JsonObject = { readonly [key: string]: unknown };

/**
 * One change of the file format: brings a file of version `from` nearer to version `from + 1`. It moves what it knows
 * and leaves the rest alone, however broken: the schema of the current version says what is wrong with it.
 */
export interface Migration {
  readonly from: number;
  /** What changed, as a clause: "the draft moved from shell.draft to shell.draftDeg". */
  readonly change: string;
  readonly apply: (file: JsonObject) => JsonObject;
}

export interface Migrated {
  readonly file: JsonObject;
  /** The changes made, in the words of their migrations. */
  readonly changes: readonly string[];
}

/**
 * Every change of the format since its first version, oldest first; never edited, only added to.
 *
 * Version 0, the trial format, differs from version 1 in two fields: `laminate.laid` (mm) is now `shop.laidThickness`,
 * and `shell.draft` (degrees) is now `shell.draftDeg`.
 * Version 2 has one shop figure more, `shop.cornerTurnDeg`; before it was 10° for every shop.
 * Version 3 has the locking angle of each woven material, and the shop's trim and likeness of pieces: cloth had none of them before.
 */
export const migrations: readonly Migration[] = [
  {
    from: 0,
    change: "the laid thickness moved from laminate.laid to shop.laidThickness",
    apply: (file) => moveField(file, ["laminate", "laid"], ["shop", "laidThickness"]),
  },
  {
    from: 0,
    change: "the draft moved from shell.draft to shell.draftDeg",
    apply: (file) => moveField(file, ["shell", "draft"], ["shell", "draftDeg"]),
  },
  {
    from: 1,
    change: "shop.cornerTurnDeg was added with 10, which held for every shop before",
    apply: (file) => addField(file, ["shop", "cornerTurnDeg"], 10),
  },
  {
    from: 2,
    change: "every woven material got a lockingDeg of 45, which is usual for plain roving",
    apply: addLocking,
  },
  {
    from: 2,
    change: "shop.trim was added with 0, which held for every shop before",
    apply: (file) => addField(file, ["shop", "trim"], 0),
  },
  {
    from: 2,
    change: "shop.alike was added with 3",
    apply: (file) => addField(file, ["shop", "alike"], 3),
  },
];

/**
 * Brings a file from `version` to `target` through every change in between. The file itself is left as it is; the
 * result carries the target's version number. Throws a RangeError when the table has no way on from some version,
 * which is a fault of the table, not of the file.
 */
export function migrate(
  file: JsonObject,
  version: number,
  target: number,
  table: readonly Migration[] = migrations,
): Migrated {
  const changes: string[] = [];
  for (let from = version; from < target; from++) {
    const steps = table.filter((step) => step.from === from);
    if (steps.length === 0) throw new RangeError(`No migration leads on from version ${from}.`);
    for (const step of steps) {
      file = step.apply(file);
      changes.push(step.change);
    }
  }
  return { file: { ...file, version: target }, changes };
}

/** The oldest version that the table can still read. */
export function oldestVersion(table: readonly Migration[], current: number): number {
  return Math.min(current, ...table.map((step) => step.from));
}

/**
 * Moves a field from one object of the file to another and removes an object that it leaves empty. A field that is not
 * there, or whose new place is taken, stays: the schema then names what is missing or not known.
 */
export function moveField(
  file: JsonObject,
  [fromPart, fromKey]: readonly [string, string],
  [toPart, toKey]: readonly [string, string],
): JsonObject {
  const source = file[fromPart];
  const goal = fromPart === toPart ? source : (file[toPart] ?? {});
  if (!isObject(source) || !isObject(goal) || !Object.hasOwn(source, fromKey) || Object.hasOwn(goal, toKey)) {
    return file;
  }
  const { [fromKey]: value, ...left } = source;
  if (fromPart === toPart) return { ...file, [fromPart]: { ...left, [toKey]: value } };
  const { [fromPart]: _emptied, ...rest } = file;
  const kept = Object.keys(left).length > 0 ? { [fromPart]: left } : {};
  return { ...rest, ...kept, [toPart]: { ...goal, [toKey]: value } };
}

/** Adds a field to an object of the file that is there and does not have it yet. */
function addField(file: JsonObject, [part, key]: readonly [string, string], value: unknown): JsonObject {
  const goal = file[part];
  if (!isObject(goal) || Object.hasOwn(goal, key)) return file;
  return { ...file, [part]: { ...goal, [key]: value } };
}

/** Adds the locking angle to every woven material that has none. */
function addLocking(file: JsonObject): JsonObject {
  if (!Array.isArray(file.materials)) return file;
  const materials = file.materials.map((each: unknown) =>
    isObject(each) && each.kind === "woven" && !Object.hasOwn(each, "lockingDeg")
      ? { ...each, lockingDeg: 45 }
      : each,
  );
  return { ...file, materials };
}

/** Whether a JSON value is an object with keys: no list, not null. */
export function isObject(value: unknown): value is JsonObject {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
