import type { OutlineSpec } from "../../project/schema.ts";
import { filletPolygon } from "../fillet-polygon.ts";
import { at, atMost, type Drawn, LEAST_RADIUS, type OutlineRefusal } from "./drawn.ts";

type Ell = Extract<OutlineSpec, { kind: "ell" }>;

const BOX_CORNERS = ["shallow-right", "deep-right", "deep-left", "shallow-left"] as const;
/** The part that is kept beside the cut is at least this wide, mm: a person's width, and less is no pool. */
const LEAST_LEG = 600;

/**
 * An L: a rectangle with a smaller one cut out of a corner. Runs: `corner-1` … `corner-6` and `side-1` … `side-6`, side i
 * from corner i to the next, counted counter-clockwise from the bounding rectangle's shallow-right corner. Where that very
 * corner is cut away, corner 1 is the first of the three that take its place: the one on the shallow end. So the numbers do
 * not depend on the sizes, and unless more than half the shallow end is cut away, corner 1 is the first one met
 * counter-clockwise from rim station 0. The reflex corner is the middle one of the three: see `reflexCornerOfEll`.
 */
export function drawEll(spec: Ell): Drawn {
  const misfit = checkCut(spec);
  if (misfit.length > 0) return { ok: false, refusals: misfit };
  const rounded = filletPolygon(ellCorners(spec));
  if (rounded.ok) {
    const names = rounded.parts.map(({ of, index }) => `${of}-${index + 1}`);
    return { ok: true, chain: rounded.chain, names };
  }
  const reflex = BOX_CORNERS.indexOf(spec.cutAt) + 1;
  // Both kinds of corner have one figure each, so each must do for the tightest of its corners.
  const wrong = (["cornerRadius", "reflexRadius"] as const).flatMap((field) => {
    const misfits = rounded.misfits.filter(
      ({ corner }) => (corner === reflex) === (field === "reflexRadius"),
    );
    if (misfits.length === 0) return [];
    const largest = Math.min(...misfits.map((one) => one.largest));
    const names = misfits.map(({ corner }) => `corner-${corner + 1}`).join(", ");
    const why = `A radius of ${spec[field]} mm at ${names} does not fit on the sides beside it.`;
    return [{ field, why, largest }];
  });
  // Cut down in the same proportion one may be less than the project takes: it is then at its least, and the other gives way.
  const tight = wrong.some(({ largest }) => largest < LEAST_RADIUS);
  const also = wrong.length > 1 ? ", with the other radius that is refused cut down as well" : "";
  const refusals = wrong.flatMap(({ field, largest, why }): OutlineRefusal[] => {
    const one = { path: at(field), value: spec[field], why };
    if (!tight) return [{ ...one, wouldWork: `at most ${atMost(largest)}${also}` }];
    if (largest >= LEAST_RADIUS)
      return [
        { ...one, wouldWork: `at most ${atMost(besideLeast(spec, field))} beside one of ${LEAST_RADIUS} mm` },
      ];
    return spec[field] > LEAST_RADIUS ? [{ ...one, wouldWork: `${LEAST_RADIUS} mm${also}` }] : [];
  });
  return { ok: false, refusals };
}

/** The largest radius of one kind of corner where those of the other kind are at their least, mm. Square corners take their radius of a side. */
function besideLeast(spec: Ell, field: "cornerRadius" | "reflexRadius"): number {
  const beside = Math.min(spec.cutLength, spec.cutWidth) - LEAST_RADIUS;
  const leg = Math.min(spec.length - spec.cutLength, spec.width - spec.cutWidth);
  return field === "reflexRadius" ? beside : Math.min(beside, leg / 2);
}

/** The id of an L's corner that turns outwards. */
export function reflexCornerOfEll(spec: Pick<Ell, "cutAt">): string {
  return `corner-${BOX_CORNERS.indexOf(spec.cutAt) + 2}`;
}

function checkCut(spec: Ell): OutlineRefusal[] {
  const checks = [
    { field: "cutLength", size: "length" },
    { field: "cutWidth", size: "width" },
  ] as const;
  return checks.flatMap(({ field, size }) => {
    const largest = spec[size] - LEAST_LEG;
    if (spec[field] <= largest) return [];
    const rest = Math.round((spec[size] - spec[field]) * 10) / 10;
    const why =
      rest > 0
        ? `The cut leaves only ${rest} mm of the pool's ${size} of ${spec[size]} mm; a leg is at least ${LEAST_LEG} mm.`
        : `The cut is as large as the pool's ${size} of ${spec[size]} mm, or larger.`;
    return [{ path: at(field), value: spec[field], why, wouldWork: `at most ${atMost(largest)}` }];
  });
}

/** The six corners (mm, each with its radius) counter-clockwise: those of the box, with three in place of the one that is cut away. */
export function ellCorners(spec: Ell) {
  const { length, width, cutLength, cutWidth, cornerRadius: radius, reflexRadius } = spec;
  const half = width / 2;
  const box = [
    [0, -half],
    [length, -half],
    [length, half],
    [0, half],
  ] as const;
  /** The way along the box's side that leaves each corner, times the size of the cut that way. */
  const leaves = [
    [cutLength, 0],
    [0, cutWidth],
    [-cutLength, 0],
    [0, -cutWidth],
  ] as const;
  return box.flatMap(([x, y], i) => {
    if (BOX_CORNERS[i] !== spec.cutAt) return [{ x, y, radius }];
    const [ox, oy] = leaves[i];
    const [ix, iy] = leaves[(i + 3) % 4];
    return [
      { x: x - ix, y: y - iy, radius },
      { x: x - ix + ox, y: y - iy + oy, radius: reflexRadius },
      { x: x + ox, y: y + oy, radius },
    ];
  });
}
