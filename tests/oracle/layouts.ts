import type { ShellSpec } from "../../core/project/schema.ts";
import { basinSpec, box, type KnownOutline, kidney } from "../published/basins.ts";
import type { SideFigures } from "../published/side-profile.ts";

/**
 * Basins that both kernels build. Plan corners are large enough for draft and cove, so that none grows with depth: the
 * other kernel knows no such thing.
 */
const figures: SideFigures = { depth: 1400, draftDeg: 3, cove: 180, rim: 20, flange: 150, lip: 25 };

/** A level shallow end, a slope, and a deep end that still falls a little, unless told otherwise. */
function sloped(spec: ShellSpec, length: number, crossFall = 0, deepest = 1750): ShellSpec {
  const stations = [
    { at: 1500, depth: 1100 },
    { at: 2500, depth: 1100 },
    { at: length - 2500, depth: 1700 },
    { at: length, depth: deepest },
  ];
  return { ...spec, floor: { stations, breakRadius: 2000, crossFall } };
}

/**
 * Three steps over the shallow end and a ledge over the deep one. The risers' own feet are rounder than the edges along the
 * wall: where three edges of one radius meet at a rounded profile, the other kernel's fillet would have to roll in its own curvature.
 */
function stepped(spec: ShellSpec): ShellSpec {
  const pairs = [1, 2].map((i) => ({
    between: [`steps/riser-${i}`, `steps/tread-${i + 1}`] as [string, string],
    radius: 80,
  }));
  return {
    ...spec,
    radii: { ...spec.radii, pairs },
    features: [
      {
        kind: "steps",
        id: "steps",
        place: { kind: "end", end: "shallow" },
        treads: [
          { depth: 300, going: 400 },
          { depth: 600, going: 300 },
          { depth: 900, going: 300 },
        ],
      },
      { kind: "ledge", id: "ledge", place: { kind: "end", end: "deep" }, depth: 400, reach: 1500 },
    ],
  };
}

export const rectangle: KnownOutline = box(7000, 3500, 600);
export const bean: KnownOutline = kidney(1500, 1200, 3500, 4500, 2500);
const [ofRectangle, ofBean] = [basinSpec(rectangle, figures), basinSpec(bean, figures)];
/** A smooth chain of arcs through points: two lobes and a waist on either side. */
const ofFreeform: ShellSpec = {
  ...ofRectangle,
  outline: {
    kind: "freeform",
    points: [
      [0, 0],
      [1100, -1500],
      [3600, -1350],
      [6100, -1750],
      [7200, 0],
      [5900, 1650],
      [3500, 1400],
      [1200, 1700],
    ],
  },
};

/** Flat-floored basins, whose closed forms are known. */
export const flat = { rectangle: ofRectangle, kidney: ofBean } as const;
export const flatFigures = figures;

export const plain: readonly (readonly [string, ShellSpec])[] = [
  ["a rectangle", sloped(ofRectangle, 7000)],
  ["a rectangle with cross fall", sloped(ofRectangle, 7000, 20)],
  ["a kidney of four arcs", sloped(ofBean, 6200)],
  ["a kidney with cross fall", sloped(ofBean, 6200, -20)],
  // Level at the deep end: on this outline the other kernel's fillet fails where the deep end still falls.
  ["a freeform outline", sloped(ofFreeform, 7200, 0, 1700)],
];

export const withFeatures: readonly (readonly [string, ShellSpec])[] = [
  ["a rectangle", stepped(sloped(ofRectangle, 7000))],
  ["a kidney of four arcs", stepped(sloped(ofBean, 6200))],
];
