import type { OutlineSpec } from "../project/schema.ts";

type Path = Extract<OutlineSpec, { kind: "path" }>;

/** An arc between two lines that turns by no more than this rounds a corner: its radius stays. */
const CORNER_TURN = (120 * Math.PI) / 180;
/** What a joint's direction counts against its place, in parts of the path's size: straight sides keep their way above all. */
const ARC_TURN = 0.1;
const LINE_TURN = 10;
const ROUNDS = 60;
/** The search ends once no condition is off by more than this, in parts of the path's size or radians. */
const EXACT = 1e-11;
/** An arc's turn stays below this, so that it is still told by its bulge. */
const FULL_TURN = 1.98 * Math.PI;
/** Points are kept to this, mm: a hundredth, so that arcs still leave each other smoothly. */
const GRAIN = 0.01;

/**
 * A path stretched along x and y by different factors, with as many lines and arcs as before, in their order, each leaving the one
 * before smoothly. An arc stretched unevenly is none any more, so its joints go where arcs can: of all such paths this is the one
 * whose joints lie nearest to where the stretch takes them (least squares of places and directions). Corners between lines keep
 * their radii, lines the way that the stretch gives them wherever they can. Null where there is none near: a line would have to run backwards, or an arc turn the other way.
 *
 * A segment is told by its joints' places and directions θ: a line runs in the direction of both, an arc's chord halves the angle
 * between them. Those conditions are met by Newton's steps, each to the point nearest to the aim on the conditions' tangents
 * (sequential quadratic programming, Nocedal and Wright, Numerical Optimization, 2nd ed., section 18.1; from memory).
 */
export function stretchPath(path: Path, along: number, across: number): Path | null {
  const before = jointsOf(path);
  const aim = before.map(({ x, y, theta }) => {
    const turned = Math.atan2(across * Math.sin(theta), along * Math.cos(theta));
    return { x: along * x, y: across * y, theta: near(turned, theta) };
  });
  const corners = cornersOf(path, before);
  const joints = solve(path, before, aim, corners);
  return joints && asPath(path, joints, wholeTurn(path.segments));
}

/** A joint: where a segment begins, and its direction there, radians, going on from one joint to the next without a jump. */
interface Joint {
  readonly x: number;
  readonly y: number;
  readonly theta: number;
}

const turnOf = (segment: Path["segments"][number]): number =>
  segment.kind === "arc" ? 4 * Math.atan(segment.bulge) : 0;

const wholeTurn = (segments: Path["segments"]): number =>
  segments.reduce((sum, segment) => sum + turnOf(segment), 0);

function jointsOf({ start, segments }: Path): Joint[] {
  const joints: Joint[] = [];
  let [x, y] = start;
  let turned = 0;
  segments.forEach((segment, i) => {
    const [u, v] = segment.to;
    if (i === 0) turned = Math.atan2(v - y, u - x) - turnOf(segment) / 2;
    joints.push({ x, y, theta: turned });
    turned += turnOf(segment);
    [x, y] = [u, v];
  });
  return joints;
}

/** Radii of the corners between lines, by their segment, mm. */
function cornersOf({ segments }: Path, joints: readonly Joint[]): ReadonlyMap<number, number> {
  const count = segments.length;
  return new Map(
    segments.flatMap((segment, i): [number, number][] => {
      const turn = Math.abs(turnOf(segment));
      const between = [i - 1, i + 1].every((at) => segments[(at + count) % count].kind === "line");
      if (turn === 0 || turn > CORNER_TURN || !between) return [];
      const next = joints[(i + 1) % count];
      const chord = Math.hypot(next.x - joints[i].x, next.y - joints[i].y);
      return [[i, chord / (2 * Math.sin(turn / 2))]];
    }),
  );
}

/** A condition that the unknowns are to meet: how far they are off it, and what it changes by with each that it hangs on. */
interface Condition {
  readonly off: number;
  readonly slopes: readonly (readonly [unknown: number, slope: number])[];
}

/** The joints nearest to the aim that meet every condition; null where the steps come to none. */
function solve(
  { segments }: Path,
  before: readonly Joint[],
  aim: readonly Joint[],
  corners: ReadonlyMap<number, number>,
): Joint[] | null {
  const size = Math.max(1, ...aim.map(({ x, y }) => Math.hypot(x - aim[0].x, y - aim[0].y)));
  const whole = wholeTurn(segments);
  const isLine = (i: number) => turnOf(segments[(i + segments.length) % segments.length]) === 0;
  const counts = segments.map((_, i) => (isLine(i) || isLine(i - 1) ? LINE_TURN : ARC_TURN));
  // Unknowns: x and y of each joint in parts of the size, its direction in as much as it counts.
  const wanted = aim.flatMap(({ x, y, theta }, i) => [x / size, y / size, counts[i] * theta]);
  let now = wanted;
  for (let round = 0; round < ROUNDS; round++) {
    const conditions = segments.flatMap((segment, i) => {
      const next = (i + 1) % segments.length;
      return conditionsOf(segment, now, [3 * i, 3 * next], {
        counts: [counts[i], counts[next]],
        turned: next === 0 ? whole : 0,
        radius: (corners.get(i) ?? 0) / size,
      });
    });
    if (conditions.every(({ off }) => Math.abs(off) < EXACT)) {
      const found = now;
      return before.map((_, i) => ({
        x: size * found[3 * i],
        y: size * found[3 * i + 1],
        theta: found[3 * i + 2] / counts[i],
      }));
    }
    const next = nearestOn(conditions, wanted, now);
    if (!next) return null;
    now = next;
  }
  return null;
}

