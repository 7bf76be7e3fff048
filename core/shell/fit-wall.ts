import type { Chain, Outline } from "../plan/chain.ts";
import { narrows } from "../plan/clearance.ts";
import { nearest } from "../plan/nearest.ts";
import type { Figure } from "../plan/outlines/corner-figure.ts";
import { runAt } from "../plan/rim-place.ts";
import type { ShellSpec } from "../project/schema.ts";
import { limits } from "../project/shell-schema.ts";
import { type Block, covers, placeBlocks, type Surroundings } from "./blocks.ts";
import { isDrawable } from "./drawable.ts";
import { largestThatWorks } from "./figure-that-works.ts";
import type { FloorShape } from "./floor-profile.ts";
import { type Growths, growCorners, type Level } from "./growth.ts";
import type { Radii } from "./radii.ts";
import type { Refusal } from "./shell.ts";

/** So much of a level is left between the wall's radii on both sides, mm. */
const LEAST_LEVEL = 100;

/**
 * Brings the wall from the rim, as drawn, down to the floor: corners grow as far as they must, and between walls that face
 * each other a floor or a tread must be left everywhere. What does not go is refused, with the largest cove, draft or step
 * radius with which it does.
 */
export function fitWall(
  spec: ShellSpec,
  floor: FloorShape,
  blocks: readonly Block[],
  here: Surroundings,
): Growths {
  const { outline, radii, draft } = here;
  const attempt = (standing: readonly Block[], tried: Radii, lean: number): Growths => {
    const levels = levelsOf(floor, standing, tried);
    const growths = growCorners(spec.outline, outline, levels, lean, tried.rim);
    if (growths.refusals.length > 0) return growths;
    return { ...growths, refusals: checkLevelLeft(outline, growths.foot, levels, lean) };
  };
  const fitted = attempt(blocks, radii, draft);
  if (fitted.refusals.length === 0) return fitted;
  // With other figures treads may find room that had none.
  const works = (tried: Radii, lean = draft): boolean => {
    const standing = placeBlocks(spec.features, { ...here, radii: tried, draft: lean }).blocks;
    return attempt(standing, tried, lean).refusals.length === 0;
  };
  const also =
    told(`${radii.called("wall", "floor", "cove")} of at most # mm`, limits.cove[0], radii.cove, (cove) =>
      works({ ...radii, cove }),
    ) ??
    told("a draft of at most #°", 0, spec.draftDeg, (deg) => works(radii, (deg * Math.PI) / 180)) ??
    told("a step radius of at most # mm", limits.step[0], radii.general, (most) =>
      works({ ...radii, step: (a, b) => radii.given(a, b) ?? most }),
    ) ??
    // Where pairs have radii of their own, the general one does not change them.
    told("radii to the wall of at most # mm", limits.step[0], limits.pair[1], (most) =>
      works({ ...radii, step: (a, b) => Math.min(most, radii.step(a, b)) }),
    );
  const refusals = fitted.refusals.map(({ corner, wouldWork, ...refusal }): Refusal => {
    const wider = !corner || isDrawable(spec.outline, corner.run, corner.radius) ? [wouldWork] : [];
    const offers = also === null ? wider : [...wider, also];
    return { ...refusal, wouldWork: offers.join(", or ") || `longer sides at ${corner?.run}` };
  });
  return { ...fitted, refusals };
}

/** What else would work, in words with the largest figure that does; null for none. */
function told(words: string, least: number, most: number, works: (figure: number) => boolean): string | null {
  const figure = largestThatWorks(least, most, works);
  return figure === null ? null : words.replace("#", `${figure}`);
}

/** A level, with the figure of the file that sets its radius to the wall. */
interface FiguredLevel extends Level {
  readonly figure: Figure;
}

/** Every level at which a ball rolls along the wall. */
function levelsOf(floor: FloorShape, blocks: readonly Block[], radii: Radii): FiguredLevel[] {
  return [
    {
      name: "the floor",
      depthAt: floor.depthAt,
      radius: radii.cove,
      figure: radii.figure("wall", "floor", "cove"),
    },
    ...blocks.map((b) => {
      const larger = radii.step(b.top, "wall") < radii.step(b.riser, "wall") ? b.riser : b.top;
      const radius = radii.step(larger, "wall");
      return {
        name: b.top,
        depthAt: (x: number, y: number) => (covers(b, x, y, radius) ? b.depth : null),
        radius,
        figure: radii.figure(larger, "wall", "step"),
      };
    }),
  ];
}

/** `foot`: the outline with its corners grown. Each wall takes depth · tan δ and its radius over cos δ of the level that is seen. */
function checkLevelLeft(
  outline: Outline,
  foot: Chain,
  levels: readonly FiguredLevel[],
  draft: number,
): Refusal[] {
  let worst: Refusal[] = [];
  let most = 0;
  for (const { across, x, y } of narrows(foot)) {
    const depthOf = (level: FiguredLevel) => level.depthAt(x, y) ?? Infinity;
    const level = levels.reduce((a, b) => (depthOf(b) < depthOf(a) ? b : a));
    const depth = depthOf(level);
    const need = 2 * (depth * Math.tan(draft) + level.radius / Math.cos(draft)) + LEAST_LEVEL;
    if (need - across <= most) continue;
    most = need - across;
    const { run } = runAt(outline, nearest(outline.chain, x, y).station);
    worst = [
      {
        ...level.figure,
        why: `beside ${run.id} the pool is ${Math.floor(across)} mm across, and draft and radii on both sides leave less than ${LEAST_LEVEL} mm of ${level.name} there, ${Math.round(depth)} mm deep`,
        wouldWork: `at least ${Math.ceil(need)} mm across`,
      },
    ];
  }
  return worst;
}
