import type { SurfaceMesh } from "../mesh/mesh.ts";
import { contestBetween } from "../surface/contest.ts";
import { reverseCurve, type SurfaceCurve } from "../surface/curve.ts";
import { cutCurve } from "../surface/cut-curve.ts";
import { type Field, offsetField } from "../surface/field.ts";
import { settler } from "../surface/settle.ts";
import { traceContest } from "../surface/trace.ts";
import { type BoundaryChain, boundaryChains } from "./boundary-chains.ts";
import { chainGuess } from "./chain-guess.ts";
import { type FaceContests, faceContests } from "./contests.ts";
import { junctionOfThree } from "./junctions.ts";
import { cutAtJunctions, type LineJunction, type LinePiece, withoutSlivers } from "./line-pieces.ts";
import { bendAcross } from "./bend-across.ts";
import type { Face, Shell } from "./shell.ts";
import { distinctNames } from "./transition-names.ts";

export type TransitionKind =
  /** The wall against everything below it, all round the pool. */
  | "foot"
  /** A part of the foot along one face: `wall|floor`, `wall|steps/tread-1`. */
  | "stretch"
  /** The coping's top against what carries it: the wall, or a ledge that reaches the rim. */
  | "rim"
  /** The coping's top against its outer edge. */
  | "lip"
  /** Any other re-entrant edge. */
  | "step"
  /** Any other outward edge. */
  | "nose";

/** Where another boundary ends on a transition, or it ends itself. */
export interface Junction {
  readonly station: number;
  readonly point: readonly [number, number, number];
}

/** The line in the middle of the blend between two faces, on the surface at the offset asked for. */
export interface Transition {
  /** `foot`, `rim`, or both faces in their order, `A|B`; with `#2`, `#3` … where they meet in several places. */
  readonly id: string;
  readonly kind: TransitionKind;
  /** What lies on its left and on its right: faces, or "below" for all that the foot has on its right. */
  readonly between: readonly [string, string];
  /** The groups of faces that compete along it, left and right: for `contestBetween`. */
  readonly sides: readonly [readonly string[], readonly string[]];
  readonly closed: boolean;
  readonly lengthMm: number;
  /**
   * Runs with its first face on the left. Closed ones begin at the centre line, at the shallow end; the foot and the rim
   * run counter-clockwise seen from above, as the rim's stations do. Stretches share the foot's points.
   */
  readonly curve: SurfaceCurve;
  /** By station; of a stretch or an open line its ends are among them where other faces meet there. */
  readonly junctions: readonly Junction[];
  /** False: the curve is the mesh's own boundary, for the reason given. */
  readonly exact: boolean;
  readonly reason: string;
}

/** A boundary too short to matter, left out. */
export interface Sliver {
  readonly between: readonly [string, string];
  readonly lengthMm: number;
  readonly near: readonly [number, number, number];
}

export interface Transitions {
  readonly transitions: readonly Transition[];
  readonly slivers: readonly Sliver[];
}

type Mesh = Pick<SurfaceMesh, "positions" | "triangles" | "owner">;
type Unnamed = Omit<Transition, "id"> & { readonly name: string };

/** Boundaries shorter than this are slivers, mm. */
const SLIVER = 5;

/**
 * Every line along which two faces of a shell meet, on its surface moved out by `offset` mm (the laminate already laid).
 * The mesh, of the gel-coat surface or of the moved one, tells which faces meet where; the lines themselves are
 * exact: points within 1e-6 mm, ends at the very points where three faces meet. In order of their ids.
 */
