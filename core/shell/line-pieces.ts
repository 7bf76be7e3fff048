import type { Contest } from "../surface/contest.ts";
import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";
import { insertSamples } from "../surface/cut-curve.ts";
import type { Field } from "../surface/field.ts";
import { nearestStation } from "../surface/nearest-station.ts";
import { settler } from "../surface/settle.ts";
import type { BoundaryChain } from "./boundary-chains.ts";
import { junctionOnLine } from "./junctions.ts";

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
  /** Middle of a triangle of the mesh. */
  middleOf(triangle: number): readonly [number, number, number];
}

/** Cuts a line where the mesh shows that a face beside it changes: at the exact junction, found along the line. */
export function cutAtJunctions(line: LineToCut): LinePieces {
  const { curve, chain, facesAt } = line;
  const count = chain.edges.length / 2;
  const changes: number[] = [];
  for (let i = 0; i < (chain.closed ? count : count - 1); i++) {
    const [a, b] = facesAt(i);
    const [c, d] = facesAt((i + 1) % count);
    if (a !== c || b !== d) changes.push(i);
  }
  if (changes.length === 0) {
    const [left, right] = facesAt(0);
    return { curve, pieces: [{ left, right, from: 0, to: curve.length }], junctions: [] };
  }

  const junctions: LineJunction[] = [];
  const samples = new Float64Array(9 * changes.length);
  const sample = new Float64Array(9);
  const settle = settler(line.field, line.contest);
  for (const i of changes) {
    const [a, b] = facesAt(i);
    const [c, d] = facesAt((i + 1) % count);
    const [before, after] = a === c ? [b, d] : [a, c];
    const near = nearestStation(curve, ...line.middleOf(chain.between[i]));
    const sense = after < before ? 1 : -1;
    let station = junctionOnLine(line.field, curve, settle, line.stemOf(before, after), sense, near, sample);
    const exact = station !== null;
    if (station === null) {
      station = near;
      curvePointAt(curve, near, sample);
    }
    samples.set(sample, 9 * junctions.length);
    if (curve.closed) station -= Math.floor(station / curve.length) * curve.length;
    junctions.push({ triangle: chain.between[i], station, point: sample.slice(0, 3), exact });
  }

  const stops = inOrder(junctions, curve, changes, count);
  const pieces: LinePiece[] = [];
  const piece = (crossing: number, from: number, to: number) => {
    const [left, right] = facesAt(crossing % count);
    pieces.push({ left, right, from, to });
  };
  if (!chain.closed) piece(0, 0, stops[0]);
  for (let n = 0; n < stops.length; n++) {
    const next = n + 1 < stops.length ? stops[n + 1] : chain.closed ? stops[0] + curve.length : curve.length;
    piece(changes[n] + 1, stops[n], next);
  }

  const byStation = junctions.map((_, n) => n).sort((p, q) => junctions[p].station - junctions[q].station);
  const sorted = new Float64Array(samples.length);
  byStation.forEach((n, k) => {
    sorted.set(samples.subarray(9 * n, 9 * n + 9), 9 * k);
  });
  const stations = byStation.map((n) => junctions[n].station);
  return { curve: insertSamples(curve, sorted, stations), pieces, junctions };
}

/**
 * Stations of the junctions in the chain's order, never falling. On a closed line they count on past its end; which
 * turn they belong to, and small disorder where two lie close together, is decided by the chain.
 */
function inOrder(
  junctions: readonly LineJunction[],
  curve: SurfaceCurve,
  changes: readonly number[],
  count: number,
): number[] {
  const first = junctions[0].station;
  let last = first;
  return junctions.map(({ station }, n) => {
    if (curve.closed) {
      const expected = first + ((changes[n] - changes[0]) / count) * curve.length;
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
