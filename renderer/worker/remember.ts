/** Remembers what was made for the last few keys, so that a step taken back, or a figure dragged to and fro, costs nothing. */
export function remember<T>(keep = 3): (key: string, make: () => T) => T {
  const kept = new Map<string, { readonly value: T }>();
  return (key, make) => {
    const entry = kept.get(key) ?? { value: make() };
    kept.delete(key);
    kept.set(key, entry);
    for (const oldest of kept.keys()) {
      if (kept.size <= keep) break;
      kept.delete(oldest);
    }
    return entry.value;
  };
}
