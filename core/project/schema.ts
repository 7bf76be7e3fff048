/**
 * The project file: plain data, lengths in millimetres, angles in degrees (keys ending in `Deg`). The schema is strict:
 * an unknown key is an error, so that a typing mistake never loses a figure in silence.
 */
import { z } from "zod";

const id = z.string().regex(/^[a-z0-9][a-z0-9-]*$/, "use small letters, digits and hyphens, e.g. ledge-1");
const mm = (min: number, max: number) => z.number().min(min).max(max);
const point = z.tuple([mm(-20000, 20000), mm(-20000, 20000)]);

/** A place along the rim: on a named run, by proportion (survives a new size) or by distance from the run's start. */
export const rimPlace = z.union([
  z.strictObject({ run: id, part: z.number().min(0).max(1) }),
  z.strictObject({ run: id, distance: mm(0, 60000) }),
]);

const cornerRadius = mm(25, 4000);
export const outline = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("rectangle"),
    length: mm(3000, 15000),
    width: mm(2000, 6000),
    /** One radius, or one a corner: shallow-right, deep-right, deep-left, shallow-left. */
    cornerRadius: z.union([cornerRadius, z.tuple([cornerRadius, cornerRadius, cornerRadius, cornerRadius])]),
  }),
  z.strictObject({ kind: z.literal("stadium"), length: mm(3000, 15000), width: mm(2000, 6000) }),
  z.strictObject({
    kind: z.literal("round-ended"),
    length: mm(3000, 15000),
    width: mm(2000, 6000),
    roundEnd: z.enum(["shallow", "deep"]),
    cornerRadius,
  }),
  z.strictObject({
    kind: z.literal("ell"),
    length: mm(3000, 15000),
    width: mm(2000, 6000),
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
          z.strictObject({ kind: z.literal("arc"), to: point, bulge: z.number().min(-20).max(20) }),
        ]),
      )
      .min(2)
      .max(120),
  }),
]);

export const floor = z.strictObject({
  /** Depth below the rim along the length; sorted by `at`. */
  stations: z.array(z.strictObject({ at: mm(0, 15000), depth: mm(600, 2800) })).min(1).max(20),
  /** Radius of the rounded breaks between slopes. */
  breakRadius: mm(100, 20000),
  /** Fall across the width, mm per metre, positive: deeper on the right. */
  crossFall: mm(-60, 60),
  /** Sides of a hopper: the floor falls from `depthAtWall` at the side walls at `slopeDeg` until it meets the stations' floor. */
  hopper: z.strictObject({ depthAtWall: mm(600, 2800), slopeDeg: z.number().min(5).max(60) }).optional(),
});

/** Where a block of steps, a ledge, a bench or a seat stands in the plan. */
export const footprint = z.discriminatedUnion("kind", [
  /** Over the full width at one end. */
  z.strictObject({ kind: z.literal("end"), end: z.enum(["shallow", "deep"]) }),
  /** In a plan corner: a quarter round about the corner point, or a square with a rounded inner corner. */
  z.strictObject({ kind: z.literal("corner"), corner: id, shape: z.enum(["round", "square"]) }),
  /** Along any run of the outline from one rim place on (counter-clockwise) to another, following it. */
  z.strictObject({ kind: z.literal("along"), from: rimPlace, to: rimPlace, endRadius: mm(30, 2000) }),
  /** All round the outline. */
  z.strictObject({ kind: z.literal("round") }),
]);

export const feature = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("steps"),
    id,
    place: footprint,
    /** From the top down: depth below the rim, and going (how far this tread reaches beyond the one above, or the wall). */
    treads: z.array(z.strictObject({ depth: mm(50, 2600), going: mm(100, 3000) })).min(1).max(8),
  }),
  z.strictObject({ kind: z.literal("bench"), id, place: footprint, depth: mm(100, 2000), width: mm(150, 2500) }),
  /** Tanning ledge: `reach` from the wall into the pool (both ways in a corner). */
  z.strictObject({ kind: z.literal("ledge"), id, place: footprint, depth: mm(50, 1500), reach: mm(300, 6000) }),
  z.strictObject({ kind: z.literal("seat"), id, place: footprint, depth: mm(100, 2000), reach: mm(200, 2500) }),
]);