export function findTransitions(shell: Pick<Shell, "field" | "faces">, mesh: Mesh, offset = 0): Transitions {
  const search = new Search(offsetField(shell.field, offset), shell.faces, mesh);
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

  run(): Unnamed[] {
    const { list, table } = this.contests;
    const chains = boundaryChains(this.mesh, table, this.faces.length);
    // Boundaries of a later round end on those of an earlier one, whose junctions must be known first.
    chains.sort((a, b) => list[a.contest].round - list[b.contest].round);
    return chains.flatMap((chain) => this.alongChain(chain));
  }

  private alongChain(found: BoundaryChain): Unnamed[] {
    const { points, slack, startY, chain } = chainGuess(this.mesh, found);
    const { round, sides } = this.contests.list[chain.contest];
    const contest = contestBetween(this.field, ...sides);
    const { edge } = this.field;
    const options = {
      closed: chain.closed,
      oriented: true,
      slack,
      start: this.endOf(chain.start),
      end: this.endOf(chain.end),
      ...(chain.closed ? { startOn: (_x: number, y: number) => y - startY } : {}),
    };
    const { curve, exact, reason } = traceContest(this.field, contest, points, {
      ...options,
      ...(edge && (chain.start < 0 || chain.end < 0) && !chain.closed
        ? { endOn: (x: number, y: number, z: number) => edge.evaluate(x, y, z) }
        : {}),
    });
    const cut = cutAtJunctions({
      curve,
      chain,
      settler: exact ? settler(this.field, contest) : null,
      facesAt: (i) => this.facesAt(chain, i),
      stemOf: (a, b) => this.contestOf(a, b),
      middleOf: (t) => this.middleOf(t),
    });
    for (const j of cut.junctions) this.junctions.set(j.triangle, j.point);
    const { kept, slivers } = withoutSlivers(cut.pieces, SLIVER, chain.closed);
    for (const s of slivers) {
      const i = 3 * Math.min(nearestPoint(cut.curve, s.from), cut.curve.stations.length - 1);
      const [x, y, z] = cut.curve.points.subarray(i, i + 3);
      this.slivers.push({ between: this.namesOf(s), lengthMm: s.to - s.from, near: [x, y, z] });
    }
    const line: Line = {
      curve: cut.curve,
      junctions: this.junctionsOf(cut.curve, cut.junctions, chain),
      sides,
      exact,
      reason,
    };
    return round === 0 ? this.wallLines(line, kept) : kept.map((p) => this.faceLine(line, p));
  }

  /** The whole foot and its stretches, and the rim; a line that passes from one to the other is cut there. */
  private wallLines(line: Line, pieces: readonly LinePiece[]): Unnamed[] {
    const isCoping = (p: LinePiece) => {
      const { kind } = this.faces[p.right];
      return kind === "coping" || kind === "lip";
    };
    const found: Unnamed[] = [];
    const whole = (p: LinePiece) =>
      found.push(
        isCoping(p)
          ? reversed({ ...this.part(line, p), kind: "rim", name: "rim", between: this.namesOf(p) })
          : { ...this.part(line, p), kind: "foot", name: "foot", between: [this.faces[p.left].id, "below"] },
      );
    const changes = pieces.filter(
      (p, i) => isCoping(p) !== isCoping(pieces[(i + pieces.length - 1) % pieces.length]),
    );
    if (changes.length === 0 && pieces.length > 0) {
      const { from } = pieces[0];
      const to = line.curve.closed ? from + line.curve.length : line.curve.length;
      whole({ ...pieces[0], from: line.curve.closed ? from : 0, to });
    } else {
      let run = null as LinePiece | null;
      const begin = line.curve.closed ? pieces.indexOf(changes[0]) : 0;
      for (let n = 0; n < pieces.length; n++) {
        const p = pieces[(begin + n) % pieces.length];
        const from: number = begin + n >= pieces.length ? p.from + line.curve.length : p.from;
        const to: number = from + p.to - p.from;
        if (run && isCoping(run) === isCoping(p)) run = { ...run, to };
        else {
          if (run) whole(run);
          run = { ...p, from, to };
        }
      }
      if (run) whole(run);
    }
    for (const p of pieces) {
      if (isCoping(p)) continue;
      found.push({
        ...this.part(line, p),
        kind: "stretch",
        name: this.namesOf(p).join("|"),
        between: this.namesOf(p),
      });
    }
    return found;
  }

  private faceLine(line: Line, piece: LinePiece): Unnamed {
    const part = this.part(line, piece);
    const between = this.namesOf(piece);
    const kinds = [this.faces[piece.left].kind, this.faces[piece.right].kind];
    const kind: TransitionKind = kinds.includes("lip")
      ? "lip"
      : kinds.includes("coping")
        ? "rim"
        : bendAcross(this.field, part.curve) > 0
          ? "step"
          : "nose";
    return { ...part, kind, between, name: between.join("|") };
  }

  /** The stretch of a line that a piece covers. */
  private part(line: Line, { from, to }: LinePiece) {
    const { curve, sides, exact, reason } = line;
    const { length, closed } = curve;
    const whole = to - from > length - 1e-6;
    const stretch = whole
      ? curve
      : cutCurve(curve, from, closed ? to - Math.floor(to / length) * length : to);
    const junctions = whole
      ? line.junctions
      : line.junctions
          .flatMap((j) => [0, length, -length].map((turn) => ({ ...j, station: j.station + turn - from })))
          .filter((j) => j.station > -1e-6 && j.station < to - from + 1e-6);
    const { closed: isClosed, length: lengthMm } = stretch;
    return { curve: stretch, junctions, sides, exact, reason, closed: isClosed, lengthMm };
  }

  private junctionsOf(curve: SurfaceCurve, found: readonly LineJunction[], chain: BoundaryChain): Junction[] {
    const all: Junction[] = found.map(({ station, point }) => ({
      station,
      point: [point[0], point[1], point[2]],
    }));
    for (const [triangle, station] of [
      [chain.start, 0],
      [chain.end, curve.length],
    ]) {
      const end = chain.closed ? undefined : this.junctions.get(triangle);
      if (end) all.push({ station, point: [end[0], end[1], end[2]] });
    }
    return all.sort((a, b) => a.station - b.station);
  }

  /** The point at which an open chain ends on other boundaries, if it can be found exactly. */
  private endOf(triangle: number): ArrayLike<number> | undefined {
    if (triangle < 0) return undefined;
    const known = this.junctions.get(triangle);
    if (known) return known;
    const [a, b, c] = [0, 1, 2].map((k) => this.mesh.owner[this.mesh.triangles[3 * triangle + k]]);
    if (a === b || b === c || c === a) return undefined;
    const point = junctionOfThree(
      this.field,
      this.contestOf(a, b),
      this.contestOf(b, c),
      this.middleOf(triangle),
    );
    if (!point) return undefined;
    this.junctions.set(triangle, point);
    return point;
  }

  private contestOf(a: number, b: number) {
    return contestBetween(
      this.field,
      ...this.contests.list[this.contests.table[a * this.faces.length + b]].sides,
    );
  }

  private facesAt(chain: BoundaryChain, i: number): [number, number] {
    return [this.mesh.owner[chain.edges[2 * i]], this.mesh.owner[chain.edges[2 * i + 1]]];
  }

  private namesOf(piece: LinePiece): [string, string] {
    return [this.faces[piece.left].id, this.faces[piece.right].id];
  }

  private middleOf(triangle: number): [number, number, number] {
    const { positions: p, triangles } = this.mesh;
    const [a, b, c] = [0, 1, 2].map((k) => 3 * triangles[3 * triangle + k]);
    const mean = (k: number) => (p[a + k] + p[b + k] + p[c + k]) / 3;
    return [mean(0), mean(1), mean(2)];
  }
}

interface Line {
  readonly curve: SurfaceCurve;
  readonly junctions: readonly Junction[];
  readonly sides: Transition["sides"];
  readonly exact: boolean;
  readonly reason: string;
}

function reversed(t: Unnamed): Unnamed {
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

function nearestPoint(curve: SurfaceCurve, station: number): number {
  const at = station % curve.length;
  const i = curve.stations.findIndex((s) => s >= at);
  return Math.max(i, 0);
}
