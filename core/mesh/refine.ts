import { bisectEdge, FLAT_MM } from "./bisect-edge.ts";
import { ADRIFT, type Facets, next } from "./facets.ts";
import { flipAround } from "./flip.ts";
import type { Seat } from "./seat.ts";
import { DOME, gapOf, signedGapOf, squareLength } from "./shape.ts";
import { clear, makeWorklist, notPlain, put, type Worklist } from "./worklist.ts";

export interface Fineness {
  /** Most gap between an edge's (or a triangle's) middle and the surface, mm. */
  readonly chord: number;
  /** Longest edge on flat stretches, mm. */
  readonly longest: number;
}

/** Edges along a round may be this much longer than those across it need to be: triangles of about 1 : 2. */
const SLENDER = 2.4;
/**
 * Smallest radius that edges are split for, mm. Edges short enough for it are left alone: at a crease, or at a tear in
 * the field, no edge would ever be short enough.
 */
const LEAST_RADIUS = 5;
const MOST_PASSES = 12;
/**
 * Splitting ends when there are this many times the triangles at a gap of 1 mm, more in proportion at a finer one (the
 * count goes with 1/gap on a curved surface): the field must be torn. Whole shells grow less than twofold.
 */
const MOST_GROWTH = 6;
/** Edges are split from the longest down, in classes half an octave wide. */
const CLASSES = 24;

/**
 * Splits edges until every one is short enough for the bend of the surface beside it, longest first, turning diagonals
 * on the way. Only the surroundings of the last splits are looked at again. The list `from` is used up.
 */
export function refine(m: Facets, seat: Seat, fineness: Fineness, from = notPlain(m)): void {
  let worklist = from;
  let touched = makeWorklist(m.triangles);
  const splits = new SplitList();
  const bends = new Bends();
  const most = MOST_GROWTH * Math.max(1, 1 / fineness.chord) * (m.triangles + 1000);
  for (let pass = 0; pass < MOST_PASSES && worklist.length > 0 && m.triangles < most; pass++) {
    bends.measure(m, worklist, fineness);
    gatherSplits(m, bends, fineness, splits);
    clear(touched);
    for (let c = 0; c < CLASSES; c++)
      for (let n = splits.start[c]; n < splits.start[c + 1]; n++) {
        const at = 3 * splits.order[n];
        const h = splits.edges[at];
        // Moved meanwhile by the split of a neighbour: the next pass meets it again.
        if (m.corner[h] !== splits.edges[at + 1] || m.corner[next(h)] !== splits.edges[at + 2]) continue;
        const g = m.twin[h];
        put(touched, (h / 3) | 0);
        if (g >= 0) put(touched, (g / 3) | 0);
        for (let t = m.triangles; t < m.triangles + (g < 0 ? 1 : 2); t++) put(touched, t);
        bisectEdge(m, seat, h);
      }
    flipAround(m, touched, fineness.chord);
    [worklist, touched] = [touched, worklist];
  }
}

/** The triangles of a worklist that are bent or have long edges, what their edges show, and the sizes that follow. */
class Bends {
  /** First half-edges of those triangles, `length` of them. */
  triangles = new Int32Array(0);
  length = 0;
  /** Of each half-edge: its gap, mm, and its length's square, mm². Known in the triangles measured last. */
  gap = new Float64Array(0);
  square = new Float64Array(0);
  /** The pass in which each triangle was measured last. */
  private measured = new Uint8Array(0);
  private pass = 0;
  /** Edge length that the bend asks for at each vertex, as far as edges have told it in this pass or one before, mm. */
  size = new Float64Array(0);

