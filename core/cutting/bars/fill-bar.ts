import type { Pattern } from "./bar-problem.ts";

/** Finds the most valuable filling of a bar of each capacity. */
export interface Filler {
  /**
   * For each capacity the pattern of highest value among those worth more than its `floors` entry, or undefined where none
   * is. `values` is what a piece of each size is worth (0 or less: not wanted), `limits` how many of it there may be.
   * `margin`: a filling that is better by no more than this is passed over; 0.5 is exact for whole values below 2^50.
   */
  readonly best: (
    values: Float64Array,
    limits: Int32Array,
    floors: readonly number[],
    margin: number,
  ) => readonly (Filling | undefined)[];
  /** Work done so far, in states looked at: a measure that is the same on every machine. */
  readonly states: () => number;
}

export interface Filling {
  readonly value: number;
  readonly pattern: Pattern;
}

/**
 * Makes a filler for bars of the given capacities. It keeps, size after size, the fillings that no other one beats in both
 * length and value [G. L. Nemhauser, Z. Ullmann, "Discrete dynamic programming and capital allocation", Management
 * Science 15 (1969) 494-505], the densest value first, and drops those that cannot reach the floor even if the rest of the
 * bar were filled at the density of the next size. Its time hangs on the number of such fillings, not on the unit of length.
 */
export function makeFiller(sizes: Float64Array, capacities: readonly number[]): Filler {
  const kinds = capacities.length;
  const longest = Math.max(...capacities);
  let room = 1 << 14;
  let weight = new Float64Array(room);
  let value = new Float64Array(room);
  let parent = new Int32Array(room);
  let item = new Int32Array(room);
  let list = new Int32Array(room);
  let merged = new Int32Array(room);
  const floor = new Float64Array(kinds);
  const bestNode = new Int32Array(kinds);
  let states = 0;

  function grow(): void {
    room *= 2;
    const wider = <T extends Float64Array | Int32Array>(old: T, fresh: T): T => {
      fresh.set(old);
      return fresh;
    };
    weight = wider(weight, new Float64Array(room));
    value = wider(value, new Float64Array(room));
    parent = wider(parent, new Int32Array(room));
    item = wider(item, new Int32Array(room));
    list = wider(list, new Int32Array(room));
    merged = wider(merged, new Int32Array(room));
  }

  function best(values: Float64Array, limits: Int32Array, floors: readonly number[], margin: number) {
    const order: number[] = [];
    for (let i = 0; i < sizes.length; i++) {
      if (values[i] > 0 && limits[i] > 0 && sizes[i] <= longest) order.push(i);
    }
    order.sort((a, b) => values[b] / sizes[b] - values[a] / sizes[a] || a - b);
    for (let t = 0; t < kinds; t++) {
      floor[t] = floors[t];
      bestNode[t] = -1;
    }
    weight[0] = 0;
    value[0] = 0;
    parent[0] = -1;
    list[0] = 0;
    let length = 1;
    let nodes = 1;
    for (let k = 0; k < order.length && length > 0; k++) {
      const i = order[k];
      const w = sizes[i];
      const v = values[i];
      const own = v / w;
      const next = k + 1 < order.length ? values[order[k + 1]] / sizes[order[k + 1]] : 0;
      const most = Math.min(limits[i], Math.floor(longest / w));
      for (let copy = 1; copy <= most; copy++) {
        const last = copy === most;
        const density = last ? next : own;
        let a = 0;
        let b = 0;
        let out = 0;
        let top = -1;
        let fresh = 0;
        while (nodes + length > room || length * 2 > room) grow();
        while (a < length || b < length) {
          const wa = a < length ? weight[list[a]] : Number.POSITIVE_INFINITY;
          const wb = b < length ? weight[list[b]] + w : Number.POSITIVE_INFINITY;
          if (wb > longest && a >= length) break;
          // Of two alike in length the more valuable one comes first, so that the other is dropped.
          const takeOld = wa < wb || (wa === wb && value[list[a]] >= value[list[b]] + v);
          const base = takeOld ? list[a++] : list[b++];
          const w1 = takeOld ? wa : wb;
          if (w1 > longest) continue;
          const v1 = takeOld ? value[base] : value[base] + v;
          if (v1 <= top) continue;
          states++;
          let hopeful = false;
          for (let t = 0; t < kinds; t++) {
            const left = capacities[t] - w1;
            if (left < 0) continue;
            if (v1 > floor[t] + margin) {
              floor[t] = v1;
              bestNode[t] = takeOld ? base : nodes;
            }
            if (v1 + left * density > floor[t] + margin) hopeful = true;
          }
          top = v1;
          if (takeOld) {
            if (hopeful) merged[out++] = base;
            continue;
          }
          weight[nodes] = w1;
          value[nodes] = v1;
          parent[nodes] = base;
          item[nodes] = i;
          // A best filling is kept as a node even where nothing can be added to it.
          if (hopeful) merged[out++] = nodes;
          nodes++;
          fresh++;
        }
        const swap = list;
        list = merged;
        merged = swap;
        length = out;
        if (fresh === 0 && !last) copy = most - 1;
      }
    }
    return capacities.map((_, kind): Filling | undefined => {
      if (bestNode[kind] < 0) return undefined;
      const items: number[] = [];
      for (let node = bestNode[kind]; node > 0; node = parent[node]) items.push(item[node]);
      return { value: floor[kind], pattern: { kind, items: items.sort((a, b) => a - b) } };
    });
  }

  return { best, states: () => states };
}
