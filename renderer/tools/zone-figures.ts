import { z } from "zod";
import { branchFor } from "../../core/project/branch.ts";
import { zone as zoneSchema } from "../../core/project/layup-schema.ts";
import type { ZoneSpec } from "../../core/project/schema.ts";
import type { FigurePath } from "../document/figure-path.ts";
import { figureAt } from "./zone-edits.ts";

/** A number that all of some zones have, by its path within each: its schema, and its value where they agree. */
export interface ZoneFigure {
  readonly path: FigurePath;
  readonly schema: z.ZodNumber;
  /** Of the first zone. */
  readonly value: number;
  readonly agreed: boolean;
}

/** The figures that some zones have in common, in the order of the first one's schema. */
export function figuresOf(zones: readonly ZoneSpec[]): ZoneFigure[] {
  if (zones.length === 0) return [];
  const [first, ...others] = zones;
  return numbersOf(zoneSchema, first, []).flatMap(({ path, schema, value }): ZoneFigure[] => {
    const values = others.map((zone) => figureAt(zone, path));
    if (values.some((each) => typeof each !== "number")) return [];
    return [{ path, schema, value, agreed: values.every((each) => each === value) }];
  });
}

interface Found {
  readonly path: FigurePath;
  readonly schema: z.ZodNumber;
  readonly value: number;
}

/** Every number of a value with its path; lists are passed over. */
function numbersOf(schema: z.core.$ZodType, value: unknown, path: FigurePath): Found[] {
  if (value === undefined) return [];
  if (schema instanceof z.ZodOptional) return numbersOf(schema.unwrap(), value, path);
  if (schema instanceof z.ZodNumber) return [{ path, schema, value: value as number }];
  if (schema instanceof z.ZodUnion) {
    const branch = branchFor(schema, value);
    return branch ? numbersOf(branch, value, path) : [];
  }
  if (schema instanceof z.ZodTuple)
    return schema.def.items.flatMap((item, i) => numbersOf(item, (value as unknown[])[i], [...path, i]));
  if (schema instanceof z.ZodObject)
    return Object.entries(schema.shape as Record<string, z.core.$ZodType>).flatMap(([key, inner]) =>
      numbersOf(inner, (value as Record<string, unknown>)[key], [...path, key]),
    );
  return [];
}
