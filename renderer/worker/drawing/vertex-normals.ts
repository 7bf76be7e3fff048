/** Unit normals at the vertices of a mesh: those of the triangles around, weighed by area. */
export function vertexNormals(positions: Float32Array, triangles: Uint32Array): Float32Array {
  const normals = new Float32Array(positions.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const ux = positions[b] - positions[a];
    const uy = positions[b + 1] - positions[a + 1];
    const uz = positions[b + 2] - positions[a + 2];
    const vx = positions[c] - positions[a];
    const vy = positions[c + 1] - positions[a + 1];
    const vz = positions[c + 2] - positions[a + 2];
    for (const v of [a, b, c]) {
      normals[v] += uy * vz - uz * vy;
      normals[v + 1] += uz * vx - ux * vz;
      normals[v + 2] += ux * vy - uy * vx;
    }
  }
  for (let v = 0; v < normals.length; v += 3) {
    const size = Math.hypot(normals[v], normals[v + 1], normals[v + 2]) || 1;
    for (let k = 0; k < 3; k++) normals[v + k] /= size;
  }
  return normals;
}
