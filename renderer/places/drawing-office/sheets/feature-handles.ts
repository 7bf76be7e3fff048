import type { Outline } from "../../../../core/plan/chain.ts";
import { nearest } from "../../../../core/plan/nearest.ts";
import { pointAt } from "../../../../core/plan/point-at.ts";
import { formatPath } from "../../../../core/project/problem.ts";
import type { FeatureSpec, FootprintSpec, RimPlace, ShellSpec } from "../../../../core/project/schema.ts";
import { type Block, covers, tiersOf } from "../../../../core/shell/blocks.ts";
import { type FigurePath, setting } from "../../../document/figure-path.ts";
import { zoneName } from "../../../parts/names.ts";
import { placeAt, stationOf } from "../../../tools/rim-places.ts";
import { words } from "../../../words.ts";
import { type Corner, cornerAt } from "./corner.ts";
import { dot, figureSetter, type Handle, less, onGrain, onward, type Spot, together } from "./handle.ts";

const told = words.drawing.handles;

/** From where, which way and how many times over a feature's reach is measured in the plan. */
export interface Reaching {
  readonly from: Spot;
  readonly way: Spot;
  readonly times: number;
}

/** The two sides of an inward corner of the outline, by the corner's name; null where they are not straight. */
export function planCorner(outline: Outline, id: string): Corner | null {
  const { chain, runs } = outline;
  const run = runs.find((each) => each.id === id);
  if (!run) return null;
  const before = pointAt(chain, run.from - 1);
  const after = pointAt(chain, run.from + run.length + 1);
  const det = before.tx * after.ty - before.ty * after.tx;
  if (before.curvature !== 0 || after.curvature !== 0 || det < 1e-3) return null;
  const t = ((after.x - before.x) * after.ty - (after.y - before.y) * after.tx) / det;
  const point = onward(before, { x: before.tx, y: before.ty }, t);
  return cornerAt(point, before, after);
}

/** Stations of a stretch along the rim: where it begins and how long it is, counter-clockwise, mm. */
function stretchOf(outline: Outline, from: RimPlace, to: RimPlace): { from: number; span: number } | null {
  const [a, b] = [stationOf(outline, from), stationOf(outline, to)];
  if (a === null || b === null) return null;
  const { length } = outline.chain;
  return { from: a, span: b > a ? b - a : b - a + length };
}

/** How the reach of a feature lies in the plan; null where the outline does not have its place. */
function reachingOf(outline: Outline, place: FootprintSpec): Reaching | null {
  const { extent, chain } = outline;
  const inwards = (station: number): Reaching => {
    const { x, y, tx, ty } = pointAt(chain, station);
    return { from: { x, y }, way: { x: -ty, y: tx }, times: 1 };
  };
  switch (place.kind) {
    case "end": {
      const y = -0.2 * extent.width;
      return place.end === "shallow"
        ? { from: { x: 0, y }, way: { x: 1, y: 0 }, times: 1 }
        : { from: { x: extent.length, y }, way: { x: -1, y: 0 }, times: 1 };
    }
    case "corner": {
      const corner = planCorner(outline, place.corner);
      return (
        corner && {
          from: corner.point,
          way: corner.inward,
          times: place.shape === "round" ? 1 : 1 / corner.sine,
        }
      );
    }
    case "along": {
      const stretch = stretchOf(outline, place.from, place.to);
      return stretch && inwards(stretch.from + stretch.span / 2);
    }
    case "round":
      return inwards(chain.length / 4);
  }
}

/** The handles of one feature, in the shell's plan: its ends along the rim, its whole along the rim, how far it reaches. */
export function featureHandles(shell: ShellSpec, outline: Outline, index: number): Handle[] {
  const feature = shell.features[index];
  const { place } = feature;
  const handles = reachHandles(shell, outline, index);
  if (place.kind !== "along") return handles;
  const stretch = stretchOf(outline, place.from, place.to);
  if (!stretch) return handles;
  const path = ["features", index, "place"];
  const of = zoneName(feature.id);
  const end = (key: "from" | "to", station: number): Handle => ({
    ...rimHandle(outline, station, place[key], ["shell", ...path, key]),
    id: `${feature.id} ${key}`,
    name: key === "from" ? told.start(of) : told.end(of),
  });
  const middle = stretch.from + stretch.span / 2;
  const slide = alongRim(outline, middle, (by) =>
    together(
      setting(["shell", ...path, "from"], placeAt(outline, stretch.from + by, place.from)),
      setting(["shell", ...path, "to"], placeAt(outline, stretch.from + stretch.span + by, place.to)),
    ),
  );
  return [
    end("from", stretch.from),
    end("to", stretch.from + stretch.span),
    { ...slide, id: `${feature.id} slide`, name: told.slide(of), field: formatPath(["shell", ...path]) },
    ...handles,
  ];
}

