import type { SurfaceMesh } from "../mesh/mesh.ts";
import { type Contest, contestBetween } from "../surface/contest.ts";
import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";
import type { Field } from "../surface/field.ts";
import { movedField } from "../surface/moved.ts";
import { nearby } from "../surface/nearby.ts";
import { traceContest } from "../surface/trace.ts";
import { type BoundaryChain, boundaryChains } from "./boundary-chains.ts";
import { type ChainGuess, chainGuess, firstSideLeft } from "./chain-guess.ts";
import { type FaceContests, faceContests } from "./contests.ts";
import { joinLooseEnds, type LooseChain } from "./join-chains.ts";
import { junctionOfThree } from "./junctions.ts";
import { cutAtJunctions, type LinePiece, withoutSlivers } from "./line-pieces.ts";
import { faceTransition, type Line, type UnnamedTransition, wallTransitions } from "./name-pieces.ts";
import type { Face, Shell } from "./shell.ts";
import type { Junction, Sliver, Transitions } from "./transition.ts";
import { distinctNames } from "./transition-names.ts";

export type { Transition, TransitionKind, Transitions } from "./transition.ts";

/** An end nearer than this to the surface's own edge lies on it, mm. */
const AT_EDGE = 60;

type Mesh = Pick<SurfaceMesh, "positions" | "triangles" | "owner">;

/** Boundaries shorter than this are slivers, mm. */
const SLIVER = 5;
/** A boundary this short between two places where others meet is the mesh's own unevenness, unless both are exact and apart, mm. */
const UNEVEN = 150;

/**
 * Every line along which two faces of a shell meet, on its surface moved out by `offset` mm (the laminate already laid).
 * The mesh, of the gel-coat surface or of the moved one, tells which faces meet where; the lines themselves are
 * exact: points within 1e-6 mm, ends at the very points where three faces meet.
 */
export function findTransitions(shell: Pick<Shell, "field" | "faces">, mesh: Mesh, offset = 0): Transitions {
  const search = new Search(nearby(movedField(shell.field, offset)), shell.faces, mesh);
  const found = search.run();
  const ids = distinctNames(found);
  const transitions = found.map(({ name: _, ...rest }, i) => ({ id: ids[i], ...rest }));
  const order = new Intl.Collator("en", { numeric: true });
  transitions.sort((a, b) => order.compare(a.id, b.id));
  return { transitions, slivers: search.slivers };
}

class Search {
  readonly slivers: Sliver[] = [];
  private readonly field: Field;
  private readonly faces: readonly Face[];
  private readonly mesh: Mesh;
  private readonly contests: FaceContests;
  /** Junction points found so far, by the triangle in which the mesh has them. */
  private readonly junctions = new Map<number, ArrayLike<number>>();

  constructor(field: Field, faces: readonly Face[], mesh: Mesh) {
    this.field = field;
    this.faces = faces;
    this.mesh = mesh;
    this.contests = faceContests(faces);
  }

  run(): UnnamedTransition[] {
    const { list, table } = this.contests;
    const chains = boundaryChains(this.mesh, table, this.faces.length);
    const found: UnnamedTransition[] = [];
    // Boundaries of a later round end on those of an earlier one, whose junctions must be known first.
    for (const round of [0, 1, 2]) {
      const ofRound = chains.filter((c) => list[c.contest].round === round);
      for (const chain of ofRound) if (chain.closed) found.push(...(this.alongChain(chain, false) ?? []));
      const open = ofRound.filter((c) => !c.closed).map((c) => firstSideLeft(this.mesh, c));
      const ends = open.map((chain) => this.looseEnds(chain));
      for (const { parts, whole } of joinLooseEnds(this.mesh, ends)) {
        const joined = parts[0] === whole ? null : this.alongChain(whole, true);
        if (joined) found.push(...joined);
        else
          for (const part of parts)
            if (!this.isUneven(part)) found.push(...(this.alongChain(part, false) ?? []));
      }
    }
    return found;
  }

  /** Whether an open chain is only the mesh's unevenness beside a junction; then it is left out. */
  private isUneven(chain: BoundaryChain): boolean {
    if (chain.start < 0 || chain.end < 0) return false;
    const { lengthMm, points } = chainGuess(this.mesh, chain);
    if (lengthMm > UNEVEN) return false;
    const start = this.endOf(chain.start);
    const end = this.endOf(chain.end);
    const apart = start && end ? distance(start, end) : 0;
    if (apart > SLIVER) return false;
    this.leaveOut(this.facesAt(chain, 0), apart, start ?? end ?? points);
    return true;
  }

  /** Ends that lie neither at a junction nor at the surface's own edge. */
  private looseEnds(chain: BoundaryChain): LooseChain {
    const loose = (triangle: number, crossing: number): boolean => {
      if (triangle >= 0) return !this.endOf(triangle);
      const [x, y, z] = this.placeOf(chain, crossing);
      const { edge } = this.field;
      return !edge || Math.abs(edge.evaluate(x, y, z)) > AT_EDGE;
    };
    return {
      chain,
      looseStart: loose(chain.start, 0),
      looseEnd: loose(chain.end, chain.edges.length / 2 - 1),
    };
  }

