import { collapseEdge } from "./change-edges.ts";
import { aroundFrom, type Facets, next, previous, startOf } from "./facets.ts";
import { gapOf, shapeOf } from "./shape.ts";

const MOST_NEIGHBOURS = 64;
const ringA = new Int32Array(MOST_NEIGHBOURS);
const ringB = new Int32Array(MOST_NEIGHBOURS);

/**
 * Draws one end of the edge of half-edge `h` into the other when the net stays a surface, the smallest angle round the
 * vertex that goes away grows, and no new edge leaves the surface by more than `tolerance` mm. True when done.
 */
export function collapseIfBetter(m: Facets, h: number, tolerance: number): boolean {
  if (collapseInto(m, h, tolerance)) return true;
  const g = m.twin[h];
  return g >= 0 && collapseInto(m, g, tolerance);
}

/**
 * Takes out the vertex at the start of `h` if it has three triangles only and that makes none of them worse. It stands in
 * the way of others where a fold of the net has shrunk to a point. True when done.
 */
export function takeOutOfThree(m: Facets, h: number, tolerance: number): boolean {
  return !isOpen(m, m.corner[h]) && valence(m, m.corner[h]) === 3 && collapseInto(m, h, tolerance);
}

function collapseInto(m: Facets, h: number, tolerance: number): boolean {
  const { corner, twin, onCut } = m;
  const a = corner[h];
  const b = corner[next(h)];
  const g = twin[h];
  const onBoundary = g < 0;
  const na = ringOf(m, a, ringA);
  const nb = ringOf(m, b, ringB);
  if (na < 0 || nb < 0) return false;
  // A boundary vertex may only be drawn along the boundary; an open edge off the cut stays as it is.
  const aOpen = isOpen(m, a);
  if (aOpen && (!onBoundary || onCut[a] === 0 || onCut[b] === 0)) return false;
  if (!aOpen && onBoundary) return false;
  let common = 0;
  for (let i = 0; i < na; i++) for (let j = 0; j < nb; j++) if (ringA[i] === ringB[j]) common++;
  if (common !== (onBoundary ? 1 : 2)) return false;
  const ofThree = na === 3 && !aOpen;
  // Two triangles back to back would be left.
  if (ofThree && nb === 3) return false;
  for (const side of onBoundary ? [h] : [h, g]) {
    const apex = corner[previous(side)];
    if (valence(m, apex) < (isOpen(m, apex) ? 3 : 4)) return false;
  }
  const ta = h - (h % 3);
  const tb = onBoundary ? -1 : g - (g % 3);
  let worst = 1;
  let best = 1;
  let gap = 0;
  let oldGap = 0;
  const start = startOf(m, a);
  let walk = start;
  do {
    const t = walk - (walk % 3);
    const p = corner[next(walk)];
    const q = corner[previous(walk)];
    worst = Math.min(worst, shapeOf(m, a, p, q));
    if (t !== ta && t !== tb) {
      best = Math.min(best, shapeOf(m, b, p, q));
      gap = Math.max(gap, gapOf(m, b, p), gapOf(m, b, q));
      oldGap = Math.max(oldGap, gapOf(m, a, p), gapOf(m, a, q));
    }
    walk = aroundFrom(m, walk);
  } while (walk >= 0 && walk !== start);
  if (ofThree ? worst > 0 && best < worst : best <= worst * 1.02 + 1e-4) return false;
  if (gap > tolerance && gap > oldGap && worst > 0) return false;
  collapseEdge(m, h);
  return true;
}

function ringOf(m: Facets, v: number, ring: Int32Array): number {
  const start = startOf(m, v);
  let n = 0;
  let h = start;
  for (;;) {
    if (n + 2 > MOST_NEIGHBOURS) return -1;
    ring[n++] = m.corner[next(h)];
    const on = aroundFrom(m, h);
    if (on < 0) {
      ring[n++] = m.corner[previous(h)];
      return n;
    }
    h = on;
    if (h === start) return n;
  }
}

function isOpen(m: Facets, v: number): boolean {
  return m.twin[startOf(m, v)] < 0;
}

function valence(m: Facets, v: number): number {
  const start = startOf(m, v);
  let n = 0;
  let h = start;
  do {
    n++;
    h = aroundFrom(m, h);
  } while (h >= 0 && h !== start);
  return isOpen(m, v) ? n + 1 : n;
}
