/**
 * How much longer than its chord the shortest way over a surface is, as a part of the chord: of the cubic whose ends lie in the two
 * tangent planes. `down` and `up` are the sines of the angles between chord and tangent plane at the two ends, positive where the
 * surface bends one way. Exact for a straight line and to fourth order for an arc, where down = up = sin(θ/2) and
 * arc/chord = (θ/2)/sin(θ/2) = 1 + θ²/24 + 7θ⁴/5760 …; where the bend begins within the chord the two ends tell how much of it.
 */
export function arcExcess(down: number, up: number): number {
  const a = down + (down * down * down) / 6;
  const b = up + (up * up * up) / 6;
  const bent = (2 * a * a + a * b + 2 * b * b) / 30;
  return bent + 0.7 * bent * bent;
}

/**
 * Length (mm) along the surface from point `i` to point `j` of `points` with unit `normals` (offsets into both, three numbers each):
 * the chord, corrected by `arcExcess`. Meant for points whose normals differ by less than about 1 rad.
 */
export function arcBetween(points: Float64Array, normals: Float64Array, i: number, j: number): number {
  const dx = points[j] - points[i];
  const dy = points[j + 1] - points[i + 1];
  const dz = points[j + 2] - points[i + 2];
  const chord = Math.sqrt(dx * dx + dy * dy + dz * dz);
  if (chord === 0) return 0;
  const down = -(dx * normals[i] + dy * normals[i + 1] + dz * normals[i + 2]) / chord;
  const up = (dx * normals[j] + dy * normals[j + 1] + dz * normals[j + 2]) / chord;
  return chord * (1 + arcExcess(down, up));
}