export const coping = z.strictObject({
  flange: mm(75, 300),
  /** Radius from wall to coping at the rim. */
  rimRadius: mm(5, 80),
  edge: z.discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("flat") }),
    /** A quarter round that ends plumb. */
    z.strictObject({ kind: z.literal("rolled"), radius: mm(10, 80) }),
    /** A small round and a plumb skirt down to `drop`. */
    z.strictObject({ kind: z.literal("dropped"), radius: mm(5, 80), drop: mm(15, 200) }),
  ]),
});

const onWall = z.strictObject({ wall: rimPlace, depth: mm(0, 2600) });
const onFloor = z.strictObject({ floor: z.strictObject({ alongPart: z.number().min(0).max(1), acrossPart: z.number().min(0).max(1) }) });
/** Fittings pierce the shell: named keep-out areas of their size plus `clearance` all round. */
export const fitting = z.strictObject({
  id,
  kind: z.enum(["skimmer", "return", "light", "suction"]),
  at: z.union([onWall, onFloor]),
  width: mm(20, 800),
  height: mm(20, 800),
  clearance: mm(0, 500),
});

export const shell = z.strictObject({
  outline,
  floor,
  draftDeg: z.number().min(0).max(10),
  /** Inside radii. `cove`: floor to wall. `step`: every other re-entrant edge. `nose`: every outward edge of a tread or ledge. */
  radii: z.strictObject({
    cove: mm(40, 500),
    step: mm(15, 300),
    nose: mm(10, 120),
    pairs: z.array(z.strictObject({ between: z.tuple([z.string(), z.string()]), radius: mm(10, 500) })).max(100),
  }),
  features: z.array(feature).max(40),
  coping,
  fittings: z.array(fitting).max(100),
  /** Water line below the rim. */
  waterLine: mm(0, 600),
});

export const material = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("woven"), id, name: z.string().min(1).max(80), gramsPerM2: mm(50, 3000), rollWidth: mm(100, 3000) }),
  z.strictObject({
    kind: z.literal("strip"),
    id,
    name: z.string().min(1).max(80),
    width: mm(10, 400),
    thickness: mm(3, 80),
    stockLength: mm(300, 6000),
    kgPerM3: mm(10, 1500),
    /** Smallest radius to which the strip bends across its scores. */
    bendRadius: mm(0, 3000),
  }),
  z.strictObject({
    kind: z.literal("sheet"),
    id,
    name: z.string().min(1).max(80),
    width: mm(100, 3000),
    length: mm(100, 6000),
    thickness: mm(3, 80),
    kgPerM3: mm(10, 1500),
  }),
]);

export const shop = z.strictObject({
  /** Thickness laid before the reinforcement: everything that is cut fits the surface moved out by this much. */
  laidThickness: mm(0, 30),
  handlingLength: mm(300, 12000),
  lap: mm(0, 300),
  /** Least distance between the joints of successive plies. */
  jointStagger: mm(0, 1000),
  /** How much each further ply stops short of the one below at its edges. */
  plyStep: mm(0, 150),
  kerf: mm(0, 20),
  bevelDeg: z.number().min(15).max(90),
});

/** A point on the shell by name and proportion. `down` runs from 0 at the rim to 1 where the wall ends; u, v within the face's plan box. */
export const surfacePlace = z.union([
  z.strictObject({ wall: rimPlace, downPart: z.number().min(0).max(1) }),
  z.strictObject({ face: z.string(), alongPart: z.number().min(0).max(1), acrossPart: z.number().min(0).max(1) }),
]);

