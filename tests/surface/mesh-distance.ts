import type { SurfaceCurve } from "../../core/surface/curve.ts";
import type { Field } from "../../core/surface/field.ts";

/** A triangle mesh: three numbers a vertex, three vertices a triangle. */
export interface Triangles {
  readonly positions: ArrayLike<number>;
  readonly triangles: ArrayLike<number>;
}

/**
 * Distance along a mesh of a surface from a closed curve on it, at every vertex up to `reach`, by fast marching with a linear front
 * in each triangle (Kimmel & Sethian, PNAS 95 (1998) 8431–8435), started from exact distances within `start` mm of the curve. Knows
 * no geodesics: the oracle for strips on real shells. A straight front is exact; a bent one is off by about an edge squared
 * over its radius.
 */
export function meshDistance(
  field: Field,
  mesh: Triangles,
  curve: SurfaceCurve,
  reach: number,
  start: number,
): Float64Array {
  const { positions, triangles } = mesh;
  const vertices = positions.length / 3;
  const distance = new Float64Array(vertices).fill(Infinity);
  startNear(field, mesh, curve, start, distance);
  // Triangles of each vertex.
  const first = new Int32Array(vertices + 1);
  for (let h = 0; h < triangles.length; h++) first[triangles[h] + 1]++;
  for (let v = 0; v < vertices; v++) first[v + 1] += first[v];
  const list = new Int32Array(triangles.length);
  const fill = first.slice();
  for (let h = 0; h < triangles.length; h++) list[fill[triangles[h]]++] = (h / 3) | 0;

  const done = new Uint8Array(vertices);
  const heap: { v: number; d: number }[] = [];
  const push = (v: number, d: number) => {
    let i = heap.length;
    heap.push({ v, d });
    while (i > 0 && heap[(i - 1) >> 1].d > d) {
      heap[i] = heap[(i - 1) >> 1];
      i = (i - 1) >> 1;
    }
    heap[i] = { v, d };
  };
  const pop = () => {
    const top = heap[0];
    const last = heap.pop()!;
    if (heap.length > 0) {
      let i = 0;
      for (;;) {
        let c = 2 * i + 1;
        if (c >= heap.length) break;
        if (c + 1 < heap.length && heap[c + 1].d < heap[c].d) c++;
        if (heap[c].d >= last.d) break;
        heap[i] = heap[c];
        i = c;
      }
      heap[i] = last;
    }
    return top;
  };
  for (let v = 0; v < vertices; v++) if (distance[v] < Infinity) push(v, distance[v]);
  while (heap.length > 0) {
    const { v, d } = pop();
    if (done[v] || d > distance[v]) continue;
    if (d > reach) break;
    done[v] = 1;
    for (let e = first[v]; e < first[v + 1]; e++) {
      const t = 3 * list[e];
      for (let k = 0; k < 3; k++) {
        const w = triangles[t + k];
        if (done[w]) continue;
        const a = triangles[t + ((k + 1) % 3)];
        const b = triangles[t + ((k + 2) % 3)];
        const now = frontTo(positions, w, a, distance[a], b, distance[b]);
        if (now < distance[w] - 1e-12) {
          distance[w] = now;
          push(w, now);
        }
      }
    }
  }
  return distance;
}

/** Distance at vertex w from those at a and b: the straight front through both, or along an edge if it comes from outside the triangle. */
function frontTo(p: ArrayLike<number>, w: number, a: number, da: number, b: number, db: number): number {
  const gap = (i: number, j: number) =>
    Math.hypot(p[3 * i] - p[3 * j], p[3 * i + 1] - p[3 * j + 1], p[3 * i + 2] - p[3 * j + 2]);
  const wa = gap(w, a);
  const wb = gap(w, b);
  const along = Math.min(da + wa, db + wb);
  if (da === Infinity || db === Infinity) return along;
  const ab = gap(a, b);
  if (Math.abs(db - da) >= ab) return along;
  // Plane with a at the origin and b on the x axis; the source is a straight front with gradient (cos, −sin): w lies above.
  const x = (wa * wa + ab * ab - wb * wb) / (2 * ab);
  const y = Math.sqrt(Math.max(0, wa * wa - x * x));
  const cos = (db - da) / ab;
  const sin = Math.sqrt(1 - cos * cos);
  // Foot of the ray through w on the edge must lie between a and b.
  const foot = x - (y * cos) / sin;
  if (foot < 0 || foot > ab) return along;
  return da + x * cos + y * sin;
}

