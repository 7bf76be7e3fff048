import { box } from "./basins.ts";
import { basinForms, type SideFigures, sideProfile, sweptArea } from "./side-profile.ts";

export interface LedgeFigures {
  readonly length: number;
  readonly width: number;
  readonly corner: number;
  /** Depth of the floor, of the ledge's top, and how far the ledge reaches from the deep end. */
  readonly depth: number;
  readonly top: number;
  readonly reach: number;
  readonly nose: number;
  /** The one radius of every re-entrant edge. */
  readonly cove: number;
  readonly rim: number;
  readonly flange: number;
  readonly lip: number;
}

/**
 * Area (mm²) and volume to the rim (mm³) of a box basin with plumb walls and a ledge over its whole deep end, every
 * re-entrant edge of one radius r. Along the side walls the ball rolls over floor, foot of the riser, riser, nose and tread:
 * a straight tube on the lines, a quarter torus round the nose, and where wall, floor and riser meet an octant of a
 * sphere, πr²/2. Pappus throughout.
 */
export function ledgeForms(f: LedgeFigures): { area: number; volume: number } {
  const { length, width, corner, depth, top, reach, nose: n, cove: r, rim } = f;
  const quarter = Math.PI / 2;
  const square = 1 - Math.PI / 4;
  const edge = length - reach;
  // Both ends are half boxes without straight sides; what is between them has the section from floor to tread.
  const ends = box(2 * corner, width, corner);
  const end = (at: number) => {
    const side: SideFigures = { ...f, depth: at, draftDeg: 0 };
    const forms = basinForms(ends, side);
    return { area: forms.area / 2, volume: forms.volume / 2 };
  };
  const floorLine = edge - r - corner;
  const treadLine = length - corner - edge - n;
  const lines = floorLine + (depth - top - r - n) + treadLine;
  const across = (lines + quarter * (r + n)) * (width - 2 * r);
  const octant = quarter * r * r;
  const roundNose = quarter * ((n + r) * r * quarter - r * r);
  const tubes = 2 * (lines * quarter * r + octant + roundNose);
  const walls =
    2 *
    (floorLine * (depth - r - rim) +
      (n + r) * (top + n - rim) -
      (Math.PI * (n + r) ** 2) / 4 +
      treadLine * (top - r - rim));
  // Rim, coping and lip do not know how deep the pool is.
  const straight = { parts: [{ length: 2 * (length - 2 * corner), turn: 0 }], area: 0 };
  const coping = sweptArea(straight, sideProfile({ ...f, draftDeg: 0 }).pieces.slice(2));

  const section = (edge - corner) * depth + (length - corner - edge) * top + square * (n * n - r * r);
  const fillets =
    2 *
    (lines * square * r * r +
      (quarter * r ** 3) / 6 +
      quarter * (n * square * r * r + square * r ** 3 - r ** 3 / 6));
  const rimRound = 2 * (length - 2 * corner) * square * rim * rim;
  const [shallow, deep] = [end(depth), end(top)];
  return {
    area: shallow.area + deep.area + across + tubes + walls + coping,
    volume: shallow.volume + deep.volume + section * width - fillets + rimRound,
  };
}
