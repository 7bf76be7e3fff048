import type { Chain, Line, Outline, Segment } from "./chain.ts";
import { reverseChain } from "./make-chain.ts";
import { turnTo } from "./nearest.ts";
import { runAt } from "./rim-place.ts";
import { segmentEnd, segmentStart } from "./segments.ts";

/** A place where an outline cannot be moved as far as is needed. */
export interface TightPlace {
  /** Runs between which (or, for a corner, in which) it is tight. */
  readonly where: readonly string[];
  /** Distance asked for, and the largest that there is room for, mm. */
  readonly need: number;
  readonly have: number;
  /** Middle of the tight place in plan, mm. */
  readonly x: number;
  readonly y: number;
}

/**
 * Whether the outline can be moved outwards by `distance` mm (the coping's flange and roll) without meeting itself: null when
 * it can, else the tightest place. Exact: a smooth curve can be moved until its tightest bend comes to a point or two
 * stretches that face each other meet halfway, whichever comes first (the reach of the curve: Aamari et al., "Estimating the
 * reach of a manifold", Electronic Journal of Statistics 13, 2019, theorem 3.4).
 */
export function outwardClearance(outline: Outline, distance: number): TightPlace | null {
  const { segments } = outline.chain;
  const bends = segments.flatMap((segment, i): Gap[] => {
    if (segment.kind === "line" || segment.sweep > 0) return [];
    return [{ first: i, second: i, have: segment.radius, x: segment.cx, y: segment.cy }];
  });
  return tightest(outline, distance, [...bends, ...gaps(segments)]);
}

/** A place where two stretches of a closed outline face each other across its inside, mm. */
export interface Narrow {
  /** From the one to the other. */
  readonly across: number;
  readonly x: number;
  readonly y: number;
}

/** Places where two stretches of a closed outline face each other squarely across its inside. */
export const narrows = (chain: Chain): Narrow[] =>
  gaps(reverseChain(chain).segments).map(({ have, x, y }) => ({ across: 2 * have, x, y }));

interface Gap {
  readonly first: number;
  readonly second: number;
  /** Half the gap: how far each side can move. */
  readonly have: number;
  readonly x: number;
  readonly y: number;
}

function tightest(outline: Outline, need: number, all: readonly Gap[]): TightPlace | null {
  const { chain } = outline;
  // Parallel sides are as narrow as the arcs that carry on from them: the longest pair gives the place its name.
  const span = ({ first, second }: Gap) => chain.segments[first].length + chain.segments[second].length;
  const least = Math.min(...all.map((gap) => gap.have));
  const worst = all.filter((gap) => gap.have < least + 1e-6).sort((a, b) => span(b) - span(a))[0];
  // An outline may be moved right up to the point where it meets itself; rounding must not forbid that.
  if (!worst || worst.have >= need - 1e-6) return null;
  const runOf = (i: number) => runAt(outline, (chain.stations[i] + chain.stations[i + 1]) / 2).run.id;
  const where = [...new Set([runOf(worst.first), runOf(worst.second)])];
  return { where, need, have: worst.have, x: worst.x, y: worst.y };
}

/**
 * Pairs of points that face each other squarely across the outside: each lies straight along the other's normal. Closed
 * forms: parallel lines, a line and an arc's centre, two arcs' line of centres.
 */
function gaps(segments: readonly Segment[]): Gap[] {
  const found: Gap[] = [];
  segments.forEach((a, first) => {
    for (let second = first; second < segments.length; second++) {
      const b = segments[second];
      for (const [nx, ny] of facings(a, b)) {
        const p = pointFacing(a, nx, ny, b);
        const q = pointFacing(b, -nx, -ny, a);
        if (!p || !q) continue;
        const gap = (q.x - p.x) * nx + (q.y - p.y) * ny;
        if (gap > 1e-9) found.push({ first, second, have: gap / 2, x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 });
      }
    }
  });
  return found;
}

type Vector = readonly [number, number];

/** Directions in which a point of `a` may look squarely at a point of `b`. */
function facings(a: Segment, b: Segment): Vector[] {
  if (a.kind === "line") return [[a.uy, -a.ux]];
  if (b.kind === "line") return [[-b.uy, b.ux]];
  const dx = b.cx - a.cx;
  const dy = b.cy - a.cy;
  const apart = Math.hypot(dx, dy);
  if (apart > 1e-7) {
    return [
      [dx / apart, dy / apart],
      [-dx / apart, -dy / apart],
    ];
  }
  // About one centre every direction will do where both arcs are present: their ends show whether there is any.
  return [a, b].flatMap((arc) =>
    [segmentStart(arc), segmentEnd(arc)].map(({ tx, ty }): Vector => {
      const flip = arc === a ? 1 : -1;
      return [flip * ty, -flip * tx];
    }),
  );
}

/** The point of a segment whose outward normal is (nx, ny), where it can also face `other`; null for none. */
function pointFacing(
  segment: Segment,
  nx: number,
  ny: number,
  other: Segment,
): { x: number; y: number } | null {
  if (segment.kind === "arc") {
    const out = Math.sign(segment.sweep);
    const turn = turnTo(segment, out * nx, out * ny);
    if (turn > Math.abs(segment.sweep) + SLACK && turn < 2 * Math.PI - SLACK) return null;
    return { x: segment.cx + out * segment.radius * nx, y: segment.cy + out * segment.radius * ny };
  }
  const { ax, ay, ux, uy, length } = segment;
  if (Math.abs(uy - nx) + Math.abs(-ux - ny) > SLACK) return null;
  const along = (x: number, y: number) => (x - ax) * ux + (y - ay) * uy;
  const s = other.kind === "arc" ? along(other.cx, other.cy) : middleOfOverlap(along, length, other);
  if (s === null || s < 0 || s > length) return null;
  return { x: ax + s * ux, y: ay + s * uy };
}

/** Directions that differ by less (radians) are one direction. */
const SLACK = 1e-9;

/** Middle of the stretch that a line shares with another beside it, or null when they do not lie beside each other. */
function middleOfOverlap(
  along: (x: number, y: number) => number,
  length: number,
  other: Line,
): number | null {
  const [from, to] = [along(other.ax, other.ay), along(other.bx, other.by)];
  const low = Math.max(0, Math.min(from, to));
  const high = Math.min(length, Math.max(from, to));
  return low < high ? (low + high) / 2 : null;
}
