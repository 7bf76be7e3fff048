import { roughBox } from "../cloth/rough-box.ts";
import type { Material, ShopSpec } from "../project/schema.ts";
import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";
import type { Piece } from "./kit.ts";

/** A band of which only the line is known. */
export interface RoughBand {
  readonly id: string;
  readonly curve: SurfaceCurve;
  /** Stations of the curve at which it begins and ends, mm; `to` may pass the length of a closed one. */
  readonly from: number;
  readonly to: number;
  /** Whether it runs all round a closed curve. */
  readonly closed: boolean;
  /** Half widths of each ply, left and right, mm. */
  readonly plyWidths: readonly (readonly [number, number])[];
}

/** Distance of the stations at which a line's turning is looked at, mm: several in the tightest corner of a plan. */
const SPACING = 40;

/**
 * About the pieces that a band is cut in, before any of it is laid: its line divided evenly, each piece the rectangle that flat cloth along its part of
 * the line is about to take; where that is wider than the roll cloth will be split, and it is the band's own width.
 */
export function roughPieces(
  band: RoughBand,
  material: Material & { readonly kind: "woven" },
  shop: ShopSpec,
): Piece[] {
  const line = turningLine(band);
  return band.plyWidths.flatMap(([left, right], ply) => {
    if (left + right <= 0) return [];
    const count = piecesIn(longestEdge(line, left, right), band.closed, shop);
    const length = (band.to - band.from) / count;
    return Array.from({ length: count }, (_, i): Piece => {
      // A lap is shared by the two pieces that meet in it.
      const from = i > 0 || band.closed ? i * length - shop.lap / 2 : 0;
      const to = i + 1 < count || band.closed ? (i + 1) * length + shop.lap / 2 : (i + 1) * length;
      const box = boxOf(line, from, to, left, right);
      const own = { lengthMm: to - from, widthMm: left + right };
      const { lengthMm, widthMm } = box.widthMm < material.rollWidth ? box : own;
      const areaMm2 = own.lengthMm * own.widthMm;
      return {
        name: `${band.id}/${ply + 1}-${i + 1}`,
        zone: band.id,
        ply: ply + 1,
        material: material.id,
        quantity: 1,
        lengthMm,
        widthMm,
        leftEdgeMm: own.lengthMm,
        rightEdgeMm: own.lengthMm,
        midMm: own.lengthMm,
        corner: false,
        areaMm2,
        flatAreaMm2: areaMm2,
        glassKg: (material.gramsPerM2 / 1000) * (areaMm2 / 1e6),
        fromMm: from,
        toMm: to,
        outline: Float64Array.of(0, 0, lengthMm, 0, lengthMm, widthMm, 0, widthMm),
        darts: [],
        notches: [],
        shear: null,
        places: [{ fromMm: from, toMm: to, hand: "as drawn" }],
      };
    });
  });
}

/** How far a line has turned to its left within the surface at even stations from its beginning, rad. */
interface TurningLine {
  readonly spacing: number;
  readonly turned: readonly number[];
  readonly closed: boolean;
}

function turningLine({ curve, from, to, closed }: RoughBand): TurningLine {
  const spans = Math.max(1, Math.ceil((to - from) / SPACING));
  const spacing = (to - from) / spans;
  const [before, here] = [new Float64Array(9), new Float64Array(9)];
  curvePointAt(curve, from, before);
  const turned = [0];
  for (let i = 1; i <= spans; i++) {
    curvePointAt(curve, from + i * spacing, here);
    turned.push(turned[i - 1] + turnBetween(before, here));
    before.set(here);
  }
  return { spacing, turned, closed };
}

/** Turn to the left, about the mean normal of two samples (x y z, tangent, normal), rad. */
function turnBetween(a: Float64Array, b: Float64Array): number {
  const [ax, ay, az, bx, by, bz] = [a[3], a[4], a[5], b[3], b[4], b[5]];
  const [nx, ny, nz] = [a[6] + b[6], a[7] + b[7], a[8] + b[8]];
  const across = (ay * bz - az * by) * nx + (az * bx - ax * bz) * ny + (ax * by - ay * bx) * nz;
  return Math.atan2(across / Math.hypot(nx, ny, nz), ax * bx + ay * by + az * bz);
}

/** The longer of a band's two edges, or its line: an edge on the outside of a turn gains its distance from the line times the turn. */
function longestEdge({ spacing, turned }: TurningLine, left: number, right: number): number {
  const edge = (w: number) => {
    let sum = 0;
    for (let i = 1; i < turned.length; i++) sum += Math.max(0, spacing - w * (turned[i] - turned[i - 1]));
    return sum;
  };
  return Math.max(edge(0), edge(left), edge(-right));
}

/** The fewest pieces of at most the handling length into which a length is divided, each lapping the next. */
function piecesIn(length: number, closed: boolean, { handlingLength, lap }: ShopSpec): number {
  return Math.max(1, Math.ceil((closed ? length : length - lap) / (handlingLength - lap) - 1e-9));
}

/** The rectangle round the part of a band between two distances from its beginning, mm. */
function boxOf(
  { spacing, turned, closed }: TurningLine,
  from: number,
  to: number,
  left: number,
  right: number,
) {
  const last = turned.length - 1;
  const turnAt = (mm: number): number => {
    const length = spacing * last;
    const laps = closed ? Math.floor(mm / length) : 0;
    const at = Math.min(last, Math.max(0, mm / spacing - laps * last));
    const low = Math.min(last - 1, Math.floor(at));
    return laps * turned[last] + turned[low] + (at - low) * (turned[low + 1] - turned[low]);
  };
  const count = Math.max(1, Math.ceil((to - from) / spacing));
  const stations = Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
  const ws = [-right, 0, left];
  const turns = Float64Array.from(stations.flatMap((mm) => ws.map(() => turnAt(mm))));
  return roughBox({ stations, ws, turned: turns });
}
