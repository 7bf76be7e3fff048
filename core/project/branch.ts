import { z } from "zod";
import { keysOf, wordsOf } from "./allowed.ts";

/**
 * The branch of a union that a value was meant for: by its `kind` where the branches have one, else by its keys (the
 * branch with the most of them), else by being a list or a number. Undefined when the value fits none.
 */
export function branchFor(union: z.ZodUnion, value: unknown): z.core.$ZodType | undefined {
  if (Array.isArray(value)) {
    return union.options.find((option) => option instanceof z.ZodTuple || option instanceof z.ZodArray);
  }
  if (typeof value !== "object" || value === null) {
    return union.options.find((option) => typeof value === "number" && option instanceof z.ZodNumber);
  }
  const objects = union.options.filter((option) => option instanceof z.ZodObject);
  if (union instanceof z.ZodDiscriminatedUnion) {
    const kind = (value as { kind?: unknown }).kind;
    return objects.find((option) => wordsOf(option.shape.kind).some((word) => word === kind));
  }
  let best: z.ZodObject | undefined;
  let most = 0;
  for (const option of objects) {
    const shared = keysOf(option).filter((key) => Object.hasOwn(value, key)).length;
    const decided = shared - (keysOf(option).length - shared) / 100; // of two that share as many, the shorter
    if (shared > 0 && (best === undefined || decided > most)) {
      best = option;
      most = decided;
    }
  }
  return best;
}

/** The schema of a field, and the value that stands there, by the field's path; undefined where the path leaves the schema. */
export function fieldAt(
  schema: z.core.$ZodType,
  value: unknown,
  path: readonly PropertyKey[],
): { readonly schema: z.core.$ZodType; readonly value: unknown } | undefined {
  if (schema instanceof z.ZodOptional) return fieldAt(schema.unwrap(), value, path);
  const [key, ...rest] = path;
  if (key === undefined) return { schema, value };
  const inner = memberOf(schema, value, key);
  return inner && fieldAt(inner, (value as Record<PropertyKey, unknown> | undefined)?.[key], rest);
}

function memberOf(schema: z.core.$ZodType, value: unknown, key: PropertyKey): z.core.$ZodType | undefined {
  if (schema instanceof z.ZodObject) return schema.shape[String(key)];
  if (schema instanceof z.ZodArray) return schema.element;
  if (schema instanceof z.ZodTuple) return schema.def.items[Number(key)];
  if (!(schema instanceof z.ZodUnion)) return undefined;
  const branch = branchFor(schema, value);
  if (branch) return memberOf(branch, value, key);
  // Without a branch, the only field that can be spoken of is the kind itself; the union says what it allows.
  return schema instanceof z.ZodDiscriminatedUnion && key === "kind" ? schema : undefined;
}
