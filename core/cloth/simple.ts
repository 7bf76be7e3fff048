/**
 * Whether a ring (x y pairs, mm) is a simple polygon, counter-clockwise: no two of its sides meet but neighbours, and these in their common corner only. Such a
 * ring covers nothing twice and is one piece all through; one that covers anything twice, however little, is not simple. Every side is held against every
 * other.
 */
export function isSimple(ring: Float64Array): boolean {
  const n = ring.length / 2;
  let twice = 0;
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    twice += (ring[2 * i] - ring[0]) * (ring[2 * j + 1] - ring[1]);
    twice -= (ring[2 * i + 1] - ring[1]) * (ring[2 * j] - ring[0]);
    if (turnsBack(ring, i, j, (j + 1) % n)) return false;
    for (let k = i + 2; k < (i === 0 ? n - 1 : n); k++) if (meet(ring, i, j, k, (k + 1) % n)) return false;
  }
  return twice > 0;
}

/** Twice the area of the triangle of three corners, mm²: positive where they turn to the left. */
function turn(ring: Float64Array, a: number, b: number, c: number): number {
  const [x, y] = [ring[2 * a], ring[2 * a + 1]];
  return (ring[2 * b] - x) * (ring[2 * c + 1] - y) - (ring[2 * b + 1] - y) * (ring[2 * c] - x);
}

/** Whether the side from b on lies upon that from a to b. */
function turnsBack(ring: Float64Array, a: number, b: number, c: number): boolean {
  if (turn(ring, a, b, c) !== 0) return false;
  const [x, y] = [ring[2 * b], ring[2 * b + 1]];
  return (ring[2 * a] - x) * (ring[2 * c] - x) + (ring[2 * a + 1] - y) * (ring[2 * c + 1] - y) > 0;
}

/** Whether the sides from a to b and from c to d have a point in common. */
function meet(ring: Float64Array, a: number, b: number, c: number, d: number): boolean {
  for (let axis = 0; axis < 2; axis++) {
    const [p, q, r, s] = [ring[2 * a + axis], ring[2 * b + axis], ring[2 * c + axis], ring[2 * d + axis]];
    if (Math.max(p, q) < Math.min(r, s) || Math.max(r, s) < Math.min(p, q)) return false;
  }
  const parted = (p: number, q: number) => (p > 0 && q > 0) || (p < 0 && q < 0);
  return (
    !parted(turn(ring, a, b, c), turn(ring, a, b, d)) && !parted(turn(ring, c, d, a), turn(ring, c, d, b))
  );
}
