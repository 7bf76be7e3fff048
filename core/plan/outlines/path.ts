import type { OutlineSpec } from "../../project/schema.ts";
import { chainFromBulges } from "../arcs.ts";
import type { Chain } from "../chain.ts";
import { kinks } from "../make-chain.ts";
import { segmentEnd } from "../segments.ts";
import { at, type Drawn, type OutlineRefusal } from "./drawn.ts";

type Path = Extract<OutlineSpec, { kind: "path" }>;

/** A path whose end is within this of its start is closed; the gap is rounding in the file, mm. */
const CLOSED = 0.01;
/** Shorter parts are slips, mm. */
const LEAST_PART = 1;
/** Largest change of direction at a joint: a plug's edge is not faired better than this. */
const LARGEST_KINK_DEG = 0.5;
/** An arc turns no further in the project file. */
const LARGEST_BULGE = 20;

/**
 * An outline of given lines and arcs. Runs: `segment-i`, counted from 1 in the path's order, whichever way round it runs.
 * Joints may turn by up to half a degree; such a small kink is kept as it is given.
 */
export function drawPath({ start, segments }: Path): Drawn {
  const points = [start, ...segments.map((segment) => segment.to)];
  const refusals: OutlineRefusal[] = segments.flatMap(({ to }, i) => {
    const length = Math.hypot(to[0] - points[i][0], to[1] - points[i][1]);
    if (length >= LEAST_PART) return [];
    const why = `segment-${i + 1} begins and ends at the same place (${Number(length.toPrecision(2))} mm apart).`;
    const wouldWork = `an end at least ${LEAST_PART} mm from its start; a whole circle takes two arcs`;
    return [{ path: `${at("segments", i)}.to`, value: to, why, wouldWork }];
  });
  const last = segments.length - 1;
  const end = segments[last].to;
  const gap = Math.hypot(end[0] - start[0], end[1] - start[1]);
  if (gap > CLOSED) {
    const why = `The path is not closed: segment-${last + 1} ends ${gap.toFixed(2)} mm from the start.`;
    const wouldWork = `an end at the start, [${start.join(", ")}]`;
    refusals.push({ path: `${at("segments", last)}.to`, value: end, why, wouldWork });
  }
  if (refusals.length > 0) return { ok: false, refusals };

  const vertices = segments.map((segment, i) => ({
    x: points[i][0],
    y: points[i][1],
    bulge: segment.kind === "arc" ? segment.bulge : 0,
  }));
  const chain = chainFromBulges(vertices, true);
  const kinked = kinks(chain, (LARGEST_KINK_DEG * Math.PI) / 180).map((kink) => tellKink(chain, kink));
  if (kinked.length > 0) return { ok: false, refusals: kinked };
  return { ok: true, chain, names: segments.map((_, i) => `segment-${i + 1}`) };
}

/** A kink is told with the bulge that would let the segment after it leave smoothly. */
function tellKink(chain: Chain, { segment, turn }: { segment: number; turn: number }): OutlineRefusal {
  const count = chain.segments.length;
  const before = (segment + count - 1) % count;
  const joint = segmentEnd(chain.segments[before]);
  const end = segmentEnd(chain.segments[segment]);
  const dx = end.x - joint.x;
  const dy = end.y - joint.y;
  const toChord = Math.atan2(joint.tx * dy - joint.ty * dx, joint.tx * dx + joint.ty * dy);
  const bulge = Math.tan(toChord / 2);
  const smooth =
    Math.abs(bulge) > LARGEST_BULGE
      ? ""
      : `; as an arc with the bulge ${bulge.toFixed(6)} segment-${segment + 1} would leave smoothly`;
  const degrees = ((turn * 180) / Math.PI).toFixed(2);
  return {
    path: at("segments", segment),
    value: `${degrees}°`,
    why: `The outline has a kink of ${degrees}° where segment-${before + 1} ends and segment-${segment + 1} begins.`,
    wouldWork: `a turn of at most ${LARGEST_KINK_DEG}°${smooth}, or put an arc that touches both between them`,
  };
}
