/** What a list holds, by a key, keys and entries in the order of the list. */
export function grouped<T, K>(list: readonly T[], key: (each: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const each of list) {
    const group = groups.get(key(each));
    if (group) group.push(each);
    else groups.set(key(each), [each]);
  }
  return groups;
}
