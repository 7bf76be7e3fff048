import { buildOutline } from "../../../core/plan/build-outline.ts";
import type { Outline } from "../../../core/plan/chain.ts";
import { nearest } from "../../../core/plan/nearest.ts";
import { pointAt } from "../../../core/plan/point-at.ts";
import { runAt } from "../../../core/plan/rim-place.ts";
import { type Carry, carryPlaces } from "../../../core/project/carry-places.ts";
import type { FeatureSpec, OutlineSpec, Project, ShellSpec } from "../../../core/project/schema.ts";
import type { Recipe } from "../../document/history.ts";
import { placeAt, stationOf } from "../../tools/rim-places.ts";
import { planCorner } from "./sheets/feature-handles.ts";
import { less, onward, type Spot } from "./sheets/handle.ts";

/** An outline and where it lies against another one: `moved` is taken off its plan before the two are compared, mm. */
export interface Laid {
  readonly outline: Outline;
  readonly moved: Spot;
}

/** Another outline, with what is placed by the rim carried over to where it lay. */
export function reshaped(project: Project, before: Laid, outline: OutlineSpec): Recipe {
  const built = buildOutline(outline);
  // An outline that cannot be built says so itself; its places are told when it can be again.
  const carried = built.ok ? carryPlaces(project, carrier(before, built)) : project;
  return taking(carried, outline);
}

/**
 * An outline of another kind in place of the one that there is: both begin at the shallow end and lie about the centre line. What
 * stood in a corner that has none there goes to the end that it is nearer to.
 */
export function ofAnotherKind(project: Project, outline: OutlineSpec): Recipe {
  const [before, after] = [project.shell.outline, outline].map(buildOutline);
  if (!before.ok || !after.ok) return taking(project, outline);
  const moved = { x: 0, y: 0 };
  const carry = carrier({ outline: before.outline, moved }, { outline: after.outline, moved });
  const { shell, layup } = carryPlaces(project, carry);
  const features = shell.features.map((feature) => inCornerOrAtEnd(feature, after.outline));
  return taking({ shell: { ...shell, features }, layup }, outline);
}

function inCornerOrAtEnd(feature: FeatureSpec, outline: Outline): FeatureSpec {
  const { place } = feature;
  if (place.kind !== "corner" || planCorner(outline, place.corner)) return feature;
  const run = outline.runs.find(({ id }) => id === place.corner);
  const { x } = pointAt(outline.chain, run ? run.from + run.length / 2 : 0);
  return { ...feature, place: { kind: "end", end: x < outline.extent.length / 2 ? "shallow" : "deep" } };
}

/** Ids of the features that stood in a corner before, and do not any more. */
export function outOfCorners(before: ShellSpec, after: ShellSpec): string[] {
  const inCorner = ({ features }: ShellSpec) =>
    features.filter(({ place }) => place.kind === "corner").map(({ id }) => id);
  const still = inCorner(after);
  return inCorner(before).filter((id) => !still.includes(id));
}

const taking =
  ({ shell, layup }: Pick<Project, "shell" | "layup">, outline: OutlineSpec): Recipe =>
  (draft) => {
    draft.shell = { ...shell, outline };
    draft.layup = [...layup];
  };

/** Every place goes to the place of the new rim that is nearest to it. */
function carrier(before: Laid, after: Laid): Carry {
  const stationAfter = (station: number): number => {
    const there = onward(less(pointAt(before.outline.chain, station), before.moved), after.moved, 1);
    return nearest(after.outline.chain, there.x, there.y).station;
  };
  return {
    place(place) {
      const station = stationOf(before.outline, place);
      return station === null ? place : placeAt(after.outline, stationAfter(station), place);
    },
    run(id) {
      const run = before.outline.runs.find((each) => each.id === id);
      return run ? runAt(after.outline, stationAfter(run.from + run.length / 2)).run.id : id;
    },
  };
}
