import type { Field } from "../../core/surface/field.ts";

/**
 * Small pools in closed form for tests of the lines between faces: planes, plan cylinders and rounded rectangles joined
 * by rolling balls, with the faces' shares. Written apart from the product's kernel: plain objects, one blend of two.
 */
interface Piece {
  evaluate(x: number, y: number, z: number): { f: number; g: [number, number, number]; shares: number[] };
}

const only = (count: number, face: number) => Array.from({ length: count }, (_, i) => (i === face ? 1 : 0));

/** Plane with the unit normal (into the ground) n: f = n·p + offset. */
function planePiece(n: [number, number, number], offset: number, face: number, faces: number): Piece {
  const shares = only(faces, face);
  return { evaluate: (x, y, z) => ({ f: n[0] * x + n[1] * y + n[2] * z + offset, g: [...n], shares }) };
}

/** Wall of a round pool about the z axis, leaning in by `draft` (rad): radius at the rim (z = 0). */
function roundWall(radius: number, draft: number, face: number, faces: number): Piece {
  const shares = only(faces, face);
  const c = Math.cos(draft);
  const s = Math.sin(draft);
  return {
    evaluate: (x, y, z) => {
      const rho = Math.hypot(x, y);
      return { f: c * (rho - radius) - s * z, g: [(c * x) / rho, (c * y) / rho, -s], shares };
    },
  };
}

/** Plumb wall of a rectangular pool from x = 0 to `length`, y = ±width/2, with plan corners of one radius. */
function boxWall(length: number, width: number, corner: number, face: number, faces: number): Piece {
  const shares = only(faces, face);
  return {
    evaluate: (x, y) => {
      const qx = Math.abs(x - length / 2) - (length / 2 - corner);
      const qy = Math.abs(y) - (width / 2 - corner);
      const sx = Math.sign(x - length / 2) || 1;
      const sy = Math.sign(y) || 1;
      if (qx > 0 && qy > 0) {
        const d = Math.hypot(qx, qy);
        return { f: d - corner, g: [(sx * qx) / d, (sy * qy) / d, 0], shares };
      }
      return qx > qy ? { f: qx - corner, g: [sx, 0, 0], shares } : { f: qy - corner, g: [0, sy, 0], shares };
    },
  };
}

/** Rolling ball of radius r between two pieces: sign 1 in a re-entrant edge, −1 on an outward one. */
function blend(a: Piece, b: Piece, r: number, sign: 1 | -1 = 1): Piece {
  return {
    evaluate: (x, y, z) => {
      const p = a.evaluate(x, y, z);
      const q = b.evaluate(x, y, z);
      const u = sign * p.f + r;
      const v = sign * q.f + r;
      const c = p.g[0] * q.g[0] + p.g[1] * q.g[1] + p.g[2] * q.g[2];
      const alpha = u - c * v;
      const beta = v - c * u;
      if (1 - c * c > 1e-12 && alpha > 0 && beta > 0) {
        const w = 1 - c * c;
        const d = Math.sqrt((u * u + v * v - 2 * c * u * v) / w);
        const part = alpha / (alpha + beta);
        return {
          f: sign * (d - r),
          g: [0, 1, 2].map((k) => (alpha * p.g[k] + beta * q.g[k]) / (w * d)) as [number, number, number],
          shares: p.shares.map((s, i) => part * s + (1 - part) * q.shares[i]),
        };
      }
      return sign * p.f > sign * q.f ? p : q;
    },
  };
}

/**
 * Field of a piece. `tree` gives for each face its groups from the outermost in: the owner is found group by group,
 * the group with the largest sum of shares first.
 */
function poolField(piece: Piece, faces: readonly string[], tree: readonly (readonly string[])[]): Field {
  const gradient = new Float64Array(3);
  const shares = new Float64Array(faces.length);
  const owner = (s: Float64Array): number => {
    let left = faces.map((_, i) => i);
    for (let level = 0; left.length > 1; level++) {
      const sums = new Map<string, number>();
      for (const i of left) {
        const key = tree[i][level] ?? faces[i];
        sums.set(key, (sums.get(key) ?? 0) + s[i]);
      }
      const best = [...sums].reduce((m, e) => (e[1] > m[1] ? e : m));
      left = left.filter((i) => (tree[i][level] ?? faces[i]) === best[0]);
    }
    return left[0];
  };
  const field: Field = {
    gradient,
    evaluate: (x, y, z) => {
      const { f, g } = piece.evaluate(x, y, z);
      gradient.set(g);
      return f;
    },
    shares: (x, y, z) => {
      shares.set(piece.evaluate(x, y, z).shares);
      return shares;
    },
    faces,
    owner,
    within: () => field,
    bounds: { min: [-1e5, -1e5, -1e5], max: [1e5, 1e5, 1e5] },
    edge: null,
  };
  return field;
}

const simple = ["wall", "floor"] as const;

/** Round pool: wall of `radius` at the rim, flat floor at −depth, cove. Its foot is a circle. */
export const roundPool = (radius: number, depth: number, cove: number, draft = 0) =>
  poolField(
    blend(roundWall(radius, draft, 0, 2), planePiece([0, 0, -1], -depth, 1, 2), cove),
    simple,
    simple.map((f) => [f]),
  );

/** Box pool with plan corners: its foot is straight sides and quarter circles. */
export const boxPool = (length: number, width: number, depth: number, corner: number, cove: number) =>
  poolField(
    blend(boxWall(length, width, corner, 0, 2), planePiece([0, 0, -1], -depth, 1, 2), cove),
    simple,
    simple.map((f) => [f]),
  );

/** The box pool with one step over its full width at the shallow end: tread at −top, riser at x = going. */
export function stepPool(
  length: number,
  width: number,
  depth: number,
  corner: number,
  radii: { cove: number; step: number; nose: number },
  going: number,
  top: number,
): Field {
  const faces = ["wall", "floor", "steps/tread-1", "steps/riser-1"];
  const wall = boxWall(length, width, corner, 0, 4);
  const floor = planePiece([0, 0, -1], -depth, 1, 4);
  const tread = planePiece([0, 0, -1], -top, 2, 4);
  const riser = planePiece([-1, 0, 0], going, 3, 4);
  const block = blend(tread, riser, radii.nose, -1);
  return poolField(blend(wall, blend(floor, block, radii.step), radii.cove), faces, [
    ["wall"],
    ["rest", "floor"],
    ["rest", "steps", "steps/tread-1"],
    ["rest", "steps", "steps/riser-1"],
  ]);
}
