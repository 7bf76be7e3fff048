import { seatBetween } from "./bisect-edge.ts";
import { type Facets, TAKEN } from "./facets.ts";
import type { Seat } from "./seat.ts";
import { FAIR, shapeOf, squareLength } from "./shape.ts";

/**
 * Cuts every triangle into four at the middles of its edges, seated on the surface (the middles of boundary edges on
 * the edge cut as well). Vertices keep their numbers; triangle t becomes 4·t … 4·t + 3, the last the one in the middle. Edges
 * up to `longest` mm are short enough for the new triangles to be plain.
 */
export function quarter(m: Facets, seat: Seat, longest: number): Facets {
  const { corner, twin } = m;
  const halfEdges = 3 * m.triangles;
  const middle = new Int32Array(halfEdges);
  let vertices = m.vertices;
  for (let h = 0; h < halfEdges; h++) if (twin[h] < h) middle[h] = vertices++;
  for (let h = 0; h < halfEdges; h++) if (twin[h] > h) middle[h] = middle[twin[h]];

  const position = new Float64Array(3 * vertices);
  const normal = new Float64Array(3 * vertices);
  const onCut = new Uint8Array(vertices);
  const standing = new Uint8Array(vertices);
  const owner = new Int16Array(vertices);
  const leaving = new Int32Array(vertices).fill(-1);
  position.set(m.position.subarray(0, 3 * m.vertices));
  normal.set(m.normal.subarray(0, 3 * m.vertices));
  onCut.set(m.onCut.subarray(0, m.vertices));
  standing.set(m.standing.subarray(0, m.vertices));
  owner.set(m.owner.subarray(0, m.vertices));

  const corners = new Int32Array(4 * halfEdges);
  const twins = new Int32Array(4 * halfEdges);
  const { point, normal: seated } = seat;
  for (let t = 0; t < halfEdges; t += 3) {
    const a = corner[t];
    const b = corner[t + 1];
    const c = corner[t + 2];
    const x = middle[t];
    const y = middle[t + 1];
    const z = middle[t + 2];
    const o = 4 * t;
    // Corner triangles (a, x, z), (x, b, y), (z, y, c) and the middle one (y, z, x).
    corners[o] = a;
    corners[o + 1] = x;
    corners[o + 2] = z;
    corners[o + 3] = x;
    corners[o + 4] = b;
    corners[o + 5] = y;
    corners[o + 6] = z;
    corners[o + 7] = y;
    corners[o + 8] = c;
    corners[o + 9] = y;
    corners[o + 10] = z;
    corners[o + 11] = x;
    twins[o + 1] = o + 10;
    twins[o + 10] = o + 1;
    twins[o + 5] = o + 11;
    twins[o + 11] = o + 5;
    twins[o + 6] = o + 9;
    twins[o + 9] = o + 6;
    leaving[a] = o;
    leaving[b] = o + 4;
    leaving[c] = o + 8;
    for (let i = 0; i < 3; i++) {
      const h = t + i;
      const g = twin[h];
      // The half beside this edge's start lies across from the half beside the twin's end.
      twins[firstHalf(h)] = g < 0 ? -1 : secondHalf(g);
      twins[secondHalf(h)] = g < 0 ? -1 : firstHalf(g);
      if (g > h) continue;
      const from = corner[h];
      const to = corner[i === 2 ? t : h + 1];
      const v = middle[h];
      onCut[v] = g < 0 && onCut[from] === 1 && onCut[to] === 1 ? 1 : 0;
      standing[v] = seatBetween(m, seat, from, to, 0.5, onCut[v] === 1);
      owner[v] = seat.owner;
      for (let k = 0; k < 3; k++) {
        position[3 * v + k] = point[k];
        normal[3 * v + k] = seated[k];
      }
      leaving[v] = secondHalf(h);
    }
  }
  const plain = new Uint8Array(4 * m.triangles);
  for (let t = 0; t < halfEdges; t += 3) {
    const flat =
      standing[middle[t]] === TAKEN && standing[middle[t + 1]] === TAKEN && standing[middle[t + 2]] === TAKEN;
    if (flat && halvesToPlain(m, t, longest)) for (let k = 0; k < 4; k++) plain[(4 * t) / 3 + k] = 1;
  }
  return {
    vertices,
    triangles: 4 * m.triangles,
    position,
    normal,
    onCut,
    standing,
    owner,
    leaving,
    corner: corners,
    twin: twins,
    plain,
  };
}

/** Whether a flat triangle's quarters, which have its shape, are well shaped and small enough. */
function halvesToPlain(m: Facets, t: number, longest: number): boolean {
  const a = m.corner[t];
  const b = m.corner[t + 1];
  const c = m.corner[t + 2];
  const most = 4 * longest * longest;
  return (
    squareLength(m, a, b) <= most &&
    squareLength(m, b, c) <= most &&
    squareLength(m, c, a) <= most &&
    shapeOf(m, a, b, c) >= FAIR
  );
}

/** Half-edge from the start of old half-edge h to its middle: in the corner triangle of its start. */
function firstHalf(h: number): number {
  const i = h % 3;
  return 4 * (h - i) + (i === 0 ? 0 : i === 1 ? 4 : 8);
}

/** Half-edge from the middle of old half-edge h to its end. */
function secondHalf(h: number): number {
  const i = h % 3;
  return 4 * (h - i) + (i === 0 ? 3 : i === 1 ? 7 : 2);
}
