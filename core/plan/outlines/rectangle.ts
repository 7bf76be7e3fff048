import type { OutlineSpec } from "../../project/schema.ts";
import { filletPolygon } from "../fillet-polygon.ts";
import { at, atLeast, atMost, type Drawn } from "./drawn.ts";

type Rectangle = Extract<OutlineSpec, { kind: "rectangle" }>;
type Stadium = Extract<OutlineSpec, { kind: "stadium" }>;
type RoundEnded = Extract<OutlineSpec, { kind: "round-ended" }>;
type Four<T> = readonly [T, T, T, T];

export const CORNERS = ["shallow-right", "deep-right", "deep-left", "shallow-left"] as const;
/** Side i leaves corner i. */
const SIDES = ["right", "deep", "left", "shallow"] as const;

/**
 * A rectangle with a radius for each corner. Runs: `shallow`, `shallow-right`, `right`, `deep-right`, `deep`,
 * `deep-left`, `left`, `shallow-left`. A side that its two corners use up wholly is no run.
 */
export function drawRectangle(spec: Rectangle): Drawn {
  const { length, width, cornerRadius } = spec;
  const one = typeof cornerRadius === "number";
  const radii: Four<number> = one ? [cornerRadius, cornerRadius, cornerRadius, cornerRadius] : cornerRadius;
  const rounded = roundRectangle(length, width, radii);
  if (rounded.ok) {
    const names = rounded.parts.map(({ of, index }) => (of === "side" ? SIDES : CORNERS)[index]);
    return { ok: true, chain: rounded.chain, names };
  }
  if (one) {
    const largest = Math.min(...rounded.misfits.map((misfit) => misfit.largest));
    const why = `Two corners of ${cornerRadius} mm do not fit on a side of ${Math.min(length, width)} mm.`;
    const wouldWork = `a corner radius of at most ${atMost(largest)}`;
    return { ok: false, refusals: [{ path: at("cornerRadius"), value: cornerRadius, why, wouldWork }] };
  }
  const refusals = rounded.misfits.map(({ corner, radius, largest }) => ({
    path: at("cornerRadius", corner),
    value: radius,
    why: `The ${CORNERS[corner]} corner's radius of ${radius} mm and its neighbour's do not fit on the side between them.`,
    wouldWork: `at most ${atMost(largest)} here, with every other corner that is named cut down in the same way`,
  }));
  return { ok: false, refusals };
}

/** Two half circles and two straight sides. Runs: `shallow`, `right`, `deep`, `left`; as long as wide, it is a circle. */
export function drawStadium({ length, width }: Stadium): Drawn {
  if (length < width) {
    const why = `A stadium has a half circle at each end, so it cannot be wider (${width} mm) than it is long (${length} mm).`;
    const wouldWork = `a width of at most ${atMost(length)}, or a length of at least ${atLeast(width)}`;
    return { ok: false, refusals: [{ path: at("width"), value: width, why, wouldWork }] };
  }
  const round = width / 2;
  return drawEnds(length, width, [round, round, round, round], ["shallow", "deep", "deep", "shallow"]);
}

/** A half circle at one end, two corners at the other. Runs as of a rectangle, with the round end as one curved run. */
export function drawRoundEnded({ length, width, roundEnd, cornerRadius }: RoundEnded): Drawn {
  const round = width / 2;
  const room = Math.min(round, length - round);
  if (cornerRadius > room) {
    const why =
      room < round
        ? `The half circle of ${round} mm and corners of ${cornerRadius} mm are longer than the pool (${length} mm).`
        : `Two corners of ${cornerRadius} mm do not fit on a side of ${width} mm.`;
    const wouldWork =
      room < 25
        ? `a length of at least ${atLeast(round + cornerRadius)}`
        : `a corner radius of at most ${atMost(room)}`;
    return { ok: false, refusals: [{ path: at("cornerRadius"), value: cornerRadius, why, wouldWork }] };
  }
  const corner = cornerRadius;
  return roundEnd === "deep"
    ? drawEnds(
        length,
        width,
        [corner, round, round, corner],
        ["shallow-right", "deep", "deep", "shallow-left"],
      )
    : drawEnds(
        length,
        width,
        [round, corner, corner, round],
        ["shallow", "deep-right", "deep-left", "shallow"],
      );
}

/** A rectangle whose radii are known to fit. The two quarters of a round end go by one name, and so make one run. */
function drawEnds(length: number, width: number, radii: Four<number>, corners: Four<string>): Drawn {
  const rounded = roundRectangle(length, width, radii);
  if (!rounded.ok)
    throw new RangeError(`A ${length} × ${width} mm outline has no room for the radii ${radii}.`);
  const names = rounded.parts.map(({ of, index }) => (of === "side" ? SIDES : corners)[index]);
  return { ok: true, chain: rounded.chain, names };
}

function roundRectangle(length: number, width: number, radii: Four<number>) {
  const half = width / 2;
  return filletPolygon([
    { x: 0, y: -half, radius: radii[0] },
    { x: length, y: -half, radius: radii[1] },
    { x: length, y: half, radius: radii[2] },
    { x: 0, y: half, radius: radii[3] },
  ]);
}
