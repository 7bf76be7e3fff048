import { reverseCurve, type SurfaceCurve } from "../surface/curve.ts";
import { cutCurve } from "../surface/cut-curve.ts";
import type { Field } from "../surface/field.ts";
import { bendAcross } from "./bend-across.ts";
import type { LinePiece } from "./line-pieces.ts";
import type { Face } from "./shell.ts";
import type { Junction, Transition, TransitionKind } from "./transition.ts";

/** A transition before the names that several ask for are told apart. */
export type UnnamedTransition = Omit<Transition, "id"> & { readonly name: string };

/** A traced line with all that its parts take from it. */
export interface Line {
  readonly curve: SurfaceCurve;
  readonly junctions: readonly Junction[];
  readonly sides: Transition["sides"];
  readonly exact: boolean;
  readonly reason: string;
}

/** A line on which the wall ends: the whole foot and its stretches, and the rim; where one goes over into the other it is cut. */
export function wallTransitions(
  line: Line,
  pieces: readonly LinePiece[],
  faces: readonly Face[],
): UnnamedTransition[] {
  const isCoping = (p: LinePiece) => faces[p.right].kind === "coping" || faces[p.right].kind === "lip";
  const found: UnnamedTransition[] = [];
  for (const run of runsOf(line.curve, pieces, isCoping)) {
    const between = names(run, faces);
    found.push(
      isCoping(run)
        ? reversed({ ...part(line, run), kind: "rim", name: "rim", between })
        : { ...part(line, run), kind: "foot", name: "foot", between: [between[0], "below"] },
    );
  }
  for (const piece of pieces) {
    if (isCoping(piece)) continue;
    const between = names(piece, faces);
    found.push({ ...part(line, piece), kind: "stretch", name: between.join("|"), between });
  }
  return found;
}

/** One piece of any other line. `field` is the surface that it lies on. */
export function faceTransition(
  line: Line,
  piece: LinePiece,
  faces: readonly Face[],
  field: Field,
): UnnamedTransition {
  const found = part(line, piece);
  const between = names(piece, faces);
  const kinds = [faces[piece.left].kind, faces[piece.right].kind];
  let kind: TransitionKind;
  if (kinds.includes("lip")) kind = "lip";
  else if (kinds.includes("coping")) kind = "rim";
  else kind = bendAcross(field, found.curve) > 0 ? "step" : "nose";
  return { ...found, kind, between, name: between.join("|") };
}

const names = (p: LinePiece, faces: readonly Face[]): [string, string] => [
  faces[p.left].id,
  faces[p.right].id,
];

/** Neighbouring pieces of one sort taken together; a closed line all of one sort is one run, with its own beginning. */
function runsOf(
  curve: SurfaceCurve,
  pieces: readonly LinePiece[],
  sort: (p: LinePiece) => boolean,
): LinePiece[] {
  if (pieces.length === 0) return [];
  if (pieces.every((p) => sort(p) === sort(pieces[0]))) {
    const { from } = curve.closed ? pieces[0] : { from: 0 };
    return [{ ...pieces[0], from, to: from + curve.length }];
  }
  const count = pieces.length;
  const begin = curve.closed
    ? pieces.findIndex((p, i) => sort(p) !== sort(pieces[(i + count - 1) % count]))
    : 0;
  const runs: LinePiece[] = [];
  for (let n = 0; n < count; n++) {
    const p = pieces[(begin + n) % count];
    const last = runs[runs.length - 1];
    const turn = begin + n >= count ? curve.length : 0;
    if (last && sort(last) === sort(p)) runs[runs.length - 1] = { ...last, to: p.to + turn };
    else runs.push({ ...p, from: p.from + turn, to: p.to + turn });
  }
  return runs;
}

/** The stretch of a line that a piece covers, with the junctions on it. */
function part(line: Line, { from, to }: LinePiece) {
  const { sides, exact, reason } = line;
  const { length, closed } = line.curve;
  const whole = to - from > length - 1e-6;
  let { curve, junctions } = line;
  if (!whole) {
    const start = closed ? from - Math.floor(from / length) * length : from;
    curve = cutCurve(curve, start, closed ? start + ((to - from) % length) : to);
    junctions = junctions
      .flatMap((j) =>
        (closed ? [0, length] : [0]).map((turn) => ({ ...j, station: j.station + turn - start })),
      )
      .filter((j) => j.station > -1e-6 && j.station < to - from + 1e-6)
      .map((j) => ({ ...j, station: Math.min(Math.max(j.station, 0), to - from) }))
      .sort((a, b) => a.station - b.station);
  }
  return { curve, junctions, sides, exact, reason, closed: curve.closed, lengthMm: curve.length };
}

/** The same transition run the other way. */
function reversed(t: UnnamedTransition): UnnamedTransition {
  const { lengthMm, closed } = t;
  const station = (s: number) => (closed ? (lengthMm - s) % lengthMm : lengthMm - s);
  return {
    ...t,
    between: [t.between[1], t.between[0]],
    sides: [t.sides[1], t.sides[0]],
    curve: reverseCurve(t.curve),
    junctions: t.junctions
      .map((j) => ({ ...j, station: station(j.station) }))
      .sort((a, b) => a.station - b.station),
  };
}
