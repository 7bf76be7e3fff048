import type { Drape } from "../cloth/drape.ts";
import type { Fit } from "../cloth/fit.ts";
import { outer, tipOf } from "../cloth/tip.ts";
import { signedArea } from "../layup/flat-shape.ts";
import { boxOf } from "../packing/ring.ts";
import type { FlatStrip } from "../surface/strip.ts";
import type { ClothShear, Dart, Notch } from "./kit.ts";
import { trimmed } from "./trim.ts";

/** Something to be marked on a piece: at a station of the strip (mm), on both edges, or on the line between them. */
export interface Mark {
  readonly what: Notch["what"];
  readonly station: number;
  readonly label?: string;
}

/** A piece of cloth as it is cut. */
export interface FlatPiece {
  readonly outline: Float64Array;
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly flatAreaMm2: number;
  readonly darts: readonly Dart[];
  readonly notches: readonly Notch[];
  readonly shear: ClothShear | null;
}

type Side = Dart["side"];
type Point = readonly [number, number];

/** The flat piece of a zone's cloth, cut wider all round by `trim` mm, its marks where its zone's own edges are. */
export function flatPiece({ drape, outline }: Fit, marks: readonly Mark[], trim: number): FlatPiece {
  const drawn = trimmed(outline, dartLines(drape), trim);
  const box = boxOf(drawn);
  const moved = ([x, y]: Point): Point => [x - box.left, y - box.low];
  return {
    outline: drawn.map((value, i) => value - (i % 2 === 0 ? box.left : box.low)),
    lengthMm: box.width,
    widthMm: box.height,
    flatAreaMm2: signedArea(drawn),
    darts: dartsOf(drape, moved),
    notches: marks.flatMap(({ station, ...mark }) => {
      const { what } = mark;
      const at = (["left", "right"] as const).map((side) => placeAt(drape, station, side, what === "line"));
      const points = what === "line" ? at.slice(0, 1) : at;
      return points.map((point): Notch => {
        const [x, y] = moved(point);
        return { ...mark, x, y };
      });
    }),
    shear: { most: drape.shear.most, mean: drape.shear.mean },
  };
}

/**
 * The piece of a strip that could not be laid as cloth: its line pulled straight and its widths set off square from it. For want of a better
 * outline; whoever uses it is told.
 */
export function plainPiece({ along, left, right }: FlatStrip): FlatPiece {
  const low = Math.max(...right);
  const points: number[] = [];
  for (let i = 0; i < along.length; i++) points.push(along[i], low - right[i]);
  for (let i = along.length - 1; i >= 0; i--) points.push(along[i], low + left[i]);
  const { width, height } = boxOf(points);
  return {
    outline: Float64Array.from(points),
    lengthMm: width,
    widthMm: height,
    flatAreaMm2: signedArea(points),
    darts: [],
    notches: [],
    shear: null,
  };
}

/** The two sides of every cut, from its mouth to its tip and out again, x y pairs. */
function dartLines(drape: Drape): Float64Array[] {
  const { columns, flat } = drape;
  return columns.flatMap(({ after }, c) => {
    const tip = tipOf(drape, c);
    if (!after || tip === null) return [];
    const out = outer(columns[c], after.side);
    const inwards = Array.from({ length: Math.abs(out - tip) + 1 }, (_, i) => out + Math.sign(tip - out) * i);
    const sides = [
      ...inwards.map((k) => [flat[c - 1][2 * k], flat[c - 1][2 * k + 1]]),
      ...inwards
        .slice(0, -1)
        .reverse()
        .map((k) => [flat[c][2 * k], flat[c][2 * k + 1]]),
    ];
    return [Float64Array.from(sides.flat())];
  });
}

function dartsOf(drape: Drape, moved: (point: Point) => Point): Dart[] {
  const { columns, flat } = drape;
  return columns.flatMap(({ after }, c): Dart[] => {
    const end = tipOf(drape, c);
    if (!after || end === null) return [];
    const { side } = after;
    const place = (column: number, k: number) => moved([flat[column][2 * k], flat[column][2 * k + 1]]);
    const tip = place(c, end);
    const mouth = [place(c - 1, outer(columns[c - 1], side)), place(c, outer(columns[c], side))] as const;
    const apart = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);
    const depthMm = Math.max(...mouth.map((point) => apart(point, tip)));
    return [{ side, tip, mouth, depthMm, openingMm: apart(mouth[0], mouth[1]) }];
  });
}

/** Where the edge on a side, or the line, passes a station in flat cloth: straight between the places found. */
function placeAt({ columns, flat }: Drape, station: number, side: Side, onLine: boolean): Point {
  let c = 0;
  while (c + 2 < columns.length && columns[c + 1].station < station) c++;
  const place = (column: number): Point => {
    const { ws } = columns[column];
    const k = onLine ? Math.max(0, ws.indexOf(0)) : outer(columns[column], side);
    return [flat[column][2 * k], flat[column][2 * k + 1]];
  };
  const [a, b] = [place(c), place(c + 1)];
  const length = columns[c + 1].station - columns[c].station;
  const u = length > 0 ? Math.min(1, Math.max(0, (station - columns[c].station) / length)) : 0;
  return [a[0] + u * (b[0] - a[0]), a[1] + u * (b[1] - a[1])];
}
