import type { z } from "zod";
import { listed } from "./allowed.ts";
import { faceIdsOf, reservedIds } from "./faces.ts";
import { shop } from "./layup-schema.ts";
import { isObject } from "./migrate.ts";
import { nearestWord } from "./nearest-word.ts";
import { type ProblemParts, shorten } from "./problem.ts";
import type {
  FeatureSpec,
  FloorSpec,
  HouseRules,
  Material,
  OutlineSpec,
  ShellSpec,
  ZoneSpec,
} from "./schema.ts";
import { id as lastingName, shell } from "./shell-schema.ts";

/**
 * What the schema cannot see: ids used twice, names that lead nowhere, lists out of order. It takes a file that the schema
 * may have refused and passes over the parts that it cannot read, so that one mistake does not hide another.
 * Zones on faces that the shell does not have are no mistake of the file: they are kept, and reported adrift later.
 */
export function checkReferences(file: unknown): ProblemParts[] {
  const drawn = member(file, "shell");
  const outline = sound(shell.shape.outline, member(drawn, "outline"));
  const floor = sound(shell.shape.floor, member(drawn, "floor"));
  const radii = sound(shell.shape.radii, member(drawn, "radii"));
  const features = listIn(drawn, "features").map((each) => sound(shell.shape.features.element, each));
  return [
    ...(outline ? checkOutline(outline) : []),
    ...(floor ? checkStations(floor) : []),
    // Beside a feature whose own name is wrong, no face could be said to be missing.
    ...(radii && isWhole(features) && !features.some(isReserved)
      ? checkPairs(radii.pairs, faceIdsOf({ features }))
      : []),
    ...checkIds("shell.features", listIn(drawn, "features")),
    ...features.flatMap((feature, i) => (feature ? checkFeature(feature, i) : [])),
    ...checkIds("shell.fittings", listIn(drawn, "fittings")),
    ...checkIds("materials", listIn(file, "materials")),
    ...checkMaterials(file),
    ...checkShop(member(file, "shop")),
    ...checkIds("layup", listIn(file, "layup")),
  ];
}

function member(value: unknown, key: string): unknown {
  return isObject(value) ? value[key] : undefined;
}

function listIn(value: unknown, key: string): readonly unknown[] {
  const list = member(value, key);
  return Array.isArray(list) ? list : [];
}

function sound<S extends z.ZodType>(schema: S, value: unknown): z.infer<S> | undefined {
  return schema.safeParse(value).data;
}

function isWhole<T>(list: readonly (T | undefined)[]): list is readonly T[] {
  return !list.includes(undefined);
}

/** An id belongs to one entry of its list. */
function checkIds(list: string, entries: readonly unknown[]): ProblemParts[] {
  const first = new Map<unknown, number>();
  return entries.flatMap((entry, i) => {
    const id = member(entry, "id");
    const earlier = first.get(id);
    if (typeof id !== "string" || earlier === undefined) {
      first.set(id, i);
      return [];
    }
    const found = shorten(id);
    const fault = `is ${found}, as is ${list}[${earlier}].id`;
    return [{ path: `${list}[${i}].id`, found, fault, allowed: "an id that no other entry of the list has" }];
  });
}

function checkOutline(outline: OutlineSpec): ProblemParts[] {
  if (outline.kind !== "polygon" || !Array.isArray(outline.cornerRadius)) return [];
  const { points, cornerRadius } = outline;
  if (cornerRadius.length === points.length) return [];
  const allowed = `one radius, or a list of ${points.length}: one for each point`;
  return [{ path: "shell.outline.cornerRadius", found: shorten(cornerRadius), allowed }];
}

function checkStations({ stations }: FloorSpec): ProblemParts[] {
  return stations.flatMap(({ at }, i) => {
    if (i === 0 || at > stations[i - 1].at) return [];
    const allowed = `more than the ${stations[i - 1].at} mm of the station before it`;
    const hint = "Stations run from the shallow end to the deep end.";
    return [{ path: `shell.floor.stations[${i}].at`, found: shorten(at), allowed, hint }];
  });
}

const isReserved = ({ id }: FeatureSpec): boolean => reservedIds.some((reserved) => reserved === id);

function checkFeature(feature: FeatureSpec, i: number): ProblemParts[] {
  const problems: ProblemParts[] = [];
  if (isReserved(feature)) {
    const allowed = `any name but ${listed(reservedIds, "and")}, which every shell has of itself`;
    problems.push({ path: `shell.features[${i}].id`, found: shorten(feature.id), allowed });
  }
  if (feature.kind !== "steps") return problems;
  feature.treads.forEach(({ depth }, k) => {
    if (k === 0 || depth > feature.treads[k - 1].depth) return;
    const allowed = `more than the ${feature.treads[k - 1].depth} mm of the tread above it`;
    const hint = "Treads run from the top down.";
    problems.push({ path: `shell.features[${i}].treads[${k}].depth`, found: shorten(depth), allowed, hint });
  });
  return problems;
}

