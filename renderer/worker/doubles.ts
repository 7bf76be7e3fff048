import type { ZoneSpec } from "../../core/project/schema.ts";

/**
 * What there is to say of zones that lie exactly on another one, by id: the same kind in the same place with the same figures, as a
 * copy that was left where it came up. Both would be cut, and nobody sees two of them in the scene.
 */
export function doubles(
  zones: readonly { readonly id: string; readonly spec: ZoneSpec }[],
): Map<string, string> {
  const first = new Map<string, string>();
  const said = new Map<string, string>();
  for (const { id, spec } of zones) {
    const { id: _, ...figures } = spec;
    const key = JSON.stringify(figures);
    const other = first.get(key);
    if (other === undefined) first.set(key, id);
    else
      said.set(
        id,
        `it lies on ${other.replaceAll("-", " ")} with the same figures, and both are cut: move it or delete it`,
      );
  }
  return said;
}
