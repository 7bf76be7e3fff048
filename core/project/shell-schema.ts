/**
 * What a shell is made to, as the project file says it: outline, floor, features, coping, fittings. Lengths in mm
 * below the rim or in plan, angles in degrees.
 */
import { z } from "zod";
import { degrees, fall, mm, part, plainNumber } from "./figures.ts";

/** The name by which one part of the file speaks of another. */
export const id = z
  .string()
  .max(60)
  .regex(/^[a-z0-9][a-z0-9-]*$/);
/** A face (`wall`, `steps/tread-1`) of the shell: see faces.ts. */
export const faceId = z.string().min(1).max(160);

/** Limits of figures, mm, to which what the kernel offers in place of a refused one must keep as well: the least and the most. */
export const limits = {
  length: [3000, 15000],
  width: [2000, 6000],
  cornerRadius: [25, 4000],
  station: [0, 15000],
  floorDepth: [600, 2800],
  going: [100, 3000],
  treadDepth: [50, 2600],
  benchDepth: [100, 2000],
  ledgeDepth: [50, 1500],
  seatDepth: [100, 2000],
  bench: [150, 2500],
  ledge: [300, 6000],
  seat: [200, 2500],
  flange: [75, 300],
  cove: [40, 500],
  step: [15, 300],
  nose: [10, 120],
  pair: [10, 500],
  opening: [20, 800],
  edge: [10, 80],
} as const satisfies Record<string, readonly [number, number]>;

/** A point of the plan, x and y. */
const point = z.tuple([mm(-20000, 20000), mm(-20000, 20000)]);

/** A place along the rim: on a named run, by proportion (survives a new size) or by distance from the run's start. */
export const rimPlace = z.union([
  z.strictObject({ run: id, part: part() }),
  z.strictObject({ run: id, distance: mm(0, 60000) }),
]);

const cornerRadius = mm(...limits.cornerRadius);
const outline = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("rectangle"),
    length: mm(...limits.length),
    width: mm(...limits.width),
    /** One radius, or one a corner: shallow-right, deep-right, deep-left, shallow-left. */
    cornerRadius: z.union([cornerRadius, z.tuple([cornerRadius, cornerRadius, cornerRadius, cornerRadius])]),
  }),
  z.strictObject({ kind: z.literal("stadium"), length: mm(...limits.length), width: mm(...limits.width) }),
  z.strictObject({
    kind: z.literal("round-ended"),
    length: mm(...limits.length),
    width: mm(...limits.width),
    roundEnd: z.enum(["shallow", "deep"]),
    cornerRadius,
  }),
  z.strictObject({
    kind: z.literal("ell"),
    length: mm(...limits.length),
    width: mm(...limits.width),
    /** The part of the bounding rectangle that is not pool: measured from its deep or shallow end, on the left or right. */
    cutLength: mm(300, 12000),
    cutWidth: mm(300, 5000),
    cutAt: z.enum(["shallow-right", "deep-right", "deep-left", "shallow-left"]),
    cornerRadius,
    reflexRadius: cornerRadius,
  }),
  z.strictObject({
    kind: z.literal("polygon"),
    points: z.array(point).min(3).max(60),
    cornerRadius: z.union([cornerRadius, z.array(cornerRadius).min(3).max(60)]),
  }),
  /** A smooth closed chain of arcs through the points. */
  z.strictObject({ kind: z.literal("freeform"), points: z.array(point).min(3).max(60) }),
  /** Given lines and arcs: each goes on to `to`; an arc has `bulge` = tan(turn/4), positive counter-clockwise. */
  z.strictObject({
    kind: z.literal("path"),
    start: point,
    segments: z
      .array(
        z.discriminatedUnion("kind", [
          z.strictObject({ kind: z.literal("line"), to: point }),
          z.strictObject({ kind: z.literal("arc"), to: point, bulge: plainNumber(-20, 20) }),
        ]),
      )
      .min(2)
      .max(120),
  }),
]);

const floor = z.strictObject({
  /** Depth below the rim along the length; sorted by `at`. */
  stations: z
    .array(z.strictObject({ at: mm(...limits.station), depth: mm(...limits.floorDepth) }))
    .min(1)
    .max(20),
  /** Radius of the rounded breaks between slopes. */
  breakRadius: mm(100, 20000),
  /** Fall across the width, mm per metre, positive: deeper on the right. */
  crossFall: fall(-60, 60),
  /** Sides of a hopper: the floor falls from `depthAtWall` at the side walls at `slopeDeg` until it meets the stations' floor. */
  hopper: z.strictObject({ depthAtWall: mm(...limits.floorDepth), slopeDeg: degrees(5, 60) }).optional(),
});

