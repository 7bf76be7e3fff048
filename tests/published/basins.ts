/** Basins whose closed forms are known: outlines with their plan area and parts worked out by hand, and their specs. */
import type { OutlineSpec, ShellSpec } from "../../core/project/schema.ts";
import { buildShell } from "../../core/shell/build-shell.ts";
import type { Shell } from "../../core/shell/shell.ts";
import type { ClosedOutline, OutlinePart, SideFigures } from "./side-profile.ts";

export interface KnownOutline extends ClosedOutline {
  readonly spec: OutlineSpec;
  /** What lies between the start of the rim's stations (shallow end, centre line) and the first part. */
  readonly lead: readonly OutlinePart[];
}

const quarter = Math.PI / 2;
const line = (length: number): OutlinePart => ({ length, turn: 0 });
const arc = (radius: number, turn: number): OutlinePart => ({ length: radius * Math.abs(turn), turn });

/** A rectangle with four equal corners; parts from the right side on. */
export function box(length: number, width: number, corner: number): KnownOutline {
  const sides = [length - 2 * corner, width - 2 * corner];
  return {
    spec: { kind: "rectangle", length, width, cornerRadius: corner },
    lead: [line(width / 2 - corner), arc(corner, quarter)],
    parts: [...sides, ...sides].flatMap((side) => [line(side), arc(corner, quarter)]),
    area: length * width - (4 - Math.PI) * corner * corner,
  };
}

/** Two half circles joined by straight sides; parts from the right side on. */
export function stadium(length: number, width: number): KnownOutline {
  const r = width / 2;
  return {
    spec: { kind: "stadium", length, width },
    lead: [arc(r, quarter)],
    parts: [line(length - width), arc(r, Math.PI), line(length - width), arc(r, Math.PI)],
    area: Math.PI * r * r + (length - width) * width,
  };
}

/** A full circle about the middle of the pool; parts from its shallow end on. */
export function round(radius: number): KnownOutline {
  return {
    spec: {
      kind: "path",
      start: [0, 0],
      segments: [
        { kind: "arc", to: [2 * radius, 0], bulge: 1 },
        { kind: "arc", to: [0, 0], bulge: 1 },
      ],
    },
    lead: [],
    parts: [arc(radius, Math.PI), arc(radius, Math.PI)],
    area: Math.PI * radius * radius,
  };
}

/** An L: a rectangle less a rectangle at its deep-left corner, five corners inwards, one reflex; parts from the right side on. */
export function ell(
  [length, width]: readonly [number, number],
  [cutLength, cutWidth]: readonly [number, number],
  corner: number,
  reflex: number,
): KnownOutline {
  const square = 1 - Math.PI / 4;
  return {
    spec: {
      kind: "ell",
      length,
      width,
      cutLength,
      cutWidth,
      cutAt: "deep-left",
      cornerRadius: corner,
      reflexRadius: reflex,
    },
    lead: [line(width / 2 - corner), arc(corner, quarter)],
    parts: [
      line(length - 2 * corner),
      arc(corner, quarter),
      line(width - cutWidth - 2 * corner),
      arc(corner, quarter),
      line(cutLength - corner - reflex),
      arc(reflex, -quarter),
      line(cutWidth - corner - reflex),
      arc(corner, quarter),
      line(length - cutLength - 2 * corner),
      arc(corner, quarter),
      line(width - 2 * corner),
      arc(corner, quarter),
    ],
    area: length * width - cutLength * cutWidth - 5 * square * corner * corner + square * reflex * reflex,
  };
}

/**
 * A freeform outline of four arcs: ends of radii `a` and `b` about (0, 0) and (apart, 0), an outer arc of radius `outer`
 * that holds both on the right, and on the left an arc of radius `waist` that bends inwards between them (a kidney).
 * Centres by the cosine rule: circles that touch have their centres R ± r apart.
 */
export function kidney(a: number, b: number, apart: number, outer: number, waist: number): KnownOutline {
  // Angle at the first end's centre, from the line of centres to the arc's centre.
  const at = (toA: number, toB: number) => Math.acos((toA ** 2 + apart ** 2 - toB ** 2) / (2 * toA * apart));
  const alpha = at(outer - a, outer - b);
  const beta = at(waist + a, waist + b);
  // The outer arc's centre lies above (+y), so that the arc runs below; so does the waist's.
  const o = { x: (outer - a) * Math.cos(alpha), y: (outer - a) * Math.sin(alpha) };
  const w = { x: (waist + a) * Math.cos(beta), y: (waist + a) * Math.sin(beta) };
  const oa = Math.atan2(-o.y, -o.x);
  const ob = Math.atan2(-o.y, apart - o.x);
  const wa = Math.atan2(w.y, w.x);
  const wb = Math.atan2(w.y, w.x - apart);
  const circle = (x: number, y: number, r: number, angle: number): [number, number] => [
    x + r * Math.cos(angle),
    y + r * Math.sin(angle),
  ];
  const points = [circle(0, 0, a, oa), circle(apart, 0, b, ob), circle(apart, 0, b, wb), circle(0, 0, a, wa)];
  const turned = (angle: number) => angle - 2 * Math.PI * Math.floor(angle / (2 * Math.PI));
  const arcs = [
    { radius: outer, turn: turned(ob - oa) },
    { radius: b, turn: turned(wb - ob) },
    { radius: waist, turn: wa - wb },
    { radius: a, turn: turned(oa - wa) },
  ];
  // Area: the polygon of the joints and a circular segment on every chord, taken off where the arc bends inwards.
  let area = 0;
  points.forEach(([x, y], i) => {
    const [u, v] = points[(i + 1) % 4];
    const { radius, turn } = arcs[i];
    area += (x * v - y * u) / 2 + (radius * radius * (turn - Math.sin(turn))) / 2;
  });
  return {
    spec: {
      kind: "path",
      start: points[0],
      segments: arcs.map(({ turn }, i) => ({
        kind: "arc",
        to: points[(i + 1) % 4],
        bulge: Math.tan(turn / 4),
      })),
    },
    lead: [],
    parts: arcs.map(({ radius, turn }) => arc(radius, turn)),
    area,
  };
}

/** The spec of a basin with a flat floor and no features. */
export function basinSpec(outline: KnownOutline, figures: SideFigures): ShellSpec {
  const { depth, draftDeg, cove, rim, flange, lip } = figures;
  return {
    outline: outline.spec,
    floor: { stations: [{ at: 0, depth }], breakRadius: 1000, crossFall: 0 },
    draftDeg,
    radii: { cove, step: 50, nose: 30, pairs: [] },
    features: [],
    coping: {
      flange,
      rimRadius: rim,
      edge: lip > 0 ? { kind: "rolled", radius: lip } : { kind: "flat" },
    },
    fittings: [],
    waterLine: 120,
  };
}

/** A shell built exactly as asked: throws on a refusal or an adjustment, so that no figure is compared with another basin. */
export function builtAsAsked(spec: ShellSpec): Shell {
  const result = buildShell(spec);
  if (!result.ok) throw new Error(result.refusals.map((each) => `${each.path}: ${each.why}`).join("\n"));
  if (result.shell.adjustments.length > 0)
    throw new Error(result.shell.adjustments.map((each) => `${each.what}: ${each.used}`).join("\n"));
  return result.shell;
}
