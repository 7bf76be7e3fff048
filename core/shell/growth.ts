import type { Arc, Chain, Outline } from "../plan/chain.ts";
import { cornerFigure } from "../plan/outlines/corner-figure.ts";
import { arc } from "../plan/segments.ts";
import type { OutlineSpec } from "../project/schema.ts";
import { smallestThatWorks } from "./figure-that-works.ts";
import { type Growth, radiusAt } from "./growing-corner.ts";
import { rounder } from "./loop.ts";
import type { Adjustment, Refusal } from "./shell.ts";

/** A level at which a ball rolls along the wall: the floor, or a tread. */
export interface Level {
  readonly name: string;
  /** Depth of the level near a plan point, or null where it does not reach this corner. */
  readonly depthAt: (x: number, y: number) => number | null;
  /** Radius between the wall and this level. */
  readonly radius: number;
}

/** Room beyond the bare need, mm, so that the ball's centre never reaches the corner's own centre. */
const MARGIN = 8;
/** Draft takes no growing corner below this plan radius at any depth, mm. */
const LEAST_LEFT = 5;

/** A corner that cannot grow; `corner`: the plan radius with which it need not, which may have no room in the outline. */
export interface Cramped extends Refusal {
  readonly corner?: { readonly run: string; readonly radius: number };
}

export interface Growths {
  readonly growths: readonly Growth[];
  readonly adjustments: readonly Adjustment[];
  readonly refusals: readonly Cramped[];
  /** The outline with its corners grown all the way. */
  readonly foot: Chain;
  /** Greatest sine by which a growing corner leans beyond the draft. */
  readonly lean: number;
  /** Smallest plan radius that a growing corner has at any depth, mm; Infinity when none grows. */
  readonly tightest: number;
}

/**
 * Draft closes the plan in with depth, so that a corner of radius R at the rim has only R − h·tan δ left at depth h, and
 * a cove of radius r needs r/cos δ of it. Where that is missing, the corner's radius grows from the rim down: the rim
 * stays as drawn, the corner is full enough where the first ball touches. `spec` is the outline's own, for refusals.
 */
export function growCorners(
  spec: OutlineSpec,
  outline: Outline,
  levels: readonly Level[],
  draft: number,
  rimRadius: number,
): Growths {
  const { chain, runs } = outline;
  const growths: Growth[] = [];
  const names: string[] = [];
  const adjustments: Adjustment[] = [];
  const refusals: Cramped[] = [];
  let lean = 0;
  let tightest = Infinity;
  chain.segments.forEach((s, i) => {
    if (s.kind !== "arc" || s.sweep <= 0) return;
    const name =
      runs.find((r) => inRun(r, chain.stations[i] + s.length / 2, chain.length))?.id ?? `segment ${i + 1}`;
    const { need, bottom, cause } = neededAt(s, levels, draft);
    if (need === 0) return;
    const top = Math.min(rimRadius + 10, bottom / 4);
    // The middle of the corner moves in by this much as it grows.
    const inward = (need - s.radius) * (1 / Math.max(0.2, Math.cos(Math.min(s.sweep, 2.4) / 2)) - 1);
    const slope = (1.5 * inward) / (bottom - top);
    if (!(bottom > top + 20) || slope > 1) {
      refusals.push({
        ...cornerFigure(spec, name),
        why: `${name} has a radius of ${Math.round(s.radius)} mm, the radius of ${Math.round(radiusOf(levels, cause))} mm at ${cause} needs a plan corner of ${Math.ceil(need)} mm, and there is no depth above it in which the corner could grow`,
        ...radiusIn(name, enoughAt(s, levels, draft)),
      });
      return;
    }
    const growing = (from: number): Growth => ({ segment: i, from, to: need, top, bottom });
    const left = leastLeft(growing(s.radius), draft);
    if (left < LEAST_LEFT) {
      const enough = (from: number) => leastLeft(growing(from), draft) >= LEAST_LEFT;
      const radius = smallestThatWorks(s.radius, Math.ceil(need), enough) ?? Math.ceil(need);
      refusals.push({
        ...cornerFigure(spec, name),
        why: `${name} has a radius of ${Math.round(s.radius)} mm, which the draft takes up sooner than the corner can grow to the ${Math.ceil(need)} mm that ${cause} needs`,
        ...radiusIn(name, radius),
      });
      return;
    }
    lean = Math.max(lean, Math.min(0.75, slope));
    tightest = Math.min(tightest, left);
    growths.push(growing(s.radius));
    names.push(name);
    adjustments.push({
      id: `corner/${name}`,
      what: `plan radius of ${name}, growing from the rim to its foot`,
      asked: s.radius,
      used: need,
      unit: "mm",
      why: `draft and the radius at ${cause} need that from ${Math.round(bottom)} mm below the rim on`,
    });
  });
  // Each corner grows between its own two neighbours: all grown together must leave every one of them a length.
  const to = new Map(growths.map((g) => [g.segment, g.to]));
  const foot = rounder(chain, (i) => to.get(i) ?? 0);
  if (foot?.segments.length !== chain.segments.length) {
    const worst = growths.reduce((a, b) => (a.to > b.to ? a : b));
    const [run, radius] = [names[growths.indexOf(worst)], Math.ceil(worst.to)];
    refusals.push({
      ...cornerFigure(spec, run),
      why: `corners that must grow to ${radius} mm at their foot find no room between their neighbours`,
      wouldWork: `arcs of at least ${radius} mm there`,
      corner: { run, radius },
    });
  }
  return { growths, adjustments, refusals, foot: foot ?? chain, lean, tightest };
}

