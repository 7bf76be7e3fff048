import type { SurfaceMesh } from "./mesh.ts";
import { makeSeat } from "./seat.ts";
import type { Space } from "./space.ts";

/** A place where the surface is not as it should be. */
export interface Flaw {
  /** Where, mm. */
  readonly point: readonly [number, number, number];
  /** Faces on both sides. */
  readonly faces: readonly [string, string];
  /** A tear: width of the gap, mm; a kink: turn of the normal, radians. */
  readonly size: number;
}

export interface Finding {
  /** A tear, or else a kink. */
  readonly tear: boolean;
  readonly flaw: Flaw;
}

/** A turn that is left over this distance is a kink, mm. */
const KINK_OVER = 1e-3;
const MOST_HALVINGS = 48;
/** Halvings in a row that bring two points no nearer before they count as torn apart. */
const STUCK = 6;
/** Part of a limit by which a middle must lie away from the arc foreseen for an edge to be followed further. */
const NOTICED = 0.15;
/** Edges nearer to both tangent planes than this hide nothing, mm. */
const PLANE = 1e-4;

/**
 * Makes a probe that follows the surface along an edge (vertices a, b) by halving: the middle is seated on the surface,
 * and the half that turns more, steps further from its tangent planes, or stays the longer is followed, until what is left is one
 * arc. Null when the edge is whole and smooth.
 */
export function makeProbe(
  space: Space,
  limits: { readonly tearMm: number; readonly kinkRad: number },
): (mesh: SurfaceMesh, a: number, b: number) => Finding | null {
  const { tearMm } = limits;
  const leastTurn = Math.cos(limits.kinkRad);
  const noticedTurn = Math.cos(NOTICED * limits.kinkRad);
  const seat = makeSeat(space, { doubts: true });
  const apart = (p: Float64Array, q: Float64Array): number =>
    Math.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2);
  const cosine = (p: Float64Array, q: Float64Array): number => p[3] * q[3] + p[4] * q[4] + p[5] * q[5];
  /** Height of q over the tangent plane at p, mm, with its sign. */
  const height = (p: Float64Array, q: Float64Array): number =>
    (q[0] - p[0]) * p[3] + (q[1] - p[1]) * p[4] + (q[2] - p[2]) * p[5];
  /**
   * On an arc the two heights, each seen from its end, are opposite; what is left over is a step from one sheet to
   * another, or the bend's own change, which goes with the length squared.
   */
  const step = (p: Float64Array, q: Float64Array): number => Math.abs(height(p, q) - height(q, p)) / 2;
  const ownerAt = (p: Float64Array): string => {
    const field = space.fieldAt(p[0], p[1], p[2]);
    return field.faces[field.owner(field.shares(p[0], p[1], p[2]))];
  };
  const finding = (tear: boolean, size: number, p: Float64Array, q: Float64Array): Finding => ({
    tear,
    flaw: {
      point: [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2, (p[2] + q[2]) / 2],
      faces: [ownerAt(p), ownerAt(q)],
      size,
    },
  });

  /**
   * Whether the middle lies, and faces, where one arc from p to q would have it: then nothing breaks between them that
   * is large enough to matter. A tear moves it by half its width, a kink turns it by half its angle.
   */
  const asForeseen = (p: Float64Array, q: Float64Array, m: Float64Array): boolean => {
    let across = 0;
    let turn = 0;
    let sum = 0;
    for (let i = 0; i < 3; i++) {
      const d = q[3 + i] - p[3 + i];
      const s = q[3 + i] + p[3 + i];
      across += (q[i] - p[i]) * d;
      turn += d * d;
      sum += s * s;
    }
    if (turn > 1) return false;
    const size = Math.sqrt(sum);
    const sagitta = across / (4 * (1 + Math.sqrt(1 - turn / 4)));
    let off = 0;
    let facing = 0;
    for (let i = 0; i < 3; i++) {
      const n = (p[3 + i] + q[3 + i]) / size;
      off += ((p[i] + q[i]) / 2 + sagitta * n - m[i]) ** 2;
      facing += n * m[3 + i];
    }
    return off < (NOTICED * tearMm) ** 2 && facing > noticedTurn;
  };

  /** Points and normals of the two ends and of the middle. */
  const ends = [new Float64Array(6), new Float64Array(6), new Float64Array(6)];

  /** Halves the edge towards the half where `worse` is larger. */
  const follow = (
    mesh: SurfaceMesh,
    a: number,
    b: number,
    worse: (p: Float64Array, q: Float64Array) => number,
  ): Finding | null => {
    let [p, q, m] = ends;
    setEnds(mesh, a, b);
    let stuck = 0;
    for (let halving = 0; halving < MOST_HALVINGS; halving++) {
      const length = apart(p, q);
      const turn = cosine(p, q);
      if (length < tearMm && turn > leastTurn) return null;
      if (length < KINK_OVER) return finding(false, Math.acos(Math.max(turn, -1)), p, q);
      for (let i = 0; i < 3; i++) seat.point[i] = (p[i] + q[i]) / 2;
      // No surface within reach of the middle: the two ends belong to different sheets.
      if (!seat.onSurface(length)) return length > tearMm ? finding(true, length, p, q) : null;
      for (let i = 0; i < 3; i++) {
        m[i] = seat.point[i];
        m[3 + i] = seat.normal[i];
      }
      if (asForeseen(p, q, m)) return null;
      const first = apart(p, m);
      const second = apart(m, q);
      const longer = Math.max(first, second);
      stuck = longer > 0.85 * length ? stuck + 1 : 0;
      if (stuck === STUCK) return length > tearMm ? finding(true, longer, p, q) : null;
      // A half that keeps most of the length leads to a tear.
      const keepFirst = longer > 0.75 * length ? first >= second : worse(p, m) >= worse(m, q);
      if (keepFirst) [q, m] = [m, q];
      else [p, m] = [m, p];
    }
    return null;
  };

  const setEnds = (mesh: SurfaceMesh, a: number, b: number): void => {
    const [p, q] = ends;
    for (let i = 0; i < 3; i++) {
      p[i] = mesh.positions[3 * a + i];
      q[i] = mesh.positions[3 * b + i];
      p[3 + i] = mesh.normals[3 * a + i];
      q[3 + i] = mesh.normals[3 * b + i];
    }
  };
  const turned = (p: Float64Array, q: Float64Array): number => -cosine(p, q);

  return (mesh, a, b) => {
    const [p, q] = ends;
    setEnds(mesh, a, b);
    if (Math.abs(height(p, q)) < PLANE && Math.abs(height(q, p)) < PLANE) return null;
    const rise = step(p, q);
    const kink = follow(mesh, a, b, turned);
    return kink ?? (rise > tearMm / 2 ? follow(mesh, a, b, step) : null);
  };
}
