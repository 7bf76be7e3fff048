import type { Outline, Run } from "../../../../core/plan/chain.ts";
import { nearest } from "../../../../core/plan/nearest.ts";
import { runAt } from "../../../../core/plan/rim-place.ts";
import type { FeatureSpec, FittingSpec, FootprintSpec, ShellSpec } from "../../../../core/project/schema.ts";
import { radiiOf } from "../../../../core/shell/radii.ts";
import type { Recipe } from "../../../document/history.ts";
import { zoneName } from "../../../parts/names.ts";
import { placeAt } from "../../../tools/rim-places.ts";
import { words } from "../../../words.ts";
import { startingFeature, startingFitting } from "../figures/starting.ts";
import { planCorner } from "./feature-handles.ts";
import { floorParts } from "./fitting-handles.ts";
import type { Spot } from "./handle.ts";

export const featureKinds = ["steps", "ledge", "bench", "seat"] as const;
export const fittingKinds = ["skimmer", "return", "light", "suction"] as const;
export type Addable = (typeof featureKinds)[number] | (typeof fittingKinds)[number];

/** What would be put in where one points, with its place in words. */
export type Offer = { readonly where: string } & (
  | { readonly of: "feature"; readonly spec: FeatureSpec }
  | { readonly of: "fitting"; readonly spec: FittingSpec }
);

/** A corner is meant within this of its point, mm. */
const CORNER = 650;
/** Practice: how long a bench or a block of steps is at first, mm, and how much of a straight run it takes at most. */
const SPAN: Record<FeatureSpec["kind"], number> = { steps: 1200, ledge: 2400, bench: 1800, seat: 900 };
const MOST_OF_RUN = 0.8;
/** Rim distances that are pointed at come to whole ones of these, mm. */
const GRAIN = 10;

const isFitting = (kind: Addable): kind is FittingSpec["kind"] => fittingKinds.some((each) => each === kind);

/** What would be put in at a place of the plan, mm; a fitting of the wall at a depth, where one points at the wall itself. */
export function offerAt(
  shell: ShellSpec,
  outline: Outline,
  kind: Addable,
  spot: Spot,
  depth?: number,
): Offer {
  const { station } = nearest(outline.chain, spot.x, spot.y);
  if (isFitting(kind))
    return kind === "suction" ? onFloor(shell, outline, spot) : onWall(shell, outline, kind, station, depth);
  const corner = outline.runs.find(({ id }) => {
    const found = planCorner(outline, id);
    return found && Math.hypot(found.point.x - spot.x, found.point.y - spot.y) < CORNER;
  });
  if (corner && kind !== "bench") return inCorner(shell, kind, corner);
  const { run } = runAt(outline, station);
  const end = endOf(outline, run);
  if (end && (kind === "steps" || kind === "ledge")) return atEnd(shell, kind, end);
  return alongRim(shell, outline, kind, station);
}

/** Every place that one would think of, one after the other, for the keys. */
export function offersInTurn(shell: ShellSpec, outline: Outline, kind: Addable): Offer[] {
  const { runs, extent } = outline;
  if (kind === "suction") {
    return [0.75, 0.5, 0.25].map((part) => onFloor(shell, outline, { x: part * extent.length, y: 0 }));
  }
  const middles = runs.filter((run) => run.length > 600).map((run) => run.from + run.length / 2);
  if (isFitting(kind)) return middles.map((station) => onWall(shell, outline, kind, station));
  const ends =
    kind === "steps" || kind === "ledge"
      ? (["shallow", "deep"] as const).map((end) => atEnd(shell, kind, end))
      : [];
  const along = middles.map((station) => alongRim(shell, outline, kind, station));
  const corners = runs
    .filter(({ id }) => planCorner(outline, id) !== null)
    .map((run) => inCorner(shell, kind, run));
  return kind === "bench" ? [...along, ...corners] : [...ends, ...corners, ...along];
}

/** Puts what is offered into the project. */
export const putting =
  (offer: Offer): Recipe =>
  (draft) => {
    if (offer.of === "feature") draft.shell.features.push(offer.spec);
    else draft.shell.fittings.push(offer.spec);
  };

function feature(shell: ShellSpec, kind: FeatureSpec["kind"], place: FootprintSpec, where: string): Offer {
  return { of: "feature", where, spec: { ...startingFeature(kind, shell), place } };
}

const atEnd = (shell: ShellSpec, kind: FeatureSpec["kind"], end: "shallow" | "deep") =>
  feature(shell, kind, { kind: "end", end }, words.drawing.adding.end(end));

const inCorner = (shell: ShellSpec, kind: FeatureSpec["kind"], { id }: Run) =>
  feature(
    shell,
    kind,
    { kind: "corner", corner: id, shape: "round" },
    words.drawing.adding.corner(zoneName(id)),
  );

/** Along the rim about a station; on a straight run it stays within that run. */
function alongRim(shell: ShellSpec, outline: Outline, kind: FeatureSpec["kind"], station: number): Offer {
  const { run, distance } = runAt(outline, station);
  const straight = run.kind === "straight";
  const span = Math.min(SPAN[kind], MOST_OF_RUN * (straight ? run.length : outline.chain.length / 2));
  const middle = straight ? Math.min(run.length - span / 2, Math.max(span / 2, distance)) : distance;
  const from = run.from + Math.round((middle - span / 2) / GRAIN) * GRAIN;
  const place: FootprintSpec = {
    kind: "along",
    from: placeAt(outline, from),
    to: placeAt(outline, from + span),
    endRadius: 150,
  };
  return feature(shell, kind, place, words.drawing.adding.along(zoneName(run.id)));
}

function onWall(
  shell: ShellSpec,
  outline: Outline,
  kind: FittingSpec["kind"],
  station: number,
  pointed?: number,
): Offer {
  const { run, distance } = runAt(outline, station);
  const starting = startingFitting(kind, shell);
  const usual = "wall" in starting.at ? starting.at.depth : 0;
  // A skimmer hangs on the water line; what is pointed at above a fitting's own size is the rim.
  const free = pointed !== undefined && kind !== "skimmer" && pointed > starting.height;
  // Nearer to the rim it would reach into the radius there.
  const least = Math.ceil(radiiOf(shell).rim + starting.height / 2);
  const depth = free ? Math.max(least, Math.round(pointed / GRAIN) * GRAIN) : usual;
  const wall = placeAt(outline, run.from + Math.round(distance / GRAIN) * GRAIN);
  return {
    of: "fitting",
    where: words.drawing.adding.along(zoneName(run.id)),
    spec: { ...starting, at: { wall, depth } },
  };
}

function onFloor(shell: ShellSpec, outline: Outline, { x, y }: Spot): Offer {
  const whole = (mm: number) => Math.round(mm / GRAIN) * GRAIN;
  const floor = floorParts(outline, whole(x), whole(y));
  return {
    of: "fitting",
    where: words.drawing.adding.floor,
    spec: { ...startingFitting("suction", shell), at: { floor } },
  };
}

/** The end of the pool that a straight run closes off, if it does. */
function endOf({ chain, extent }: Outline, run: Run): "shallow" | "deep" | null {
  if (run.kind !== "straight") return null;
  const index = chain.stations.findIndex((station) => station >= run.from - 1e-6);
  const segment = chain.segments[index % chain.segments.length];
  if (segment.kind !== "line" || Math.abs(segment.ux) > 0.3) return null;
  if (Math.max(segment.ax, segment.bx) < 0.1 * extent.length) return "shallow";
  return Math.min(segment.ax, segment.bx) > 0.9 * extent.length ? "deep" : null;
}
