/**
 * A closed outline without holes: x y pairs, counter-clockwise, the first corner not repeated. Lengths are in any one unit
 * (mm in the shop).
 */
export type Ring = Float64Array;

/** Left, right, lower and upper end of an outline, and how far they are apart. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
  readonly width: number;
  readonly height: number;
}

export function boxOf(ring: ArrayLike<number>): Box {
  let left = Infinity;
  let right = -Infinity;
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < ring.length; i += 2) {
    left = Math.min(left, ring[i]);
    right = Math.max(right, ring[i]);
    low = Math.min(low, ring[i + 1]);
    high = Math.max(high, ring[i + 1]);
  }
  return { left, right, low, high, width: right - left, height: high - low };
}

/** Area of a closed outline: positive counter-clockwise. Taken about its first corner, for accuracy. */
export function ringArea(ring: ArrayLike<number>): number {
  let twice = 0;
  for (let i = 2; i + 3 < ring.length; i += 2) {
    const ax = ring[i] - ring[0];
    const ay = ring[i + 1] - ring[1];
    twice += ax * (ring[i + 3] - ring[1]) - ay * (ring[i + 2] - ring[0]);
  }
  return twice / 2;
}

/**
 * The outline as a ring: turned counter-clockwise, without repeated corners and without corners on a straight line
 * between their neighbours.
 */
export function tidyRing(pairs: ArrayLike<number>): Ring {
  const box = boxOf(pairs);
  const tiny = 1e-9 * Math.max(box.width, box.height);
  let corners: (readonly [number, number])[] = [];
  for (let i = 0; i < pairs.length; i += 2) corners.push([pairs[i], pairs[i + 1]]);
  for (let before = -1; before !== corners.length; ) {
    before = corners.length;
    corners = corners.filter((corner, i) => {
      const last = corners[(i + before - 1) % before];
      return Math.hypot(corner[0] - last[0], corner[1] - last[1]) > tiny;
    });
    // Every second corner at most goes in a round, so that no two neighbours vouch for each other.
    let kept = true;
    corners = corners.filter((corner, i) => {
      const last = corners[(i + corners.length - 1) % corners.length];
      const next = corners[(i + 1) % corners.length];
      const width = distanceToLine(corner, last, next);
      kept = !kept || width > tiny;
      return kept;
    });
  }
  const ring = Float64Array.from(corners.flat());
  return ringArea(ring) >= 0 ? ring : reversed(ring);
}

function distanceToLine(
  [x, y]: readonly [number, number],
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
): number {
  const length = Math.hypot(bx - ax, by - ay);
  return length === 0 ? 0 : Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length;
}

function reversed(ring: Ring): Ring {
  const out = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    out[i] = ring[ring.length - 2 - i];
    out[i + 1] = ring[ring.length - 1 - i];
  }
  return out;
}
