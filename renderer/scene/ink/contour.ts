/** A mesh to be outlined: three figures a vertex, three vertices a triangle. */
export interface Outlined {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly triangles: Uint32Array;
}

/**
 * The contour of a smooth surface seen from an eye: the line on which its normal is square to the line of sight, found along
 * the triangles by where that product changes sign (Hertzmann, smooth silhouettes of meshes: linear along each edge). Writes
 * segments of six figures to `out`, as many as it holds, and returns how many figures were written.
 */
export function contourOf(mesh: Outlined, eye: readonly [number, number, number], scratch: Scratch): number {
  const { positions: p, normals: n, triangles } = mesh;
  const facing = scratch.facing(p.length / 3);
  for (let v = 0, at = 0; at < p.length; v++, at += 3)
    facing[v] =
      n[at] * (eye[0] - p[at]) + n[at + 1] * (eye[1] - p[at + 1]) + n[at + 2] * (eye[2] - p[at + 2]);
  let out = scratch.segments;
  let written = 0;
  const put = (a: number, b: number) => {
    const t = facing[a] / (facing[a] - facing[b]);
    for (let k = 0; k < 3; k++) {
      const from = p[3 * a + k];
      out[written++] = from + t * (p[3 * b + k] - from);
    }
  };
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i];
    const b = triangles[i + 1];
    const c = triangles[i + 2];
    const sa = facing[a] > 0;
    const sb = facing[b] > 0;
    const sc = facing[c] > 0;
    if (sa === sb && sb === sc) continue;
    if (written + 6 > out.length) out = scratch.grow();
    if (sa !== sb) put(a, b);
    if (sb !== sc) put(b, c);
    if (sc !== sa) put(c, a);
  }
  return written;
}

/** Buffers that are kept from frame to frame. */
export class Scratch {
  segments: Float32Array = new Float32Array(6 * 4096);
  private values = new Float32Array(0);

  facing(count: number): Float32Array {
    if (this.values.length < count) this.values = new Float32Array(count);
    return this.values;
  }

  grow(): Float32Array {
    const larger = new Float32Array(2 * this.segments.length);
    larger.set(this.segments);
    this.segments = larger;
    return larger;
  }
}

/** The open edges of a mesh, as segments: edges with a triangle on one side only. Sorts the edges by their lower vertex, of which few meet. */
export function openEdges({ positions, triangles }: Outlined): Float32Array {
  const ends = triangles.length;
  const starts = new Uint32Array(positions.length / 3 + 1);
  const lower = (i: number) => Math.min(triangles[i], triangles[i % 3 === 2 ? i - 2 : i + 1]);
  for (let i = 0; i < ends; i++) starts[lower(i) + 1]++;
  for (let v = 1; v < starts.length; v++) starts[v] += starts[v - 1];
  const higher = new Uint32Array(ends);
  const filled = starts.slice();
  for (let i = 0; i < ends; i++) {
    const a = lower(i);
    higher[filled[a]++] = triangles[i] + triangles[i % 3 === 2 ? i - 2 : i + 1] - a;
  }
  const segments: number[] = [];
  for (let a = 0; a + 1 < starts.length; a++)
    for (let i = starts[a]; i < starts[a + 1]; i++) {
      let times = 0;
      for (let j = starts[a]; j < starts[a + 1]; j++) if (higher[j] === higher[i]) times++;
      if (times !== 1) continue;
      for (const v of [a, higher[i]])
        segments.push(positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]);
    }
  return Float32Array.from(segments);
}

/** Where a mesh crosses a plane n·p = d, as segments. */
export function crossingOf(
  { positions: p, triangles }: Outlined,
  n: readonly [number, number, number],
  d: number,
): Float32Array {
  const segments: number[] = [];
  const side = (v: number) => n[0] * p[3 * v] + n[1] * p[3 * v + 1] + n[2] * p[3 * v + 2] - d;
  for (let i = 0; i < triangles.length; i += 3) {
    const corners = [triangles[i], triangles[i + 1], triangles[i + 2]];
    const sides = corners.map(side);
    for (let k = 0; k < 3; k++) {
      const m = (k + 1) % 3;
      if (sides[k] > 0 === sides[m] > 0) continue;
      const t = sides[k] / (sides[k] - sides[m]);
      for (let c = 0; c < 3; c++) {
        const from = p[3 * corners[k] + c];
        segments.push(from + t * (p[3 * corners[m] + c] - from));
      }
    }
  }
  return Float32Array.from(segments);
}
