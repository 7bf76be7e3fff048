import { type Field, offsetField } from "./field.ts";

const known = new WeakMap<Field, Map<number, Field>>();

/**
 * The field whose zero set is that of `field` moved out by `out` mm: one object for one field and distance, so that all that is found
 * and laid on the moved surface shares its bricks of space.
 */
export function movedField(field: Field, out: number): Field {
  const moved = known.get(field) ?? new Map<number, Field>();
  known.set(field, moved);
  const one = moved.get(out) ?? offsetField(field, out);
  moved.set(out, one);
  return one;
}
