/**
 * How the surface runs through one cubic cell whose eight corners are in the air or in the ground: into which patches
 * it parts, and which of the cell's twelve edges each patch crosses. A patch becomes one vertex of the dual net, so that
 * two sheets in one cell never share a vertex (G. M. Nielson, "Dual Marching Cubes", IEEE Visualization 2004).
 *
 * Corner c lies at x = c & 1, y = (c >> 1) & 1, z = c >> 2. A configuration has bit c set where corner c is in the air.
 * Edges 0–3 run along x, 4–7 along y, 8–11 along z.
 */

/** First corner of each edge; the second is one step further along the edge's axis. */
export const EDGE_START = [0, 2, 4, 6, 0, 1, 4, 5, 0, 1, 2, 3] as const;
/** Second corner of each edge. */
export const EDGE_END = [1, 3, 5, 7, 2, 3, 6, 7, 4, 5, 6, 7] as const;

/** Corners of each face in cyclic order; faces: −x, +x, −y, +y, −z, +z. */
const FACES = [
  [0, 2, 6, 4],
  [1, 3, 7, 5],
  [0, 1, 5, 4],
  [2, 3, 7, 6],
  [0, 1, 3, 2],
  [4, 5, 7, 6],
] as const;

function edgeBetween(a: number, b: number): number {
  for (let e = 0; e < 12; e++)
    if ((EDGE_START[e] === a && EDGE_END[e] === b) || (EDGE_START[e] === b && EDGE_END[e] === a)) return e;
  throw new Error(`no cell edge joins corners ${a} and ${b}`);
}

/** No patch: the edge is not crossed. */
export const NONE = 255;

/**
 * Patch of each edge for each configuration, in two readings: patchOf[(reading · 256 + configuration) · 12 + edge].
 * Reading 0 keeps air corners apart on a face where air and ground corners alternate, reading 1 ground corners.
 */
export const patchOf = new Uint8Array(2 * 256 * 12).fill(NONE);
/** Number of patches for each reading and configuration. */
export const patchCount = new Uint8Array(2 * 256);
/**
 * The face (0–5) on which reading 0 would join one patch to a neighbour twice over, or NONE. When both cells at a face
 * have that trouble the net's edge there would carry four triangles; both then take reading 1, which parts them.
 */
export const troubledFace = new Uint8Array(256).fill(NONE);

for (let reading = 0; reading < 2; reading++)
  for (let config = 0; config < 256; config++) {
    const air = (c: number) => ((config >> c) & 1) === 1;
    const group = Array.from({ length: 12 }, (_, e) => e);
    const root = (e: number): number => (group[e] === e ? e : root(group[e]));
    const alternating: number[] = [];
    FACES.forEach((corners, face) => {
      const crossed: number[] = [];
      for (let i = 0; i < 4; i++)
        if (air(corners[i]) !== air(corners[(i + 1) % 4]))
          crossed.push(edgeBetween(corners[i], corners[(i + 1) % 4]));
      if (crossed.length === 2) group[root(crossed[0])] = root(crossed[1]);
      if (crossed.length < 4) return;
      alternating.push(face);
      // Cut off the corners of one kind, each with the two edges that meet there.
      for (let i = 0; i < 4; i++)
        if (air(corners[i]) === (reading === 0))
          group[root(edgeBetween(corners[i], corners[(i + 1) % 4]))] = root(
            edgeBetween(corners[(i + 3) % 4], corners[i]),
          );
    });
    const names: number[] = [];
    const at = (reading * 256 + config) * 12;
    for (let e = 0; e < 12; e++) {
      if (air(EDGE_START[e]) === air(EDGE_END[e])) continue;
      if (!names.includes(root(e))) names.push(root(e));
      patchOf[at + e] = names.indexOf(root(e));
    }
    patchCount[reading * 256 + config] = names.length;
    if (reading === 0)
      for (const face of alternating) {
        const edges = FACES[face].map((c, i) => edgeBetween(c, FACES[face][(i + 1) % 4]));
        if (edges.every((e) => patchOf[at + e] === patchOf[at + edges[0]])) troubledFace[config] = face;
      }
  }