  /** Lowers the size at both ends of every edge that follows the surface well enough to tell its bend. */
  measure(m: Facets, worklist: Worklist, { chord, longest }: Fineness): void {
    this.makeRoom(m, worklist.length);
    const { corner, twin } = m;
    const { triangles, gap, square, size, measured } = this;
    const pass = ++this.pass;
    const least = chord / 64;
    const longest2 = longest * longest;
    this.length = 0;
    for (let w = 0; w < worklist.length; w++) {
      const triangle = worklist.items[w];
      const t = 3 * triangle;
      measured[triangle] = pass;
      let plain = true;
      for (let h = t; h < t + 3; h++) {
        const other = twin[h];
        if (other >= 0 && measured[(other / 3) | 0] === pass) {
          gap[h] = gap[other];
          square[h] = square[other];
          if (gap[h] > FLAT_MM || square[h] > longest2) plain = false;
          continue;
        }
        const a = corner[h];
        const b = corner[h === t + 2 ? t : h + 1];
        const g = gapOf(m, a, b);
        const l = squareLength(m, a, b);
        gap[h] = g;
        square[h] = l;
        if (g > FLAT_MM || l > longest2) plain = false;
        if (g < least || g > chord) continue;
        const s = Math.sqrt((l * chord) / g);
        if (s < size[a]) size[a] = s;
        if (s < size[b]) size[b] = s;
      }
      if (!plain) triangles[this.length++] = t;
    }
  }

  private makeRoom(m: Facets, listed: number): void {
    if (this.size.length < m.vertices) {
      const before = this.size;
      this.size = new Float64Array(m.leaving.length).fill(Infinity, before.length);
      this.size.set(before);
    }
    if (this.measured.length < m.triangles) {
      const room = m.corner.length;
      this.measured = new Uint8Array(room / 3);
      this.gap = new Float64Array(room);
      this.square = new Float64Array(room);
    }
    if (this.triangles.length < listed) this.triangles = new Int32Array(2 * listed);
  }
}

/** Edges to be split: half-edge and its two ends, with an order by length. */
class SplitList {
  edges = new Int32Array(3 * 1024);
  length = 0;
  private classOf = new Uint8Array(1024);
  order = new Int32Array(1024);
  readonly start = new Int32Array(CLASSES + 1);

  add(h: number, a: number, b: number, klass: number): void {
    if (this.length === this.classOf.length) {
      const edges = new Int32Array(6 * this.length);
      edges.set(this.edges);
      this.edges = edges;
      const classOf = new Uint8Array(2 * this.length);
      classOf.set(this.classOf);
      this.classOf = classOf;
    }
    const at = 3 * this.length;
    this.edges[at] = h;
    this.edges[at + 1] = a;
    this.edges[at + 2] = b;
    this.classOf[this.length++] = klass;
  }

  /** Counting sort by class. */
  sort(): void {
    const { start, classOf, length } = this;
    start.fill(0);
    for (let i = 0; i < length; i++) start[classOf[i] + 1]++;
    for (let c = 0; c < CLASSES; c++) start[c + 1] += start[c];
    if (this.order.length < length) this.order = new Int32Array(2 * length);
    const to = start.slice();
    for (let i = 0; i < length; i++) this.order[to[classOf[i]]++] = i;
  }
}

function gatherSplits(m: Facets, bends: Bends, { chord, longest }: Fineness, splits: SplitList): void {
  const { corner, standing } = m;
  const { triangles, gap, square, size } = bends;
  const splittable = Math.min(8 * LEAST_RADIUS * chord, (longest * longest) / 16);
  splits.length = 0;
  const add = (h: number, l: number): void => {
    const c = Math.floor(Math.log2((16 * longest * longest) / l));
    splits.add(h, corner[h], corner[next(h)], Math.min(Math.max(c, 0), CLASSES - 1));
  };
  for (let n = 0; n < bends.length; n++) {
    const t = triangles[n];
    let gaps = 0;
    let long = t;
    let any = false;
    for (let h = t; h < t + 3; h++) {
      const l = square[h];
      if (l > square[long]) long = h;
      gaps += gap[h];
      const a = corner[h];
      const b = corner[h === t + 2 ? t : h + 1];
      if (l < splittable || standing[a] === ADRIFT || standing[b] === ADRIFT) continue;
      const most = Math.min(longest, SLENDER * Math.min(size[a], size[b]));
      if (l <= most * most && gap[h] <= chord) continue;
      any = true;
      add(h, l);
    }
    // A gap is no less than that with its sign.
    if (any || gaps * DOME <= chord || square[long] <= splittable || standing[corner[long]] === ADRIFT)
      continue;
    const bend =
      signedGapOf(m, corner[t], corner[t + 1]) +
      signedGapOf(m, corner[t + 1], corner[t + 2]) +
      signedGapOf(m, corner[t + 2], corner[t]);
    if (Math.abs(bend) * DOME > chord) add(long, square[long]);
  }
  splits.sort();
}