/**
 * Conditions of a segment from the joint at unknown `a` to the one at `b`, where the path has gone round by `turned` more since it
 * began; `counts`: what the directions of both count; `radius` 0: any.
 */
function conditionsOf(
  segment: Path["segments"][number],
  now: readonly number[],
  [a, b]: readonly [number, number],
  of: { readonly counts: readonly [number, number]; readonly turned: number; readonly radius: number },
): Condition[] {
  const [dx, dy] = [now[b] - now[a], now[b + 1] - now[a + 1]];
  const square = dx * dx + dy * dy;
  const { turned, radius } = of;
  const [first, last] = of.counts;
  const [start, end] = [now[a + 2] / first, now[b + 2] / last + turned];
  const chord = Math.atan2(dy, dx);
  const ofChord = [
    [a, -dy / square],
    [a + 1, dx / square],
    [b, dy / square],
    [b + 1, -dx / square],
  ] as const;
  const along = (theta: number, at: Condition["slopes"]): Condition => ({
    off: near(theta - chord, 0),
    slopes: [...ofChord, ...at],
  });
  if (segment.kind === "line" || segment.bulge === 0)
    return [along(start, [[a + 2, 1 / first]]), along(end, [[b + 2, 1 / last]])];
  const arc = along((start + end) / 2, [
    [a + 2, 0.5 / first],
    [b + 2, 0.5 / last],
  ]);
  if (radius === 0) return [arc];
  const long = Math.sqrt(square);
  const turn = end - start;
  const slope = radius * Math.cos(turn / 2) * Math.sign(turn);
  return [
    arc,
    {
      off: long - 2 * radius * Math.sin(Math.abs(turn) / 2),
      slopes: [
        [a, -dx / long],
        [a + 1, -dy / long],
        [b, dx / long],
        [b + 1, dy / long],
        [a + 2, slope / first],
        [b + 2, -slope / last],
      ],
    },
  ];
}

/** The point nearest to the one wanted at which all conditions hold, each taken as straight as it is at `now`: Lagrange's equations. */
function nearestOn(
  conditions: readonly Condition[],
  wanted: readonly number[],
  now: readonly number[],
): number[] | null {
  const count = conditions.length;
  const rows = conditions.map(({ slopes }) => {
    const row = new Float64Array(wanted.length);
    for (const [k, slope] of slopes) row[k] += slope;
    return row;
  });
  const right = conditions.map(({ off, slopes }) =>
    slopes.reduce((sum, [k, slope]) => sum + slope * (now[k] - wanted[k]), -off),
  );
  const matrix = rows.map((row) =>
    Float64Array.from({ length: count }, (_, j) =>
      conditions[j].slopes.reduce((sum, [k, slope]) => sum + slope * row[k], 0),
    ),
  );
  const forces = solveSymmetric(matrix, right);
  if (!forces) return null;
  const next = [...wanted];
  conditions.forEach(({ slopes }, i) => {
    for (const [k, slope] of slopes) next[k] += slope * forces[i];
  });
  return next;
}

/** Solves a symmetric, positive system by Cholesky's factors; null where it is none. */
function solveSymmetric(matrix: readonly Float64Array[], right: readonly number[]): number[] | null {
  const count = right.length;
  const x = [...right];
  for (let i = 0; i < count; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i][j];
      for (let k = 0; k < j; k++) sum -= matrix[i][k] * matrix[j][k];
      if (j < i) matrix[i][j] = sum / matrix[j][j];
      else if (sum > 1e-14 * Math.max(1, matrix[i][i])) matrix[i][i] = Math.sqrt(sum);
      else return null;
    }
    for (let k = 0; k < i; k++) x[i] -= matrix[i][k] * x[k];
    x[i] /= matrix[i][i];
  }
  for (let i = count - 1; i >= 0; i--) {
    for (let k = i + 1; k < count; k++) x[i] -= matrix[k][i] * x[k];
    x[i] /= matrix[i][i];
  }
  return x;
}

/** The path through joints; null where a line runs backwards, an arc turns another way, or one of them is lost. */
function asPath(path: Path, joints: readonly Joint[], whole: number): Path | null {
  const count = joints.length;
  const kept = (mm: number) => Math.round(mm / GRAIN) / (1 / GRAIN);
  const points = joints.map(({ x, y }): [number, number] => [kept(x), kept(y)]);
  let good = true;
  const segments = path.segments.map((segment, i) => {
    const next = (i + 1) % count;
    const to = points[next];
    const [dx, dy] = [to[0] - points[i][0], to[1] - points[i][1]];
    const { theta } = joints[i];
    const turn = joints[next].theta + (next === 0 ? whole : 0) - theta;
    const forwards = dx * Math.cos(theta + turn / 2) + dy * Math.sin(theta + turn / 2);
    if (segment.kind === "line" || segment.bulge === 0) {
      good &&= forwards >= 1;
      return { ...segment, to };
    }
    good &&= Math.hypot(dx, dy) >= 1 && turn * segment.bulge > 0 && Math.abs(turn) < FULL_TURN;
    good &&= Math.sign(forwards) === Math.sign(Math.sin(Math.abs(turn) / 2));
    return { ...segment, to, bulge: Number(Math.tan(turn / 4).toFixed(8)) };
  });
  return good ? { ...path, start: points[0], segments } : null;
}

/** An angle told with as many whole turns as bring it nearest to another. */
const near = (angle: number, to: number): number =>
  angle - 2 * Math.PI * Math.round((angle - to) / (2 * Math.PI));
