import type { SurfaceMesh } from "../mesh/mesh.ts";
import { boundaryChains } from "./boundary-chains.ts";
import { type ChainGuess, chainGuess } from "./chain-guess.ts";
import { faceContests } from "./contests.ts";
import type { Face } from "./shell.ts";
import type { TransitionKind } from "./transition.ts";

/** A line along which faces meet, as far as a mesh shows it: for the eye, within about half an edge of the mesh there. */
export interface LineGuess {
  readonly kind: Exclude<TransitionKind, "stretch">;
  /** What lies on its left and on its right at its beginning: ids of faces. */
  readonly between: readonly [string, string];
  readonly closed: boolean;
  readonly lengthMm: number;
  /** x y z of each point, mm. */
  readonly points: Float64Array;
}

/** Every line along which two faces of a shell meet, straight from its mesh: in about a tenth of the time that exact lines take. */
export function guessLines(faces: readonly Face[], mesh: SurfaceMesh): LineGuess[] {
  const { list, table } = faceContests(faces);
  return boundaryChains(mesh, table, faces.length).flatMap((found) => {
    const guess = chainGuess(mesh, found);
    const count = guess.points.length / 3;
    if (count < 2) return [];
    const ofWall = list[found.contest].round === 0;
    const bend = ofWall ? "foot" : bendOf(guess, mesh);
    const kinds = Array.from({ length: count }, (_, i) => kindAt(guess, i, faces, mesh) ?? bend);
    return runsOf(kinds, guess.chain.closed).map(({ kind, from, to }) =>
      asLine(guess, kind, from, to, faces, mesh),
    );
  });
}

/** What a line is for sure where one of its faces is the coping's. */
function kindAt(
  { chain }: ChainGuess,
  i: number,
  faces: readonly Face[],
  { owner }: SurfaceMesh,
): "lip" | "rim" | null {
  const first = faces[owner[chain.edges[2 * i]]].kind;
  const second = faces[owner[chain.edges[2 * i + 1]]].kind;
  if (first === "lip" || second === "lip") return "lip";
  return first === "coping" || second === "coping" ? "rim" : null;
}

/** Whether the surface turns outwards or inwards across a line, by the mesh's normals, which point out of the pool. */
function bendOf({ chain }: ChainGuess, { positions: p, normals: n }: SurfaceMesh): "nose" | "step" {
  let sum = 0;
  for (let i = 0; i < chain.edges.length; i += 2) {
    const a = 3 * chain.edges[i];
    const b = 3 * chain.edges[i + 1];
    for (let k = 0; k < 3; k++) sum += (p[b + k] - p[a + k]) * (n[b + k] - n[a + k]);
  }
  return sum > 0 ? "step" : "nose";
}

interface Run {
  readonly kind: LineGuess["kind"];
  readonly from: number;
  /** Its last crossing; past the count where a closed chain's run goes over its beginning. */
  readonly to: number;
}

/** Crossings of one kind taken together. */
function runsOf(kinds: readonly LineGuess["kind"][], closed: boolean): Run[] {
  const count = kinds.length;
  if (kinds.every((kind) => kind === kinds[0]))
    return [{ kind: kinds[0], from: 0, to: closed ? count : count - 1 }];
  const begin = closed ? kinds.findIndex((kind, i) => kind !== kinds[(i + count - 1) % count]) : 0;
  const runs: Run[] = [];
  for (let i = begin; i < begin + count; i++) {
    const kind = kinds[i % count];
    const last = runs[runs.length - 1];
    if (last?.kind === kind) runs[runs.length - 1] = { ...last, to: i };
    // The next begins where the last one ends, so that no gap is left.
    else runs.push({ kind, from: last ? i - 1 : i, to: i });
  }
  return runs;
}

function asLine(
  { chain, points: all }: ChainGuess,
  kind: LineGuess["kind"],
  from: number,
  to: number,
  faces: readonly Face[],
  { owner }: SurfaceMesh,
): LineGuess {
  const count = all.length / 3;
  const closed = to - from === count;
  const points = new Float64Array(3 * (closed ? count : to - from + 1));
  let lengthMm = 0;
  for (let i = 0; i < points.length / 3; i++) {
    const at = 3 * ((from + i) % count);
    const to = 3 * i;
    points[to] = all[at];
    points[to + 1] = all[at + 1];
    points[to + 2] = all[at + 2];
    if (i === 0) continue;
    lengthMm += Math.hypot(
      points[to] - points[to - 3],
      points[to + 1] - points[to - 2],
      points[to + 2] - points[to - 1],
    );
  }
  const begin = 2 * (from % count);
  const between = [0, 1].map((side) => faces[owner[chain.edges[begin + side]]].id) as [string, string];
  return { kind, between, closed, lengthMm, points };
}
