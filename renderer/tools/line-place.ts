/** Places on a polyline (x y z each point), as parts of its length from 0 to 1. */

export interface OnLine {
  readonly part: number;
  readonly distance: number;
}

/** The place of a polyline nearest to a point, and how far off it is, mm. */
export function nearestOn(points: Float32Array, closed: boolean, at: readonly number[]): OnLine {
  let best = Infinity;
  let station = 0;
  let length = 0;
  eachSegment(points, closed, (a, b, from, long) => {
    length = from + long;
    let dot = 0;
    for (let k = 0; k < 3; k++) dot += (at[k] - points[a + k]) * (points[b + k] - points[a + k]);
    const t = long > 0 ? Math.min(1, Math.max(0, dot / (long * long))) : 0;
    let square = 0;
    for (let k = 0; k < 3; k++) square += (at[k] - points[a + k] - t * (points[b + k] - points[a + k])) ** 2;
    if (square >= best) return;
    best = square;
    station = from + t * long;
  });
  return { part: length > 0 ? station / length : 0, distance: Math.sqrt(best) };
}

/** The point at a part of a polyline's length. */
export function pointOn(points: Float32Array, closed: boolean, part: number): [number, number, number] {
  const wanted = part * lengthOf(points, closed);
  let found: [number, number, number] = [points[0], points[1], points[2]];
  eachSegment(points, closed, (a, b, from, long) => {
    if (from > wanted || long === 0) return;
    const t = Math.min(1, (wanted - from) / long);
    const at = (k: number) => points[a + k] + t * (points[b + k] - points[a + k]);
    found = [at(0), at(1), at(2)];
  });
  return found;
}

function lengthOf(points: Float32Array, closed: boolean): number {
  let length = 0;
  eachSegment(points, closed, (_a, _b, from, long) => {
    length = from + long;
  });
  return length;
}

function eachSegment(
  points: Float32Array,
  closed: boolean,
  take: (a: number, b: number, from: number, long: number) => void,
): void {
  const count = points.length / 3;
  let from = 0;
  for (let i = 0; i < (closed ? count : count - 1); i++) {
    const a = 3 * i;
    const b = 3 * ((i + 1) % count);
    const long = Math.hypot(
      points[b] - points[a],
      points[b + 1] - points[a + 1],
      points[b + 2] - points[a + 2],
    );
    take(a, b, from, long);
    from += long;
  }
}
