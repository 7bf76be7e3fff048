import type { OutlineSpec } from "../../project/schema.ts";
import { filletPolygon } from "../fillet-polygon.ts";
import { at, atMost, type Drawn, LEAST_RADIUS } from "./drawn.ts";
import { repeatedPoints } from "./repeated-points.ts";

type Polygon = Extract<OutlineSpec, { kind: "polygon" }>;

/**
 * Any closed polygon with rounded corners. Runs: `corner-i` at point i and `side-i` from point i to the next, counted from 1 in
 * the order of the points, whichever way round they run. A point where the sides do not turn has no corner, and a side that
 * its two corners use up wholly is no run.
 */
export function drawPolygon({ points, cornerRadius }: Polygon): Drawn {
  const repeated = repeatedPoints(points);
  if (repeated.length > 0) return { ok: false, refusals: repeated };
  if (typeof cornerRadius !== "number" && cornerRadius.length !== points.length) {
    const why = `There are ${points.length} points and ${cornerRadius.length} corner radii.`;
    const wouldWork = `${points.length} radii, or a single one for all corners`;
    return { ok: false, refusals: [{ path: at("cornerRadius"), value: cornerRadius, why, wouldWork }] };
  }
  const doubled = doublesBack(points);
  if (doubled >= 0) {
    const why = `The outline doubles back on itself at point ${doubled + 1}.`;
    const wouldWork = "a point that is not on the way back along the side before it";
    return { ok: false, refusals: [{ path: at("points", doubled), value: points[doubled], why, wouldWork }] };
  }
  const radius = (i: number) => (typeof cornerRadius === "number" ? cornerRadius : cornerRadius[i]);
  const rounded = filletPolygon(points.map(([x, y], i) => ({ x, y, radius: radius(i) })));
  if (rounded.ok) {
    const names = rounded.parts.map(({ of, index }) => `${of}-${index + 1}`);
    return { ok: true, chain: rounded.chain, names };
  }
  if (typeof cornerRadius === "number") {
    const worst = rounded.misfits.reduce((a, b) => (b.largest < a.largest ? b : a));
    const why = `Corners of ${cornerRadius} mm do not fit on a side at corner-${worst.corner + 1}.`;
    const wouldWork =
      worst.largest < LEAST_RADIUS
        ? longerSides(worst.corner)
        : `a corner radius of at most ${atMost(worst.largest)}`;
    return { ok: false, refusals: [{ path: at("cornerRadius"), value: cornerRadius, why, wouldWork }] };
  }
  const refusals = rounded.misfits.map((misfit) => ({
    path: at("cornerRadius", misfit.corner),
    value: misfit.radius,
    why: `A radius of ${misfit.radius} mm at corner-${misfit.corner + 1} and its neighbour's do not fit on the side between.`,
    wouldWork:
      misfit.largest < LEAST_RADIUS
        ? longerSides(misfit.corner)
        : `at most ${atMost(misfit.largest)} here, with every other corner that is named cut down in the same way`,
  }));
  return { ok: false, refusals };
}

const longerSides = (corner: number) =>
  `longer sides at corner-${corner + 1}, or less of a turn: no radius of ${LEAST_RADIUS} mm or more fits there`;

/** Index of the first point at which the next side runs straight back over the one before, or −1. */
function doublesBack(points: readonly (readonly [number, number])[]): number {
  const count = points.length;
  return points.findIndex(([x, y], i) => {
    const [px, py] = points[(i + count - 1) % count];
    const [qx, qy] = points[(i + 1) % count];
    const cross = (x - px) * (qy - y) - (y - py) * (qx - x);
    const dot = (x - px) * (qx - x) + (y - py) * (qy - y);
    return dot < 0 && Math.abs(cross) < -1e-6 * dot;
  });
}
