import { isObject } from "./migrate.ts";
import { id as lastingName } from "./shell-schema.ts";

/**
 * The name of the list entry that a field belongs to, where it has a sound one: of `layup[3].material` the zone's id. Undefined for a field outside
 * any list, and for the id itself. People know their zones by name, not by number.
 */
export function ownerOf(path: string, file: unknown): string | undefined {
  if (path.endsWith("].id")) return undefined;
  let owner: string | undefined;
  let at = file;
  for (const [key, index] of path.matchAll(/[^.[\]]+|\[(\d+)\]/g)) {
    at = index === undefined ? own(at, key) : Array.isArray(at) ? at[Number(index)] : undefined;
    const name = lastingName.safeParse(index === undefined ? undefined : own(at, "id"));
    if (name.success) owner = name.data;
  }
  return owner;
}

function own(value: unknown, key: string): unknown {
  return isObject(value) && Object.hasOwn(value, key) ? value[key] : undefined;
}