/** Where a block of steps, a ledge, a bench or a seat stands in the plan. */
const footprint = z.discriminatedUnion("kind", [
  /** Over the full width at one end. */
  z.strictObject({ kind: z.literal("end"), end: z.enum(["shallow", "deep"]) }),
  /** In a plan corner: a quarter round about the corner point, or a square with a rounded inner corner. */
  z.strictObject({ kind: z.literal("corner"), corner: id, shape: z.enum(["round", "square"]) }),
  /** Along any run of the outline from one rim place on (counter-clockwise) to another, following it; both at one place: all round. */
  z.strictObject({ kind: z.literal("along"), from: rimPlace, to: rimPlace, endRadius: mm(30, 2000) }),
  /** All round the outline. */
  z.strictObject({ kind: z.literal("round") }),
]);

const feature = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("steps"),
    id,
    place: footprint,
    /** From the top down: depth below the rim, and going (how far this tread reaches beyond the one above, or the wall). */
    treads: z
      .array(z.strictObject({ depth: mm(...limits.treadDepth), going: mm(...limits.going) }))
      .min(1)
      .max(8),
  }),
  z.strictObject({
    kind: z.literal("bench"),
    id,
    place: footprint,
    depth: mm(...limits.benchDepth),
    width: mm(...limits.bench),
  }),
  /** Tanning ledge: `reach` from the wall into the pool (both ways in a corner). */
  z.strictObject({
    kind: z.literal("ledge"),
    id,
    place: footprint,
    depth: mm(...limits.ledgeDepth),
    reach: mm(...limits.ledge),
  }),
  z.strictObject({
    kind: z.literal("seat"),
    id,
    place: footprint,
    depth: mm(...limits.seatDepth),
    reach: mm(...limits.seat),
  }),
]);

const coping = z.strictObject({
  flange: mm(...limits.flange),
  /** Radius from wall to coping at the rim. */
  rimRadius: mm(5, 80),
  edge: z.discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("flat") }),
    /** A quarter round that ends plumb. */
    z.strictObject({ kind: z.literal("rolled"), radius: mm(...limits.edge) }),
    /** A small round and a plumb skirt down to `drop`. */
    z.strictObject({ kind: z.literal("dropped"), radius: mm(5, 80), drop: mm(15, 200) }),
  ]),
});

/** `depth`: of its middle, below the rim. */
const onWall = z.strictObject({ wall: rimPlace, depth: mm(0, 2600) });
const onFloor = z.strictObject({ floor: z.strictObject({ alongPart: part(), acrossPart: part() }) });
/** Fittings pierce the shell: named keep-out areas of their size plus `clearance` all round. */
const fitting = z.strictObject({
  id,
  kind: z.enum(["skimmer", "return", "light", "suction"]),
  at: z.union([onWall, onFloor]),
  width: mm(...limits.opening),
  height: mm(...limits.opening),
  clearance: mm(0, 500),
});

export const shell = z.strictObject({
  outline,
  floor,
  draftDeg: degrees(0, 10),
  /** Inside radii. `cove`: floor to wall. `step`: every other re-entrant edge. `nose`: every outward edge of a tread or ledge. */
  radii: z.strictObject({
    cove: mm(...limits.cove),
    step: mm(...limits.step),
    nose: mm(...limits.nose),
    pairs: z
      .array(z.strictObject({ between: z.tuple([faceId, faceId]), radius: mm(...limits.pair) }))
      .max(100),
  }),
  features: z.array(feature).max(40),
  coping,
  fittings: z.array(fitting).max(100),
  /** Water line below the rim. */
  waterLine: mm(0, 600),
});

export type RimPlace = z.infer<typeof rimPlace>;
export type OutlineSpec = z.infer<typeof outline>;
export type FloorSpec = z.infer<typeof floor>;
export type FootprintSpec = z.infer<typeof footprint>;
export type FeatureSpec = z.infer<typeof feature>;
export type FittingSpec = z.infer<typeof fitting>;
export type ShellSpec = z.infer<typeof shell>;
