import { type CurvedTriangle, planeArea, pointOn } from "./curved-triangle.ts";
import type { Space } from "./space.ts";

/** Rounds for finding where two faces meet between two points; each costs one look at the shares. */
const MOST_ROUNDS = 30;
/** The place is known within this part of an edge. */
const CLOSE = 1e-4;

/**
 * Shares the area of a triangle whose corners belong to different faces out among them, along the lines where the
 * field's owner changes. Two faces part it along a parabola through three points found on the field; three faces along
 * three lines from the middle of the places where its edges change hands.
 */
export interface ShareOut {
  /** Adds the parts of `area` to areaByFace; `owner` are the faces at the triangle's corners. */
  add(triangle: CurvedTriangle, owner: readonly number[], area: number, areaByFace: Float64Array): void;
}

export function makeShareOut(space: Space): ShareOut {
  const place = new Float64Array(3);
  /** Barycentric coordinates: two ends of a search and what it found. */
  const from = new Float64Array(3);
  const to = new Float64Array(3);
  const found = new Float64Array(3);
  /** Corners, middles and cuts of the outline of a part. */
  const points = new Float64Array(3 * 16);

  /** How far face `mine` leads over `other` at t of the way: at least a little > 0 exactly where `mine` owns the point. */
  const lead = (p: CurvedTriangle, t: number, mine: number, other: number): number => {
    for (let i = 0; i < 3; i++) found[i] = (1 - t) * from[i] + t * to[i];
    pointOn(p, found[0], found[1], found[2], place, 0);
    const field = space.fieldAt(place[0], place[1], place[2]);
    const shares = field.shares(place[0], place[1], place[2]);
    const owns = field.owner(shares) === mine;
    const by = shares[mine] - shares[other];
    // A third face may decide who owns the point: the sign is the owner's.
    return owns ? Math.max(by, 1e-9) : Math.min(by, -1e-9);
  };

  /** Leaves in `found` where the owner changes between `from` (owned by `mine`) and `to`: the Illinois rule. */
  const search = (p: CurvedTriangle, mine: number, other: number): void => {
    let low = 0;
    let high = 1;
    let atLow = lead(p, 0, mine, other);
    let atHigh = lead(p, 1, mine, other);
    if (!(atLow > 0 && atHigh < 0)) {
      // The ends do not agree with their owners any more, as on the very line: half and half.
      for (let i = 0; i < 3; i++) found[i] = (from[i] + to[i]) / 2;
      return;
    }
    let kept = 0;
    for (let round = 0; round < MOST_ROUNDS && high - low > CLOSE; round++) {
      // Away from the blend the shares are flat: a step by their slope would creep, so every third halves.
      let t = round % 3 === 2 ? (low + high) / 2 : low + ((high - low) * atLow) / (atLow - atHigh);
      const margin = CLOSE * 0.45;
      t = Math.min(Math.max(t, low + margin), high - margin);
      const value = lead(p, t, mine, other);
      if (value > 0) {
        low = t;
        atLow = value;
        if (kept > 0) atHigh /= 2;
        kept = 1;
      } else {
        high = t;
        atHigh = value;
        if (kept < 0) atLow /= 2;
        kept = -1;
      }
    }
    const t = low + ((high - low) * atLow) / (atLow - atHigh);
    for (let i = 0; i < 3; i++) found[i] = (1 - t) * from[i] + t * to[i];
  };

  const cornerAt = (out: Float64Array, c: number): void => {
    out.fill(0);
    out[c] = 1;
  };

  /** Place on the edge from corner a to corner b where its owner changes: barycentric, to `out`; returns the part of a. */
  const cutEdge = (
    p: CurvedTriangle,
    a: number,
    b: number,
    owner: readonly number[],
    out: Float64Array,
  ): number => {
    cornerAt(from, a);
    cornerAt(to, b);
    search(p, owner[a], owner[b]);
    out.set(found);
    return found[b];
  };

  const cuts = [new Float64Array(3), new Float64Array(3), new Float64Array(3)];
  const centre = new Float64Array(3);

  /** Area of the fan from point 0 of `points` over points 1 … n. */
  const fan = (n: number): number => {
    let area = 0;
    for (let i = 1; i < n; i++) area += planeArea(points, 0, i, i + 1);
    return area;
  };
  const put = (p: CurvedTriangle, n: number, at: Float64Array): void =>
    pointOn(p, at[0], at[1], at[2], points, 3 * n);
  const putNode = (p: CurvedTriangle, n: number, node: number): void => {
    for (let i = 0; i < 3; i++) points[3 * n + i] = p[3 * node + i];
  };
  /** Node in the middle of the edge between two corners. */
  const middleOf = (a: number, b: number): number => (a + b === 1 ? 3 : a + b === 3 ? 4 : 5);

  /** Corner `a` belongs to one face, the other two to another. */
  const inTwo = (p: CurvedTriangle, a: number, owner: readonly number[]): number => {
    const b = (a + 1) % 3;
    const c = (a + 2) % 3;
    const onB = cutEdge(p, a, b, owner, cuts[0]);
    const onC = cutEdge(p, a, c, owner, cuts[1]);
    // A third point of the line: on the way from the corner through the middle of the chord to the far edge.
    const reach = (onB + onC) / 2;
    cornerAt(from, a);
    to.fill(0);
    to[b] = onB / (onB + onC);
    to[c] = onC / (onB + onC);
    if (reach > 1e-6) search(p, owner[a], owner[b]);
    else for (let i = 0; i < 3; i++) found[i] = (cuts[0][i] + cuts[1][i]) / 2;
    centre.set(found);

    let n = 0;
    put(p, n++, centre);
    put(p, n++, cuts[1]);
    if (onC > 0.5) putNode(p, n++, middleOf(c, a));
    putNode(p, n++, a);
    if (onB > 0.5) putNode(p, n++, middleOf(a, b));
    put(p, n, cuts[0]);
    const mine = fan(n) + bulge(p, a, reach);
    n = 0;
    put(p, n++, centre);
    put(p, n++, cuts[0]);
    if (onB <= 0.5) putNode(p, n++, middleOf(a, b));
    putNode(p, n++, b);
    putNode(p, n++, middleOf(b, c));
    putNode(p, n++, c);
    if (onC <= 0.5) putNode(p, n++, middleOf(c, a));
    put(p, n, cuts[1]);
    const other = fan(n) - bulge(p, a, reach);
    return mine / (mine + other);
  };

  /**
   * The line between the parts is a parabola through its three points: ⅔ of sagitta times chord, of which the fans take
   * half already. Positive when it bows away from the lone corner, whose part reaches `reach` of the way at the chord.
   */
  const bulge = (p: CurvedTriangle, a: number, reach: number): number => {
    put(p, 8, cuts[0]);
    put(p, 9, cuts[1]);
    put(p, 10, centre);
    const area = planeArea(points, 8, 10, 9) / 3;
    return 1 - centre[a] > reach ? area : -area;
  };

  const inThree = (p: CurvedTriangle, owner: readonly number[], area: number, out: Float64Array): void => {
    const part = [0, 1, 2].map((a) => cutEdge(p, a, (a + 1) % 3, owner, cuts[a]));
    for (let i = 0; i < 3; i++) centre[i] = (cuts[0][i] + cuts[1][i] + cuts[2][i]) / 3;
    const areas = [0, 1, 2].map((a) => {
      const before = (a + 2) % 3;
      let n = 0;
      put(p, n++, centre);
      put(p, n++, cuts[before]);
      if (part[before] <= 0.5) putNode(p, n++, middleOf(before, a));
      putNode(p, n++, a);
      if (part[a] > 0.5) putNode(p, n++, middleOf(a, (a + 1) % 3));
      put(p, n, cuts[a]);
      return fan(n);
    });
    const total = areas[0] + areas[1] + areas[2];
    for (let a = 0; a < 3; a++) out[owner[a]] += total > 0 ? (area * areas[a]) / total : area / 3;
  };

  const add = (p: CurvedTriangle, owner: readonly number[], area: number, areaByFace: Float64Array): void => {
    const alone = owner[0] === owner[1] ? 2 : owner[1] === owner[2] ? 0 : owner[2] === owner[0] ? 1 : -1;
    if (alone < 0) {
      inThree(p, owner, area, areaByFace);
      return;
    }
    const part = inTwo(p, alone, owner);
    areaByFace[owner[alone]] += part * area;
    areaByFace[owner[(alone + 1) % 3]] += (1 - part) * area;
  };
  return { add };
}
