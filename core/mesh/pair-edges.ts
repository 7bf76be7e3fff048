/**
 * Twin of each half-edge of a triangle list: the opposite half-edge of the neighbour, −1 where there is none. Where more
 * than two triangles share an edge, pairs are formed while they last and the rest stay open.
 */
export function pairEdges(corner: ArrayLike<number>, vertices: number): Int32Array {
  const n = corner.length;
  const twin = new Int32Array(n).fill(-1);
  // Half-edges not yet paired, chained by the lower of their two vertices.
  const first = new Int32Array(vertices).fill(-1);
  const chain = new Int32Array(n);
  for (let t = 0; t < n; t += 3)
    for (let i = 0; i < 3; i++) {
      const h = t + i;
      const a = corner[h];
      const b = corner[i === 2 ? t : h + 1];
      const low = Math.min(a, b);
      const high = Math.max(a, b);
      let before = -1;
      let g = first[low];
      for (; g >= 0; before = g, g = chain[g]) {
        const e = g % 3 === 2 ? g - 2 : g + 1;
        const c = corner[g];
        if (c === b && corner[e] === a && (c === high || corner[e] === high)) break;
      }
      if (g >= 0) {
        twin[h] = g;
        twin[g] = h;
        if (before < 0) first[low] = chain[g];
        else chain[before] = chain[g];
      } else {
        chain[h] = first[low];
        first[low] = h;
      }
    }
  return twin;
}
