import type { OutlineSpec } from "../../project/schema.ts";
import { filletPolygon } from "../fillet-polygon.ts";
import { at, atMost, type Drawn } from "./drawn.ts";

type Rectangle = Extract<OutlineSpec, { kind: "rectangle" }>;

const CORNERS = ["shallow-right", "deep-right", "deep-left", "shallow-left"] as const;
/** Side i leaves corner i. */
const SIDES = ["right", "deep", "left", "shallow"] as const;

/**
 * A rectangle with a radius for each corner. Runs: `shallow`, `shallow-right`, `right`, `deep-right`, `deep`,
 * `deep-left`, `left`, `shallow-left`. A side that its two corners use up wholly is no run.
 */
export function drawRectangle(spec: Rectangle): Drawn {
  const { length, width, cornerRadius } = spec;
  const radii = typeof cornerRadius === "number" ? CORNERS.map(() => cornerRadius) : cornerRadius;
  const points = [
    [0, -width / 2],
    [length, -width / 2],
    [length, width / 2],
    [0, width / 2],
  ];
  const rounded = filletPolygon(points.map(([x, y], i) => ({ x, y, radius: radii[i] })));
  if (rounded.ok) {
    const names = rounded.parts.map(({ of, index }) => (of === "side" ? SIDES : CORNERS)[index]);
    return { ok: true, chain: rounded.chain, names };
  }
  if (typeof cornerRadius === "number") {
    const largest = Math.min(...rounded.misfits.map((misfit) => misfit.largest));
    const why = `Two corners of ${cornerRadius} mm do not fit on a side of ${Math.min(length, width)} mm.`;
    const wouldWork = `a corner radius of at most ${atMost(largest)}`;
    return { ok: false, refusals: [{ path: at("cornerRadius"), value: cornerRadius, why, wouldWork }] };
  }
  const refusals = rounded.misfits.map(({ corner, radius, largest }) => ({
    path: at("cornerRadius", corner),
    value: radius,
    why: `The ${CORNERS[corner]} corner's radius of ${radius} mm and its neighbour's do not fit on the side between them.`,
    wouldWork: `at most ${atMost(largest)} here, if every corner named is made to fit in the same way`,
  }));
  return { ok: false, refusals };
}
