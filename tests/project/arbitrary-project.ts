/**
 * Random valid projects, drawn from the schema itself: whatever the format can say is tried, not only what the demos say.
 */
import fc from "fast-check";
import { z } from "zod";
import { entriesOf } from "../../core/project/allowed.ts";
import { faceIdsOf } from "../../core/project/faces.ts";
import { type Project, project } from "../../core/project/schema.ts";

/** A value that the schema allows. Lists are kept short, so that whole projects stay quick to draw. */
function arbitraryFor(schema: z.core.$ZodType): fc.Arbitrary<unknown> {
  if (schema instanceof z.ZodOptional) return arbitraryFor(schema.unwrap());
  if (schema instanceof z.ZodNumber) {
    const { minValue: min, maxValue: max } = schema;
    if (min === null || max === null) throw new Error("A figure of the file has no limits.");
    return schema.isInt
      ? fc.integer({ min, max })
      : fc.oneof(
          fc.integer({ min, max }),
          // Minus nought has no place in a file: it is read as nought.
          fc.double({ min, max, noNaN: true }).map((value) => value || 0),
        );
  }
  if (schema instanceof z.ZodString) {
    const named = schema.def.checks?.some((check) => check._zod.def.check === "string_format");
    if (named) return fc.stringMatching(/^[a-z0-9][a-z0-9-]{0,12}$/);
    return fc.string({ unit: "binary", minLength: schema.minLength ?? 0, maxLength: 30 });
  }
  if (schema instanceof z.ZodBoolean) return fc.boolean();
  if (schema instanceof z.ZodLiteral) return fc.constantFrom(...schema.values);
  if (schema instanceof z.ZodEnum) return fc.constantFrom(...schema.options);
  if (schema instanceof z.ZodTuple) return fc.tuple(...schema.def.items.map(arbitraryFor));
  if (schema instanceof z.ZodArray) {
    const { least, most } = entriesOf(schema);
    return fc.array(arbitraryFor(schema.element), { minLength: least, maxLength: Math.min(most, least + 3) });
  }
  if (schema instanceof z.ZodUnion) return fc.oneof(...schema.options.map(arbitraryFor));
  if (schema instanceof z.ZodObject) {
    const shape: Record<string, z.core.$ZodType> = schema.shape;
    const fields = Object.fromEntries(
      Object.entries(shape).map(([key, value]) => [key, arbitraryFor(value)]),
    );
    const requiredKeys = Object.keys(shape).filter((key) => !(shape[key] instanceof z.ZodOptional));
    return fc.record(fields, { requiredKeys });
  }
  throw new Error(`Nothing to draw from a schema of the type ${schema._zod.def.type}.`);
}

/** Random valid projects: drawn from the schema, then given ids, orders and references that hold together. */
export const arbitraryProject: fc.Arbitrary<Project> = arbitraryFor(project).map((drawn) =>
  putInOrder(drawn as Project),
);

function putInOrder(drawn: Project): Project {
  const { shell } = drawn;
  const features = numbered(shell.features, "feature").map((feature) =>
    feature.kind === "steps"
      ? {
          ...feature,
          treads: feature.treads.map((tread, i) => ({ ...tread, depth: 300 + 200 * i + tread.depth / 20 })),
        }
      : feature,
  );
  const { outline } = shell;
  const materials: Project["materials"] = [
    ...numbered(drawn.materials, "material"),
    { kind: "woven", id: "woven", name: "W", gramsPerM2: 600, rollWidth: 1270, lockingDeg: 45 },
    {
      kind: "strip",
      id: "strip",
      name: "S",
      width: 100,
      thickness: 20,
      stockLength: 2400,
      kgPerM3: 80,
      bendRadius: 0,
    },
    { kind: "sheet", id: "sheet", name: "T", width: 1220, length: 2440, thickness: 20, kgPerM3: 80 },
  ];
  const rules = structuredClone(drawn.rules);
  for (const rule of [rules.footBand, rules.stepBand, rules.noseBand]) rule.material = "woven";
  for (const rule of [rules.ribs, rules.stiffeners]) rule.material = "strip";
  for (const rule of [rules.gussets, rules.pads]) rule.material = "sheet";
  const faces = faceIdsOf({ features });
  return {
    ...drawn,
    materials,
    rules,
    // A piece is longer than its lap.
    shop: { ...drawn.shop, handlingLength: Math.max(drawn.shop.handlingLength, drawn.shop.lap + 1) },
    shell: {
      ...shell,
      outline:
        outline.kind === "polygon" && Array.isArray(outline.cornerRadius)
          ? { ...outline, cornerRadius: 100 }
          : outline,
      floor: {
        ...shell.floor,
        stations: shell.floor.stations.map((station, i) => ({ ...station, at: i * 500 })),
      },
      radii: {
        ...shell.radii,
        // Not with the coping's faces, which come last: they meet none of these.
        pairs: shell.radii.pairs
          .slice(0, faces.length - 3)
          .map(({ radius }, i) => ({ between: [faces[i], faces[i + 1]] as [string, string], radius })),
      },
      features,
      fittings: numbered(shell.fittings, "fitting"),
    },
    layup: numbered(drawn.layup, "zone").map((zone) => {
      if (zone.kind === "band" || zone.kind === "stroke") return { ...zone, material: "woven" };
      return { ...zone, material: zone.kind === "gussets" || zone.kind === "pad" ? "sheet" : "strip" };
    }),
  };
}

function numbered<T extends { id: string }>(entries: readonly T[], name: string): T[] {
  return entries.map((entry, i) => ({ ...entry, id: `${name}-${i + 1}` }));
}
