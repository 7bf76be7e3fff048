import { type Ring, ringArea } from "./ring.ts";

/**
 * Convex parts that together are the inside of an outline: triangles by clipping ears, joined again over every diagonal
 * that a convex part can do without (Hertel and Mehlhorn, "Fast triangulation of simple polygons", 1983: at most four
 * times the fewest parts). Longest diagonals go first, which leaves fewer slivers. Each part is counter-clockwise. Null
 * when the outline has no area or crosses itself.
 */
export function convexParts(ring: Ring): Ring[] | null {
  if (ring.length < 6) return null;
  const parts = joinParts(ring, triangles(ring));
  const rings = parts.map((part) => Float64Array.from(part.flatMap((i) => [ring[2 * i], ring[2 * i + 1]])));
  const area = ringArea(ring);
  const sum = rings.reduce((total, part) => total + ringArea(part), 0);
  return area > 0 && Math.abs(sum - area) <= 1e-6 * area && !crossesItself(ring) ? rings : null;
}

/** Whether two edges cross properly. */
function crossesItself(ring: Ring): boolean {
  const count = ring.length / 2;
  for (let i = 0; i < count; i++) {
    const j = (i + 1) % count;
    for (let k = 0; k < i; k++) {
      const l = (k + 1) % count;
      if (turn(ring, i, j, k) * turn(ring, i, j, l) < 0 && turn(ring, k, l, i) * turn(ring, k, l, j) < 0)
        return true;
    }
  }
  return false;
}

/** Twice the area of the triangle over three corners of a ring: positive when they turn left. */
function turn(ring: Ring, a: number, b: number, c: number): number {
  const ux = ring[2 * b] - ring[2 * a];
  const uy = ring[2 * b + 1] - ring[2 * a + 1];
  return ux * (ring[2 * c + 1] - ring[2 * a + 1]) - uy * (ring[2 * c] - ring[2 * a]);
}

function triangles(ring: Ring): number[][] {
  const left = Array.from({ length: ring.length / 2 }, (_, i) => i);
  const found: number[][] = [];
  while (left.length > 3) {
    // The ear that is fattest for its longest side: slivers are bad parts.
    let best = -1;
    let most = 0;
    for (let i = 0; i < left.length; i++) {
      const a = left[(i + left.length - 1) % left.length];
      const c = left[(i + 1) % left.length];
      const area = turn(ring, a, left[i], c);
      if (area <= 0) continue;
      const fatness = area / Math.max(gap(ring, a, left[i]), gap(ring, left[i], c), gap(ring, a, c)) ** 2;
      if (fatness > most && isEar(ring, left, a, left[i], c)) {
        most = fatness;
        best = i;
      }
    }
    if (best < 0) return found;
    found.push([left[(best + left.length - 1) % left.length], left[best], left[(best + 1) % left.length]]);
    left.splice(best, 1);
  }
  if (turn(ring, left[0], left[1], left[2]) > 0) found.push(left);
  return found;
}

function gap(ring: Ring, a: number, b: number): number {
  return Math.hypot(ring[2 * a] - ring[2 * b], ring[2 * a + 1] - ring[2 * b + 1]);
}

function isEar(ring: Ring, left: readonly number[], a: number, b: number, c: number): boolean {
  return left.every((i) => {
    if (i === a || i === b || i === c) return true;
    return turn(ring, a, b, i) < 0 || turn(ring, b, c, i) < 0 || turn(ring, c, a, i) < 0;
  });
}

function joinParts(ring: Ring, parts: number[][]): number[][] {
  const diagonals = new Map<string, [number, number]>();
  const count = ring.length / 2;
  for (const part of parts) {
    part.forEach((a, i) => {
      const b = part[(i + 1) % part.length];
      if ((a + 1) % count !== b && (b + 1) % count !== a)
        diagonals.set(`${Math.min(a, b)} ${Math.max(a, b)}`, [a, b]);
    });
  }
  const order = [...diagonals.values()].sort((p, q) => gap(ring, ...q) - gap(ring, ...p));
  for (const [a, b] of order) {
    const one = parts.find((part) => follows(part, a, b));
    const other = parts.find((part) => follows(part, b, a));
    if (!one || !other) continue;
    // Each from the far end of the diagonal round to its near end.
    const joined = [...from(one, b).slice(0, -1), ...from(other, a).slice(0, -1)];
    if (!isConvex(ring, joined)) continue;
    parts = parts.filter((part) => part !== one && part !== other);
    parts.push(joined);
  }
  return parts;
}

const follows = (part: readonly number[], a: number, b: number) =>
  part.includes(a) && part[(part.indexOf(a) + 1) % part.length] === b;

function from(part: readonly number[], first: number): number[] {
  const place = part.indexOf(first);
  return [...part.slice(place), ...part.slice(0, place)];
}

function isConvex(ring: Ring, part: readonly number[]): boolean {
  const count = part.length;
  return part.every((b, i) => turn(ring, part[(i + count - 1) % count], b, part[(i + 1) % count]) >= 0);
}