/** Exact distances (to second order) of the vertices within `start` of the curve. */
function startNear(
  field: Field,
  mesh: Triangles,
  curve: SurfaceCurve,
  start: number,
  distance: Float64Array,
): void {
  const cells = new Map<string, number[]>();
  const cell = (x: number, y: number, z: number) =>
    `${Math.floor(x / start)},${Math.floor(y / start)},${Math.floor(z / start)}`;
  const count = curve.stations.length;
  // The curve as short chords.
  const samples: number[] = [];
  for (let i = 0; i < (curve.closed ? count : count - 1); i++) {
    const j = (i + 1) % count;
    const length = (j === 0 ? curve.length : curve.stations[j]) - curve.stations[i];
    const parts = Math.max(1, Math.ceil(length / 2));
    for (let k = 0; k < parts; k++) {
      const u = k / parts;
      const [h0, h1] = [(1 + 2 * u) * (1 - u) ** 2, u * u * (3 - 2 * u)];
      const [g0, g1] = [u * (1 - u) ** 2 * length, u * u * (u - 1) * length];
      for (let c = 0; c < 3; c++) {
        samples.push(
          h0 * curve.points[3 * i + c] +
            h1 * curve.points[3 * j + c] +
            g0 * curve.tangents[3 * i + c] +
            g1 * curve.tangents[3 * j + c],
        );
      }
    }
  }
  const n = samples.length / 3;
  for (let i = 0; i < n; i++) {
    const key = cell(samples[3 * i], samples[3 * i + 1], samples[3 * i + 2]);
    const found = cells.get(key);
    if (found) found.push(i);
    else cells.set(key, [i]);
  }
  const normalAt = (x: number, y: number, z: number) => {
    const near = field.within(x, y, z, 30);
    near.evaluate(x, y, z);
    const g = near.gradient;
    const size = Math.hypot(g[0], g[1], g[2]);
    return [g[0] / size, g[1] / size, g[2] / size];
  };
  for (let v = 0; v < distance.length; v++) {
    const [x, y, z] = [mesh.positions[3 * v], mesh.positions[3 * v + 1], mesh.positions[3 * v + 2]];
    let best = Infinity;
    let foot = [0, 0, 0];
    for (let i = -1; i <= 1; i++) {
      for (let j = -1; j <= 1; j++) {
        for (let k = -1; k <= 1; k++) {
          for (const s of cells.get(cell(x + i * start, y + j * start, z + k * start)) ?? []) {
            const next = (s + 1) % n;
            if (next === 0 && !curve.closed) continue;
            const d = [0, 1, 2].map((c) => samples[3 * next + c] - samples[3 * s + c]);
            const length2 = d[0] ** 2 + d[1] ** 2 + d[2] ** 2;
            const along =
              ((x - samples[3 * s]) * d[0] +
                (y - samples[3 * s + 1]) * d[1] +
                (z - samples[3 * s + 2]) * d[2]) /
              length2;
            const u = Math.max(0, Math.min(1, along));
            const q = [0, 1, 2].map((c) => samples[3 * s + c] + u * d[c]);
            const gap = Math.hypot(x - q[0], y - q[1], z - q[2]);
            if (gap < best) {
              best = gap;
              foot = q;
            }
          }
        }
      }
    }
    if (best > start) continue;
    const [a, b] = [normalAt(x, y, z), normalAt(foot[0], foot[1], foot[2])];
    const half = Math.acos(Math.max(-1, Math.min(1, a[0] * b[0] + a[1] * b[1] + a[2] * b[2]))) / 2;
    distance[v] = half > 1e-6 ? (best * half) / Math.sin(half) : best;
  }
}

/** Area (mm²) of the part of the mesh where the linear interpolation of `distance` is at most `reach`. */
export function areaWithin(mesh: Triangles, distance: Float64Array, reach: number): number {
  const { positions: p, triangles } = mesh;
  let sum = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [triangles[t], triangles[t + 1], triangles[t + 2]].sort(
      (a, b) => distance[a] - distance[b],
    );
    const [a, b, c] = corners;
    if (distance[a] > reach) continue;
    const u = [0, 1, 2].map((k) => p[3 * b + k] - p[3 * a + k]);
    const v = [0, 1, 2].map((k) => p[3 * c + k] - p[3 * a + k]);
    const area =
      Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
    const part = (from: number, to: number) =>
      distance[to] === Infinity ? 0 : (reach - distance[from]) / (distance[to] - distance[from]);
    if (distance[c] <= reach) sum += area;
    else if (distance[b] <= reach) sum += area * (1 - (1 - part(a, c)) * (1 - part(b, c)));
    else sum += area * part(a, b) * part(a, c);
  }
  return sum;
}