function checkPairs(pairs: ShellSpec["radii"]["pairs"], faces: readonly string[]): ProblemParts[] {
  const problems: ProblemParts[] = [];
  const seen = new Map<string, number>();
  pairs.forEach(({ between }, i) => {
    const path = `shell.radii.pairs[${i}].between`;
    between.forEach((face, side) => {
      if (faces.includes(face)) return;
      const nearest = nearestWord(face, faces);
      problems.push({
        path: `${path}[${side}]`,
        found: shorten(face),
        fault: `is ${shorten(face)}, which is no face of this shell`,
        allowed: listed(faces, "or"),
        hint: nearest && `Did you mean ${nearest}?`,
      });
    });
    const found = between.map(shorten).join(" and ");
    if (between[0] === between[1]) problems.push({ path, found, allowed: "two different faces" });
    const key = [...between].sort().join("|");
    const coping = between.find((face) => face.startsWith("coping/"));
    if (coping && between[0] !== between[1] && key !== "coping/top|wall") {
      const lip = key === "coping/lip|coping/top";
      const allowed = lip
        ? "left out: that radius is shell.coping.edge.radius"
        : `a pair of faces that meet: ${coping} meets only ${coping === "coping/lip" ? "coping/top" : "wall"}`;
      problems.push({ path, found, allowed });
    }
    const earlier = seen.get(key);
    if (earlier === undefined) seen.set(key, i);
    else problems.push({ path, found, allowed: `another pair than that of shell.radii.pairs[${earlier}]` });
  });
  return problems;
}

/** A piece of cloth must reach further than its lap, or no division into pieces comes to an end. */
function checkShop(figures: unknown): ProblemParts[] {
  const lap = sound(shop.shape.lap, member(figures, "lap"));
  const handlingLength = sound(shop.shape.handlingLength, member(figures, "handlingLength"));
  if (lap === undefined || handlingLength === undefined || lap < handlingLength) return [];
  const allowed = `less than the ${handlingLength} mm of shop.handlingLength`;
  const hint = "Each piece of cloth laps the next one, and must be longer than its lap.";
  return [{ path: "shop.lap", found: shorten(lap), allowed, hint }];
}

const kindForZone = {
  band: "woven",
  stroke: "woven",
  rib: "strip",
  "rib-row": "strip",
  stiffener: "strip",
  gussets: "sheet",
  pad: "sheet",
} as const satisfies Record<ZoneSpec["kind"], Material["kind"]>;

const kindForRule = {
  footBand: "woven",
  stepBand: "woven",
  noseBand: "woven",
  ribs: "strip",
  gussets: "sheet",
  pads: "sheet",
  stiffeners: "strip",
} as const satisfies Record<keyof HouseRules, Material["kind"]>;

type Named = Pick<Material, "id" | "kind">;

/** Every material that a zone or a rule names is in the list, and of the kind that is cut for such a piece. */
function checkMaterials(file: unknown): ProblemParts[] {
  const entries = listIn(file, "materials");
  const materials = entries.map((each) => ({ id: member(each, "id"), kind: member(each, "kind") }));
  // Beside an entry without a name of its own, no name could be said to be missing.
  if (materials.length === 0 || !materials.every(isNamed)) return [];
  const zones = listIn(file, "layup").map((each, i) => {
    const zone = String(member(each, "kind"));
    // A word such as constructor is no key of the table, but every object answers to it.
    const kind = Object.hasOwn(kindForZone, zone) ? kindForZone[zone as ZoneSpec["kind"]] : undefined;
    return { path: `layup[${i}].material`, id: member(each, "material"), kind };
  });
  const rules = Object.entries(kindForRule).map(([rule, kind]) => {
    return {
      path: `rules.${rule}.material`,
      id: member(member(member(file, "rules"), rule), "material"),
      kind,
    };
  });
  return [...rules, ...zones].flatMap(({ path, id, kind }) =>
    // A name that is none the schema tells already.
    lastingName.safeParse(id).success && kind ? checkMaterial(path, id as string, kind, materials) : [],
  );
}

function isNamed(entry: { readonly id: unknown; readonly kind: unknown }): entry is Named {
  return typeof entry.id === "string" && ["woven", "strip", "sheet"].includes(String(entry.kind));
}

function checkMaterial(
  path: string,
  id: string,
  kind: Material["kind"],
  materials: readonly Named[],
): ProblemParts[] {
  const named = materials.find((each) => each.id === id);
  if (named?.kind === kind) return [];
  const fitting = [...new Set(materials.filter((each) => each.kind === kind).map((each) => each.id))];
  const allowed =
    fitting.length > 0
      ? `the id of a ${kind} material: ${listed(fitting, "or")}`
      : `the id of a ${kind} material, and the list of materials has none`;
  const found = shorten(id);
  const fault = named
    ? `is ${found}, a ${named.kind} material`
    : `is ${found}, which is not in the list of materials`;
  const nearest = named ? undefined : nearestWord(id, fitting);
  return [{ path, found, fault, allowed, hint: nearest && `Did you mean ${nearest}?` }];
}
