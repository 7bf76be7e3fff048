import type { Facets } from "./facets.ts";

/** A list of small whole numbers, each held once, in the order in which they came. Grows as needed. */
export interface Worklist {
  length: number;
  items: Int32Array;
  held: Uint8Array;
}

export function makeWorklist(room: number): Worklist {
  return { length: 0, items: new Int32Array(256), held: new Uint8Array(room + 64) };
}

export function put(list: Worklist, item: number): void {
  if (item >= list.held.length) {
    const held = new Uint8Array(2 * item);
    held.set(list.held);
    list.held = held;
  }
  if (list.held[item] === 1) return;
  list.held[item] = 1;
  if (list.length === list.items.length) {
    const items = new Int32Array(2 * list.length);
    items.set(list.items);
    list.items = items;
  }
  list.items[list.length++] = item;
}

export function copyOf({ length, items, held }: Worklist): Worklist {
  return { length, items: items.slice(), held: held.slice() };
}

/** Empties the list. */
export function clear(list: Worklist): void {
  for (let i = 0; i < list.length; i++) list.held[list.items[i]] = 0;
  list.length = 0;
}

/** The triangles with which there may be something to be done. */
export function notPlain({ triangles, plain }: Facets): Worklist {
  const list = makeWorklist(triangles);
  list.items = new Int32Array(triangles + 64);
  for (let t = 0; t < triangles; t++) {
    if (plain[t] === 1) continue;
    list.items[list.length++] = t;
    list.held[t] = 1;
  }
  return list;
}