const radiusIn = (run: string, radius: number) => ({
  wouldWork: `a radius of ${radius} mm at ${run}`,
  corner: { run, radius },
});

/**
 * Plan radius that the levels beside a corner need of it, mm (0: less than it has), which needs the most, and how far below the
 * rim the first ball touches.
 */
function neededAt(corner: Arc, levels: readonly Level[], draft: number) {
  let need = 0;
  let bottom = Infinity;
  let cause = "";
  for (const level of levels) {
    let deepest = -Infinity;
    let highest = Infinity;
    for (let k = 0; k <= 4; k++) {
      const a = corner.start + (corner.sweep * k) / 4;
      const depth = level.depthAt(
        corner.cx + corner.radius * Math.cos(a),
        corner.cy + corner.radius * Math.sin(a),
      );
      if (depth === null) continue;
      deepest = Math.max(deepest, depth);
      highest = Math.min(highest, depth);
    }
    if (deepest === -Infinity) continue;
    const wanted = deepest * Math.tan(draft) + level.radius / Math.cos(draft) + MARGIN;
    if (wanted <= corner.radius) continue;
    if (wanted > need) {
      need = wanted;
      cause = level.name;
    }
    bottom = Math.min(bottom, highest - level.radius - MARGIN);
  }
  return { need, bottom, cause };
}

/** Rounds in which a corner's radius is brought to what it needs: drawn larger it lies elsewhere, where the floor may be deeper. */
const ROUNDS = 20;

/** A radius with which a corner need not grow, whole mm. */
function enoughAt(corner: Arc, levels: readonly Level[], draft: number): number {
  const middle = corner.start + corner.sweep / 2;
  const inward = 1 / Math.max(0.2, Math.cos(corner.sweep / 2));
  let drawn = corner;
  for (let round = 0; round < ROUNDS; round++) {
    const { need } = neededAt(drawn, levels, draft);
    if (need === 0) break;
    const radius = Math.ceil(need);
    const away = (radius - corner.radius) * inward;
    const [cx, cy] = [corner.cx - away * Math.cos(middle), corner.cy - away * Math.sin(middle)];
    drawn = arc(cx, cy, radius, corner.start, corner.sweep);
  }
  return drawn.radius;
}

/** The smallest plan radius that a growing corner has on its way down, mm: what has grown less what the draft took. */
function leastLeft(growth: Growth, draft: number): number {
  const { top, bottom } = growth;
  let least = Infinity;
  for (let k = 0; k <= 64; k++) {
    const depth = top + ((bottom - top) * k) / 64;
    least = Math.min(least, radiusAt(growth, depth) - depth * Math.tan(draft));
  }
  return least;
}

const radiusOf = (levels: readonly Level[], name: string): number =>
  levels.find((l) => l.name === name)?.radius ?? 0;

function inRun(run: { from: number; length: number }, station: number, total: number): boolean {
  const along = station - run.from - Math.floor((station - run.from) / total) * total;
  return along <= run.length;
}
