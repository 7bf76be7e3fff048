/**
 * What is meant to be one, or to be two, and is neither: faces a few mm apart, which the radii round away without a word. Each
 * is refused with the figures that would work. Lengths mm.
 */
import type { Outline } from "../plan/chain.ts";
import { blankNearest, nearest } from "../plan/nearest.ts";
import type { FeatureSpec } from "../project/schema.ts";
import { limits } from "../project/shell-schema.ts";
import { type Block, covers } from "./blocks.ts";
import type { Trials } from "./fit-features.ts";
import type { Refusal } from "./shell.ts";
import { edgePoints } from "./validity.ts";

/** A lower riser is rounded away by the usual nose above it and the radius at its foot, mm. Practice: nobody's foot finds it. */
const LEAST_RISER = 25;
/** Faces of two features this near to each other, or nearer, are a slip, mm: it is within the tolerance of the mould. */
const NEAR = 5;
/** Treads no further apart than this in plan meet, mm. */
const BESIDE = 60;
/** Risers that turn from each other by less than about 8° run side by side. */
const SIDE_BY_SIDE = 0.99;

/** Treads of one flight must be far enough apart that there is a riser between them. */
export function checkRisers(features: readonly FeatureSpec[]): Refusal[] {
  return features.flatMap((feature, f): Refusal[] => {
    if (feature.kind !== "steps") return [];
    return feature.treads.flatMap(({ depth }, k): Refusal[] => {
      if (k === 0) return [];
      const above = feature.treads[k - 1].depth;
      const high = depth - above;
      if (high >= LEAST_RISER) return [];
      return [
        {
          path: `shell.features[${f}].treads[${k}].depth`,
          value: depth,
          why: `${feature.id}/riser-${k} is only ${tenths(high)} mm high, which its nose and the radius at its foot round away`,
          wouldWork:
            above + LEAST_RISER <= limits.treadDepth[1]
              ? `at least ${above + LEAST_RISER} mm`
              : `a depth of at most ${depth - LEAST_RISER} mm of ${feature.id}/tread-${k}`,
        },
      ];
    });
  });
}

/** Treads and risers of different features that nearly coincide, each pair once. */
export function checkNearMisses(outline: Outline, blocks: readonly Block[], trials: Trials): Refusal[] {
  return pairs(blocks).flatMap(([a, b]): Refusal[] => {
    const tops = nearTops(outline, a, b);
    if (tops) return tops;
    const apart = besideRiser(outline, a, b);
    if (apart === undefined) return [];
    const clear = (tried: readonly Block[]) =>
      !pairs(tried).some(
        ([p, q]) => (p.top === b.top || q.top === b.top) && besideRiser(outline, p, q) !== undefined,
      );
    return [
      {
        ...b.reaches,
        why: `${b.riser} runs ${tenths(apart)} mm beside ${a.riser}: what is left between them is no tread`,
        wouldWork:
          trials.otherReach(b, b, clear) ??
          trials.otherReach(a, b, clear) ??
          `a figure that brings them onto one line, or at least ${LEAST_RISER} mm apart`,
      },
    ];
  });
}

/** Every two blocks of different features, the one that comes first in the file first. */
const pairs = (blocks: readonly Block[]): (readonly [Block, Block])[] =>
  blocks.flatMap((b, i) =>
    blocks.slice(0, i).flatMap((a) => (a.feature === b.feature ? [] : [[a, b] as const])),
  );

function nearTops(outline: Outline, a: Block, b: Block): Refusal[] | undefined {
  const apart = Math.abs(a.depth - b.depth);
  if (apart < 1e-6 || apart > NEAR + 1e-6) return undefined;
  const beside = (from: Block, to: Block) =>
    edgePoints(from, outline, BESIDE).some(({ x, y }) => covers(to, x, y, BESIDE));
  if (!beside(a, b) && !beside(b, a)) return undefined;
  return [
    {
      path: `${b.path}.depth`,
      value: b.depth,
      why: `${b.top} lies ${tenths(apart)} mm ${b.depth > a.depth ? "below" : "above"} ${a.top}, which it meets: neither level with it nor a step`,
      wouldWork: `${a.depth} mm, or a depth that differs from that by at least ${LEAST_RISER} mm`,
    },
  ];
}

/** Filled wherever the nearest of a chain is asked for. */
const near = blankNearest();

/** How near a riser runs beside another, mm; undefined where it does not. */
function besideRiser(outline: Outline, a: Block, b: Block): number | undefined {
  if (Math.abs(a.depth - b.depth) < 1e-6) return undefined;
  for (const { x, y, nx, ny } of edgePoints(b, outline, BESIDE)) {
    nearest(a.footprint, x, y, near);
    const apart = Math.abs(near.distance);
    if (apart < 0.1 || apart > NEAR + 1e-6 || near.nx * nx + near.ny * ny < SIDE_BY_SIDE) continue;
    return apart;
  }
  return undefined;
}

const tenths = (mm: number) => Math.round(mm * 10) / 10;
