/**
 * What goes onto the shell and how the shop lays it: materials, shop figures, zones and house rules.
 */
import { z } from "zod";
import { count, degrees, gramsPerM2, kgPerM3, mm, part } from "./figures.ts";
import { faceId, id, rimPlace } from "./shell-schema.ts";

/** A transition of the shell: `foot`, `rim`, or two face ids as in `wall|steps/tread-1`. */
const transitionId = z.string().min(1).max(330);

export const material = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("woven"),
    id,
    name: z.string().min(1).max(80),
    gramsPerM2: gramsPerM2(50, 3000),
    rollWidth: mm(100, 3000),
    /** Sheared further than this the cloth wrinkles or bridges: a piece is then cut or split. */
    lockingDeg: degrees(15, 80),
  }),
  z.strictObject({
    kind: z.literal("strip"),
    id,
    name: z.string().min(1).max(80),
    width: mm(10, 400),
    thickness: mm(3, 80),
    stockLength: mm(300, 6000),
    kgPerM3: kgPerM3(10, 1500),
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
    kgPerM3: kgPerM3(10, 1500),
  }),
]);

export const shop = z.strictObject({
  /** Thickness laid before the reinforcement: everything that is cut fits the surface moved out by this much. */
  laidThickness: mm(0, 30),
  handlingLength: mm(300, 12000),
  lap: mm(0, 300),
  /** A piece whose edge turns away from its middle by more than this does not lie down when pulled straight: a corner piece. */
  cornerTurnDeg: degrees(1, 45),
  /** Least distance between the joints of successive plies. */
  jointStagger: mm(0, 1000),
  /** How much each further ply stops short of the one below at its edges. */
  plyStep: mm(0, 150),
  /** Cloth cut wider all round than its zone, to be trimmed once it is laid. */
  trim: mm(0, 100),
  /** Pieces of cloth that differ by no more than this, turned over if need be, are cut as one. */
  alike: mm(0, 20),
  kerf: mm(0, 20),
  bevelDeg: degrees(15, 90),
});

/** A point on the shell by name and proportion. `down` runs from 0 at the rim to 1 where the wall ends; u, v within the face's plan box. */
const surfacePlace = z.union([
  z.strictObject({ wall: rimPlace, downPart: part() }),
  z.strictObject({ face: faceId, alongPart: part(), acrossPart: part() }),
]);

/** How a rib ends below. `over`: down the cove and onto the floor by `onto`; `to`: `clear` above the start of the cove. */
const ribFoot = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("over"), onto: mm(0, 1000) }),
  z.strictObject({ kind: z.literal("to"), clear: mm(0, 1000) }),
]);

/** One piece of reinforcement, placed by names and proportions, so that it survives a change of the shell. */
export const zone = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("band"),
    id,
    /** A transition's id, e.g. `foot` (wall against everything below) or `steps/tread-1|steps/riser-2`. */
    on: transitionId,
    /**
     * Parts of the transition's length; a closed one may run past its start (from > to), and from = to is all round it,
     * begun there. Absent: the whole.
     */
    stretch: z.strictObject({ from: part(), to: part() }).optional(),
    /** Half widths along the surface from the transition line: first towards its first face, then its second. */
    halfWidths: z.tuple([mm(20, 1500), mm(20, 1500)]),
    plies: count(1, 8),
    material: id,
  }),
  z.strictObject({
    kind: z.literal("stroke"),
    id,
    path: z.array(surfacePlace).min(2).max(200),
    width: mm(30, 2000),
    plies: count(1, 8),
    material: id,
  }),
  z.strictObject({
    kind: z.literal("rib"),
    id,
    at: rimPlace,
    /** Distance down the surface from the rim to the rib's top. */
    top: mm(0, 1500),
    foot: ribFoot,
    material: id,
  }),
  z.strictObject({
    kind: z.literal("rib-row"),
    id,
    /** Counter-clockwise from one rim place to the other; both at one place: all round. */
    from: rimPlace,
    to: rimPlace,
    pitch: mm(100, 3000),
    /** Kept clear of corners, features and fittings by at least this much. */
    clear: mm(0, 1000),
    top: mm(0, 1500),
    foot: ribFoot,
    material: id,
  }),
  z.strictObject({
    kind: z.literal("gussets"),
    id,
    /** The tread, bench top or ledge top that they carry. */
    under: faceId,
    pitch: mm(100, 3000),
    /** Free ends kept at each side. */
    margin: mm(0, 2000),
    /** How far the web reaches out below the tread and down the riser. */
    reach: mm(50, 1500),
    drop: mm(50, 1500),
    material: id,
  }),
  z.strictObject({ kind: z.literal("pad"), id, on: faceId, margin: mm(0, 1000), material: id }),
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
  footBand: z.strictObject({ ...rule, reach: mm(0, 800), plies: count(1, 8) }),
  stepBand: z.strictObject({ ...rule, reach: mm(0, 800), plies: count(1, 8) }),
  noseBand: z.strictObject({ ...rule, reach: mm(0, 800), plies: count(0, 8) }),
  ribs: z.strictObject({
    ...rule,
    pitch: mm(100, 3000),
    clear: mm(0, 1000),
    top: mm(0, 1500),
    onto: mm(0, 1000),
    overCove: z.boolean(),
    leastWall: mm(200, 6000),
  }),
  gussets: z.strictObject({
    ...rule,
    pitch: mm(100, 3000),
    margin: mm(0, 2000),
    reach: mm(50, 1500),
    drop: mm(50, 1500),
    leastWidth: mm(0, 3000),
  }),
  pads: z.strictObject({ ...rule, margin: mm(0, 1000), leastWidth: mm(50, 3000) }),
  stiffeners: z.strictObject({ ...rule, margin: mm(0, 3000), leastRun: mm(200, 10000) }),
});

export type Material = z.infer<typeof material>;
export type ShopSpec = z.infer<typeof shop>;
export type SurfacePlace = z.infer<typeof surfacePlace>;
export type ZoneSpec = z.infer<typeof zone>;
export type HouseRules = z.infer<typeof rules>;