  /** The transitions along a chain; null if they must be exact and are not. */
  private alongChain(found: BoundaryChain, mustBeExact: boolean): UnnamedTransition[] | null {
    const guess = chainGuess(this.mesh, found);
    const { chain } = guess;
    const start = this.endOf(chain.start);
    const end = this.endOf(chain.end);
    const { round, sides } = this.contests.list[chain.contest];
    const contest = contestBetween(this.field, ...sides);
    const { curve, exact, reason } = this.trace(guess, contest, start, end);
    if (mustBeExact && !exact) return null;
    const cut = cutAtJunctions({
      field: this.field,
      contest,
      curve,
      chain,
      facesAt: (i) => this.facesAt(chain, i),
      stemOf: (a, b) => this.contestOf(a, b),
      placeOf: (i) => this.placeOf(chain, i),
    });
    for (const j of cut.junctions) if (j.exact && j.triangle >= 0) this.junctions.set(j.triangle, j.point);
    const { kept, slivers } = withoutSlivers(cut.pieces, SLIVER, chain.closed);
    for (const s of slivers) {
      const sample = new Float64Array(9);
      curvePointAt(cut.curve, s.from, sample);
      this.leaveOut([s.left, s.right], s.to - s.from, sample);
    }
    const junctions = junctionsOf(cut.curve, kept, [start, end]);
    const line: Line = { curve: cut.curve, junctions, sides, exact, reason };
    return round === 0
      ? wallTransitions(line, kept, this.faces)
      : kept.map((p) => faceTransition(line, p, this.faces, this.field));
  }

  private trace(
    { chain, points, slack, startY }: ChainGuess,
    contest: Contest,
    start: ArrayLike<number> | undefined,
    end: ArrayLike<number> | undefined,
  ) {
    const { edge } = this.field;
    const free = !chain.closed && (chain.start < 0 || chain.end < 0);
    return traceContest(this.field, contest, points, {
      closed: chain.closed,
      oriented: true,
      slack,
      start,
      end,
      ...(chain.closed ? { startOn: (_x: number, y: number) => y - startY } : {}),
      ...(free && edge ? { endOn: (x: number, y: number, z: number) => edge.evaluate(x, y, z) } : {}),
    });
  }

  private leaveOut(faces: readonly [number, number], lengthMm: number, near: ArrayLike<number>): void {
    const [left, right] = faces;
    const between = [this.faces[left].id, this.faces[right].id] as const;
    this.slivers.push({ between, lengthMm, near: [near[0], near[1], near[2]] });
  }

  /** The point at which an open chain ends on other boundaries, if it can be found exactly. */
  private endOf(triangle: number): ArrayLike<number> | undefined {
    if (triangle < 0) return undefined;
    const known = this.junctions.get(triangle);
    if (known) return known;
    const corners = [0, 1, 2].map((k) => this.mesh.triangles[3 * triangle + k]);
    const owners = corners.map((v) => this.mesh.owner[v]);
    if (new Set(owners).size < 3) return undefined;
    const groups = owners.map((o, k) => this.groupOf(o, owners[(k + 1) % 3]));
    const places = corners.map((v) => Array.from(this.mesh.positions.subarray(3 * v, 3 * v + 3)));
    const point = junctionOfThree(this.field, groups, places);
    if (!point) return undefined;
    this.junctions.set(triangle, point);
    return point;
  }

  /** The faces that stand with face a where it competes with face b. */
  private groupOf(a: number, b: number): number[] {
    const { list, table } = this.contests;
    const { sides } = list[table[a * this.faces.length + b]];
    const group = sides[0].includes(this.faces[a].id) ? sides[0] : sides[1];
    return this.faces.flatMap((face, i) => (group.includes(face.id) ? [i] : []));
  }

  private contestOf(a: number, b: number): Contest {
    const { list, table } = this.contests;
    return contestBetween(this.field, ...list[table[a * this.faces.length + b]].sides);
  }

  private facesAt(chain: BoundaryChain, i: number): [number, number] {
    return [this.mesh.owner[chain.edges[2 * i]], this.mesh.owner[chain.edges[2 * i + 1]]];
  }

  private placeOf(chain: BoundaryChain, i: number): [number, number, number] {
    const { positions: p } = this.mesh;
    const [a, b] = [3 * chain.edges[2 * i], 3 * chain.edges[2 * i + 1]];
    return [(p[a] + p[b]) / 2, (p[a + 1] + p[b + 1]) / 2, (p[a + 2] + p[b + 2]) / 2];
  }
}

/** Where the pieces of a line end, and where an open line ends on others. */
function junctionsOf(
  curve: SurfaceCurve,
  pieces: readonly LinePiece[],
  ends: readonly [ArrayLike<number> | undefined, ArrayLike<number> | undefined],
): Junction[] {
  const { length, closed } = curve;
  const stations = new Set<number>();
  for (const p of pieces) {
    if (p.to - p.from > length - 1e-6) continue;
    for (const s of [p.from, p.to]) stations.add(closed ? s - Math.floor(s / length) * length : s);
  }
  if (!closed) {
    for (const [at, end] of [
      [0, ends[0]],
      [length, ends[1]],
    ] as const) {
      if (end) stations.add(at);
      else stations.delete(at);
    }
  }
  const sample = new Float64Array(9);
  const all: Junction[] = [];
  for (const station of [...stations].sort((a, b) => a - b)) {
    if (all.length > 0 && station - all[all.length - 1].station < 1e-6) continue;
    curvePointAt(curve, station, sample);
    all.push({ station, point: [sample[0], sample[1], sample[2]] });
  }
  return all;
}

function distance(a: ArrayLike<number>, b: ArrayLike<number>): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
