import type { Contest } from "../surface/contest.ts";
import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";
import { insertSamples } from "../surface/cut-curve.ts";
import type { Field } from "../surface/field.ts";
import { nearestStation } from "../surface/nearest-station.ts";
import { settler } from "../surface/settle.ts";
import type { BoundaryChain } from "./boundary-chains.ts";
import { junctionOnLine } from "./junctions.ts";

/** Changes of faces to and fro within this length are the mesh's unevenness if they have no exact junction, mm. */
const UNEVEN = 150;

/** A part of a line along which one pair of faces meets: indices of the faces on its left and right, and stations. */
export interface LinePiece {
  readonly left: number;
  readonly right: number;
  readonly from: number;
  /** May lie past the end of a closed line, up to once round. */
  readonly to: number;
}

/** Where another boundary ends on the line, and the mesh's triangle in which the three owners meet. */
export interface LineJunction {
  readonly triangle: number;
  readonly station: number;
  readonly point: Float64Array;
  /** False where it could only be taken from the mesh. */
  readonly exact: boolean;
}

export interface LinePieces {
  /** The line with its junctions among its points. */
  readonly curve: SurfaceCurve;
  readonly pieces: readonly LinePiece[];
  /** All that the mesh has, also those at which no piece ends. */
  readonly junctions: readonly LineJunction[];
}

export interface LineToCut {
  readonly field: Field;
  readonly contest: Contest;
  readonly curve: SurfaceCurve;
  readonly chain: BoundaryChain;
  /** Faces (left, right) at a crossing of the chain. */
  facesAt(crossing: number): readonly [number, number];
  /** The contest of two faces on one side of the line; the face with the lower index is on its first side. */
  stemOf(a: number, b: number): Contest;
  /** Middle of the mesh's edge at a crossing. */
  placeOf(crossing: number): readonly [number, number, number];
}

/** A change of faces along the chain, after crossing `at`: the faces before and after it. */
interface Change {
  readonly at: number;
  readonly before: readonly [number, number];
  readonly after: readonly [number, number];
  readonly junction: LineJunction;
  readonly sample: Float64Array;
}

/** Cuts a line where the mesh shows that a face beside it changes: at the exact junction, found along the line. */
export function cutAtJunctions(line: LineToCut): LinePieces {
  const { curve, chain, facesAt } = line;
  const count = chain.edges.length / 2;
  const found = changesAlong(line);
  const junctions = found.map(({ junction }) => junction);
  const changes = withoutFlicker(found, curve);
  if (changes.length === 0) {
    const [left, right] = facesAt(count >> 1);
    return { curve, pieces: [{ left, right, from: 0, to: curve.length }], junctions };
  }
  const stops = inOrder(changes, curve, count);
  const pieces: LinePiece[] = [];
  const piece = ([left, right]: readonly [number, number], from: number, to: number) =>
    pieces.push({ left, right, from, to });
  if (!chain.closed) piece(changes[0].before, 0, stops[0]);
  changes.forEach(({ after }, n) => {
    const end = chain.closed ? stops[0] + curve.length : curve.length;
    piece(after, stops[n], n + 1 < stops.length ? stops[n + 1] : end);
  });

  const sorted = [...changes].sort((p, q) => p.junction.station - q.junction.station);
  const samples = new Float64Array(9 * sorted.length);
  sorted.forEach(({ sample }, n) => {
    samples.set(sample, 9 * n);
  });
  const stations = sorted.map(({ junction }) => junction.station);
  return { curve: insertSamples(curve, samples, stations), pieces, junctions };
}

