import type { Pattern } from "./bar-problem.ts";

/** Finds the most valuable filling of a bar of each capacity. */
export interface Filler {
  /**
   * For each capacity the pattern of highest value among those worth more than its `floors` entry, or undefined where
   * none is. `values` is what a piece of each size is worth (0 or less: not wanted), `limits` how many of it there
   * may be. `margin`: a filling that is better by no more than this is passed over; 0.5 is exact for whole values
   * below 2^50.
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
 * Makes a filler for bars of the given capacities. It keeps, size after size, the fillings that no other one beats in
 * both length and value [G. L. Nemhauser, Z. Ullmann, "Discrete dynamic programming and capital allocation",
 * Management Science 15 (1969) 494-505], the densest value first, and drops those that cannot reach the floor even if
 * the rest of the bar were filled at the density of the next size, or with as many of the dearest as fit of the
 * shortest. Its time hangs on the number of such fillings, not on the unit of length.
 */
export function makeFiller(sizes: Float64Array, capacities: readonly number[]): Filler {
  const kinds = capacities.length;
  const longest = Math.max(...capacities);
  // Every filling ever made, as the one it grew from and the size that was added.
  let parent = new Int32Array(1 << 14);
  let item = new Int32Array(1 << 14);
  let kept = makeList(1 << 10);
  let merged = makeList(1 << 10);
  const floor = new Float64Array(kinds);
  const bestNode = new Int32Array(kinds);
  let states = 0;

  function best(values: Float64Array, limits: Int32Array, floors: readonly number[], margin: number) {
    const order: number[] = [];
    for (let i = 0; i < sizes.length; i++) {
      if (values[i] > 0 && limits[i] > 0 && sizes[i] <= longest) order.push(i);
    }
    order.sort((a, b) => values[b] / sizes[b] - values[a] / sizes[a] || a - b);
    // The shortest and the most valuable of the sizes from each on.
    const shortest = new Float64Array(order.length + 1).fill(Number.POSITIVE_INFINITY);
    const dearest = new Float64Array(order.length + 1);
    for (let k = order.length - 1; k >= 0; k--) {
      shortest[k] = Math.min(shortest[k + 1], sizes[order[k]]);
      dearest[k] = Math.max(dearest[k + 1], values[order[k]]);
    }
    floor.set(floors);
    bestNode.fill(-1);
    parent[0] = -1;
    kept.weight[0] = 0;
    kept.value[0] = 0;
    kept.node[0] = 0;
    let length = 1;
    let nodes = 1;
    for (let k = 0; k < order.length && length > 0; k++) {
      const i = order[k];
      const w = sizes[i];
      const v = values[i];
      const next = k + 1 < order.length ? values[order[k + 1]] / sizes[order[k + 1]] : 0;
      const most = Math.min(limits[i], Math.floor(longest / w));
      for (let copy = 1; copy <= most; copy++) {
        // More of the same may follow.
        const density = copy === most ? next : v / w;
        const after = copy === most ? k + 1 : k;
        if (2 * length > merged.weight.length) merged = makeList(4 * length);
        if (nodes + length > parent.length) {
          parent = widened(parent, nodes + length);
          item = widened(item, nodes + length);
        }
        const { weight, value, node } = kept;
        const { weight: outWeight, value: outValue, node: outNode } = merged;
        let a = 0;
        let b = 0;
        let out = 0;
        let top = -1;
        let grown = false;
        // Fillings without the new piece and with it, by their length; of two alike in length the more valuable comes
        // first, so that the other is dropped.
        for (;;) {
          const withPiece = b < length ? weight[b] + w : Number.POSITIVE_INFINITY;
          if (a >= length && withPiece > longest) break;
          let w1: number;
          let v1: number;
          let base: number;
          const isOld =
            a < length &&
            (withPiece > longest ||
              weight[a] < withPiece ||
              (weight[a] === withPiece && value[a] >= value[b] + v));
          if (isOld) {
            w1 = weight[a];
            v1 = value[a];
            base = node[a++];
          } else {
            w1 = withPiece;
            v1 = value[b] + v;
            base = node[b++];
          }
          if (v1 <= top) continue;
          top = v1;
          states++;
          let hopeful = false;
          let isBest = false;
          for (let t = 0; t < kinds; t++) {
            const left = capacities[t] - w1;
            if (left < 0) continue;
            if (v1 > floor[t] + margin) {
              floor[t] = v1;
              bestNode[t] = isOld ? base : nodes;
              isBest = true;
            }
            if (left < shortest[after]) continue;
            const more = Math.min(left * density, Math.floor(left / shortest[after]) * dearest[after]);
            if (v1 + more > floor[t] + margin) hopeful = true;
          }
          if (!isOld && (hopeful || isBest)) {
            parent[nodes] = base;
            item[nodes] = i;
            base = nodes++;
            grown = true;
          }
          if (hopeful) {
            outWeight[out] = w1;
            outValue[out] = v1;
            outNode[out++] = base;
          }
        }
        const swap = kept;
        kept = merged;
        merged = swap;
        length = out;
        if (!grown && copy < most) copy = most - 1;
      }
    }
    return capacities.map((_, kind): Filling | undefined => {
      if (bestNode[kind] < 0) return undefined;
      const items: number[] = [];
      for (let at = bestNode[kind]; at > 0; at = parent[at]) items.push(item[at]);
      return { value: floor[kind], pattern: { kind, items: items.sort((x, y) => x - y) } };
    });
  }

  return { best, states: () => states };
}

/** Fillings by their length, each longer and more valuable than the one before. */
function makeList(room: number) {
  return { weight: new Float64Array(room), value: new Float64Array(room), node: new Int32Array(room) };
}

function widened(array: Int32Array<ArrayBuffer>, least: number): Int32Array<ArrayBuffer> {
  const wider = new Int32Array(2 * least);
  wider.set(array);
  return wider;
}