const part = z.number().min(0).max(1);
export const zone = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("band"),
    id,
    /** A transition's id, e.g. `foot` (wall against everything below) or `steps/tread-1|steps/riser-2`. */
    on: z.string(),
    /** Parts of the transition's length; a closed one may run past its start (from > to). Absent: the whole. */
    stretch: z.strictObject({ from: part, to: part }).optional(),
    /** Half widths along the surface from the transition line: first towards its first face, then its second. */
    halfWidths: z.tuple([mm(20, 1500), mm(20, 1500)]),
    plies: z.number().int().min(1).max(8),
    material: id,
  }),
  z.strictObject({
    kind: z.literal("stroke"),
    id,
    path: z.array(surfacePlace).min(2).max(200),
    width: mm(30, 2000),
    plies: z.number().int().min(1).max(8),
    material: id,
  }),
  z.strictObject({
    kind: z.literal("rib"),
    id,
    at: rimPlace,
    /** Distance down the surface from the rim to the rib's top. */
    top: mm(0, 1500),
    /** `over`: down the cove and onto the floor by `onto` mm; `to`: ends where the cove begins. */
    foot: z.discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("over"), onto: mm(0, 1000) }),
      z.strictObject({ kind: z.literal("to"), clear: mm(0, 1000) }),
    ]),
    material: id,
  }),
  z.strictObject({
    kind: z.literal("rib-row"),
    id,
    from: rimPlace,
    to: rimPlace,
    pitch: mm(100, 3000),
    /** Kept clear of corners, features and fittings by at least this much. */
    clear: mm(0, 1000),
    top: mm(0, 1500),
    foot: z.discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("over"), onto: mm(0, 1000) }),
      z.strictObject({ kind: z.literal("to"), clear: mm(0, 1000) }),
    ]),
    material: id,
  }),
  z.strictObject({
    kind: z.literal("gussets"),
    id,
    /** The tread, bench top or ledge top that they carry. */
    under: z.string(),
    pitch: mm(100, 3000),
    /** Free ends kept at each side. */
    margin: mm(0, 2000),
    /** How far the web reaches out below the tread and down the riser. */
    reach: mm(50, 1500),
    drop: mm(50, 1500),
    material: id,
  }),
  z.strictObject({ kind: z.literal("pad"), id, on: z.string(), margin: mm(0, 1000), material: id }),
  z.strictObject({
    kind: z.literal("stiffener"),
    id,
    /** A straight run of the coping. */
    run: id,
    margin: mm(0, 3000),
    material: id,
  }),
]);

const rule = { material: id };
/** House rules: how this shop lays up a shell; the automatic layout follows them to the letter. */
export const rules = z.strictObject({
  /** `reach`: how far past the tangent line of the radius the band runs, each side. */
  footBand: z.strictObject({ ...rule, reach: mm(0, 800), plies: z.number().int().min(1).max(8) }),
  stepBand: z.strictObject({ ...rule, reach: mm(0, 800), plies: z.number().int().min(1).max(8) }),
  noseBand: z.strictObject({ ...rule, reach: mm(0, 800), plies: z.number().int().min(0).max(8) }),
  ribs: z.strictObject({ ...rule, pitch: mm(100, 3000), clear: mm(0, 1000), top: mm(0, 1500), onto: mm(0, 1000), overCove: z.boolean(), leastWall: mm(200, 6000) }),
  gussets: z.strictObject({ ...rule, pitch: mm(100, 3000), margin: mm(0, 2000), reach: mm(50, 1500), drop: mm(50, 1500), leastWidth: mm(0, 3000) }),
  pads: z.strictObject({ ...rule, margin: mm(0, 1000), leastWidth: mm(50, 3000) }),
  stiffeners: z.strictObject({ ...rule, margin: mm(0, 3000), leastRun: mm(200, 10000) }),
});

export const project = z.strictObject({
  format: z.literal("ribband"),
  version: z.literal(1),
  name: z.string().min(1).max(120),
  maker: z.string().max(120).optional(),
  notes: z.string().max(4000).optional(),
  shell,
  materials: z.array(material).min(1).max(60),
  shop,
  rules,
  layup: z.array(zone).max(2000),
});

export type RimPlace = z.infer<typeof rimPlace>;
export type OutlineSpec = z.infer<typeof outline>;
export type FloorSpec = z.infer<typeof floor>;
export type FootprintSpec = z.infer<typeof footprint>;
export type FeatureSpec = z.infer<typeof feature>;
export type CopingSpec = z.infer<typeof coping>;
export type FittingSpec = z.infer<typeof fitting>;
export type ShellSpec = z.infer<typeof shell>;
export type Material = z.infer<typeof material>;
export type ShopSpec = z.infer<typeof shop>;
export type SurfacePlace = z.infer<typeof surfacePlace>;
export type ZoneSpec = z.infer<typeof zone>;
export type HouseRules = z.infer<typeof rules>;
export type Project = z.infer<typeof project>;