/** A handle at a rim station that moves along the rim; `slid` takes how far it was moved, mm. */
function alongRim(
  outline: Outline,
  station: number,
  slid: (by: number) => ReturnType<Handle["to"]>,
): Omit<Handle, "id" | "name" | "field"> {
  const { chain } = outline;
  const { x, y, tx, ty } = pointAt(chain, station);
  return {
    at: { x, y },
    shape: "point",
    along: { x: tx, y: ty },
    stride: 1,
    value: station,
    told: (print) => words.drawing.alongRim(print(((station % chain.length) + chain.length) % chain.length)),
    to(spot, grain) {
      const there = nearest(chain, spot.x, spot.y).station;
      const by = there - station;
      return slid(onGrain(by - Math.round(by / chain.length) * chain.length, grain));
    },
  };
}

/** A handle for one place along the rim, by its path in the project. */
export function rimHandle(outline: Outline, station: number, like: RimPlace, path: FigurePath) {
  const moving = alongRim(outline, station, (by) => setting(path, placeAt(outline, station + by, like)));
  return { ...moving, field: formatPath(path) };
}

/** One handle a tier: how far it reaches from the wall, or beyond the tread above. */
function reachHandles(shell: ShellSpec, outline: Outline, index: number): Handle[] {
  const feature = shell.features[index];
  const reaching = reachingOf(outline, feature.place);
  if (!reaching) return [];
  const { from, way, times } = reaching;
  return tiersOf(feature, "").map((tier, k, tiers): Handle => {
    const above = k > 0 ? tiers[k - 1].reach : 0;
    const path = ["features", index, ...reachKey(feature, k)];
    const set = figureSetter(shell, path);
    const value = tier.reach - above;
    return {
      id: `${feature.id} reach-${k}`,
      name:
        feature.kind === "steps" ? told.going(k + 1, zoneName(feature.id)) : told.reach(zoneName(feature.id)),
      at: onward(from, way, tier.reach * times),
      shape: "edge",
      along: way,
      stride: times,
      value,
      told: (print) => print(value),
      field: formatPath(["shell", ...path]),
      to: (spot, grain) => set(onGrain(dot(less(spot, from), way) / times - above, grain)),
    };
  });
}

function reachKey(feature: FeatureSpec, tier: number): FigurePath {
  if (feature.kind === "steps") return ["treads", tier, "going"];
  return [feature.kind === "bench" ? "width" : "reach"];
}

/** Places along a feature's reach that are looked at for its name. */
const LOOKS = 30;

export interface NamePlaces {
  /** In the middle of what is seen of the feature on the way of its reach, then ever further from there. */
  readonly on: readonly Spot[];
  /** Where it reaches to, and which way. */
  readonly end: Spot;
  readonly way: Spot;
}

/** Where a feature's name may stand in the plan, the best place first; null where the outline does not have its place. */
export function namePlaces(
  outline: Outline,
  blocks: readonly Block[],
  feature: FeatureSpec,
): NamePlaces | null {
  const reaching = reachingOf(outline, feature.place);
  if (!reaching) return null;
  const { way, times } = reaching;
  const from = feature.place.kind === "end" ? { x: reaching.from.x, y: 0 } : reaching.from;
  const tiers = tiersOf(feature, "");
  const { reach } = tiers[tiers.length - 1];
  const spotAt = (look: number) => onward(from, way, ((look + 0.5) / LOOKS) * reach * times);
  const seen = Array.from({ length: LOOKS }, (_, look) => look).filter((look) => {
    const spot = spotAt(look);
    return blocks.find((block) => covers(block, spot.x, spot.y))?.feature === feature.id;
  });
  const middle = seen.length > 0 ? (seen[0] + seen[seen.length - 1]) / 2 : LOOKS / 2;
  const outwards = seen.toSorted((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
  return { on: [middle, ...outwards].map(spotAt), end: onward(from, way, reach * times), way };
}
