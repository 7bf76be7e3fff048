import { nearest } from "../../../../core/plan/nearest.ts";
import { pointAt } from "../../../../core/plan/point-at.ts";
import { runAt } from "../../../../core/plan/rim-place.ts";
import type { OutlineSpec, Project } from "../../../../core/project/schema.ts";
import type { Recipe } from "../../../document/history.ts";
import { reshaped } from "../reshaping.ts";
import type { Drawn } from "./drawn-shell.ts";
import { less, type Spot } from "./handle.ts";

/** Outlines whose points may come and go. */
type Pointed = Extract<OutlineSpec, { kind: "polygon" | "freeform" }>;

const LEAST_POINTS = 3;
const MOST_POINTS = 60;

export const isPointed = (outline: OutlineSpec): outline is Pointed =>
  outline.kind === "polygon" || outline.kind === "freeform";

/** The point after which a new one comes at a place of the rim (plan, mm): that before the run which is nearest. */
export function pointBefore({ points }: Pointed, drawn: Drawn, spot: Spot): number {
  const { run, part } = runAt(drawn.outline, nearest(drawn.outline.chain, spot.x, spot.y).station);
  const point = Number(run.id.slice(run.id.lastIndexOf("-") + 1)) - 1;
  if (!run.id.startsWith("corner")) return point;
  // On a rounded corner it comes on that side of the corner's point on which one stands; runs go counter-clockwise.
  const turning = points.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = points[(i + 1) % points.length];
    return sum + x * nextY - nextX * y;
  }, 0);
  return part < 0.5 === turning > 0 ? point - 1 : point;
}

/** The place halfway along the rim from one point to the next, in the plan, mm. */
export function halfwayAfter(drawn: Drawn, point: number): Spot | null {
  const run = drawn.outline.runs.find(({ id }) => id === `span-${point + 1}` || id === `side-${point + 1}`);
  return run ? pointAt(drawn.outline.chain, run.from + run.length / 2) : null;
}

/**
 * Puts a point into the outline behind another one, at a place of the plan (whole mm); null where no more fit. Runs are
 * numbered by points: what is placed by them is carried over to the run that is now where it lay.
 */
export function addingPoint(project: Project, drawn: Drawn, behind: number, at: Spot): Recipe | null {
  const { outline } = project.shell;
  if (!isPointed(outline) || outline.points.length >= MOST_POINTS) return null;
  const place = behind < 0 ? outline.points.length : behind + 1;
  const own = less(at, drawn.moved);
  const points = outline.points.toSpliced(place, 0, [Math.round(own.x), Math.round(own.y)]);
  return reshaped(
    project,
    drawn,
    withPoints(outline, points, (radii) => radii.toSpliced(place, 0, radii[Math.max(0, behind)])),
  );
}

/** Takes a point out of the outline; null where fewer than three would be left. */
export function removingPoint(project: Project, drawn: Drawn, point: number): Recipe | null {
  const { outline } = project.shell;
  if (!isPointed(outline) || outline.points.length <= LEAST_POINTS) return null;
  const points = outline.points.toSpliced(point, 1);
  return reshaped(
    project,
    drawn,
    withPoints(outline, points, (radii) => radii.toSpliced(point, 1)),
  );
}

function withPoints(outline: Pointed, points: Pointed["points"], radii: (of: number[]) => number[]): Pointed {
  if (outline.kind === "freeform") return { ...outline, points };
  const { cornerRadius } = outline;
  return {
    ...outline,
    points,
    cornerRadius: Array.isArray(cornerRadius) ? radii(cornerRadius) : cornerRadius,
  };
}