function changesAlong(line: LineToCut): Change[] {
  const { curve, chain, facesAt, field } = line;
  const count = chain.edges.length / 2;
  const settle = settler(field, line.contest);
  const changes: Change[] = [];
  for (let at = 0; at < (chain.closed ? count : count - 1); at++) {
    const before = facesAt(at);
    const after = facesAt((at + 1) % count);
    if (before[0] === after[0] && before[1] === after[1]) continue;
    const [from, to] = before[0] === after[0] ? [before[1], after[1]] : [before[0], after[0]];
    const triangle = chain.between[at];
    const here = line.placeOf(at);
    const there = line.placeOf((at + 1) % count);
    const middle = [0, 1, 2].map((c) => (here[c] + there[c]) / 2) as [number, number, number];
    const near = nearestStation(curve, ...middle);
    const sample = new Float64Array(9);
    const sense = to < from ? 1 : -1;
    let station = junctionOnLine(field, curve, settle, line.stemOf(from, to), sense, near, sample);
    const exact = station !== null;
    if (station === null) {
      station = near;
      curvePointAt(curve, near, sample);
    }
    if (curve.closed) station -= Math.floor(station / curve.length) * curve.length;
    const junction = { triangle, station, point: sample.slice(0, 3), exact };
    changes.push({ at, before, after, junction, sample });
  }
  return changes;
}

/**
 * Beside a junction the mesh's owners may change to and fro where the line itself changes once, or not at all: a change
 * without an exact junction goes, together with the neighbour that takes it back.
 */
function withoutFlicker(found: readonly Change[], curve: SurfaceCurve): Change[] {
  const changes = [...found];
  const apart = (a: Change, b: Change) => {
    const d = Math.abs(a.junction.station - b.junction.station);
    return curve.closed ? Math.min(d, curve.length - d) : d;
  };
  for (let again = true; again; ) {
    again = false;
    for (let n = 0; n < changes.length && !again; n++) {
      if (changes[n].junction.exact) continue;
      const pairs = [n - 1, n]
        .filter((k) => curve.closed || (k >= 0 && k + 1 < changes.length))
        .map((k) => [(k + changes.length) % changes.length, (k + 1) % changes.length] as const)
        .filter(([a, b]) => a !== b && samePair(changes[a].before, changes[b].after))
        .filter(([a, b]) => apart(changes[a], changes[b]) < UNEVEN)
        .sort((p, q) => apart(changes[p[0]], changes[p[1]]) - apart(changes[q[0]], changes[q[1]]));
      if (pairs.length === 0) continue;
      for (const k of [...pairs[0]].sort((a, b) => b - a)) changes.splice(k, 1);
      again = true;
    }
  }
  return changes;
}

const samePair = (a: readonly [number, number], b: readonly [number, number]) =>
  a[0] === b[0] && a[1] === b[1];

/**
 * Stations of the junctions in the chain's order, never falling. On a closed line they count on past its end; which
 * turn they belong to, and small disorder where two lie close together, is decided by the chain.
 */
function inOrder(changes: readonly Change[], curve: SurfaceCurve, count: number): number[] {
  const first = changes[0].junction.station;
  let last = first;
  return changes.map(({ at, junction }) => {
    let { station } = junction;
    if (curve.closed) {
      const expected = first + ((at - changes[0].at) / count) * curve.length;
      station += Math.round((expected - station) / curve.length) * curve.length;
      station = Math.min(station, first + curve.length);
    }
    last = Math.max(last, station);
    return last;
  });
}

/**
 * Leaves out pieces shorter than `least` mm, and joins what lay on both sides of one where it is the same pair of
 * faces. Gives back the pieces kept and those left out.
 */
export function withoutSlivers(
  pieces: readonly LinePiece[],
  least: number,
  closed: boolean,
): { kept: LinePiece[]; slivers: LinePiece[] } {
  const slivers = pieces.filter((p) => p.to - p.from < least);
  const kept: LinePiece[] = [];
  for (const p of pieces) {
    if (p.to - p.from < least) continue;
    const last = kept[kept.length - 1];
    if (last && last.left === p.left && last.right === p.right && p.from - last.to < 2 * least)
      kept[kept.length - 1] = { ...last, to: p.to };
    else kept.push(p);
  }
  if (closed && kept.length > 1 && slivers.length > 0) {
    const head = kept[0];
    const tail = kept[kept.length - 1];
    if (head.left === tail.left && head.right === tail.right) {
      const whole = pieces[pieces.length - 1].to - pieces[0].from;
      kept.pop();
      kept[0] = { ...head, from: tail.from - whole };
    }
  }
  return { kept, slivers };
}
