import { buildOutline } from "../plan/build-outline.ts";
import type { Outline } from "../plan/chain.ts";
import { stretchPath } from "../plan/stretch-path.ts";
import { type Carry, carryPlaces } from "../project/carry-places.ts";
import { checkProject } from "../project/parse.ts";
import type { Problem } from "../project/problem.ts";
import type { FloorSpec, OutlineSpec, Project, RimPlace, ShellSpec } from "../project/schema.ts";
import { shapeFloor } from "./floor-profile.ts";

/** The size of a model: length and width of the rim, depth of its floor where that is deepest, mm. */
export interface ModelSize {
  readonly length: number;
  readonly width: number;
  readonly depth: number;
}

export type Resized =
  | { readonly ok: true; readonly project: Project }
  | { readonly ok: false; readonly problems: readonly string[] };

/** The size of a shell as it is drawn; null where its outline cannot be. */
export function sizeOfModel(shell: ShellSpec): ModelSize | null {
  const built = buildOutline(shell.outline);
  if (!built.ok) return null;
  const { length, width } = built.outline.extent;
  return { length, width, depth: depthOf(shell, built.outline) };
}

/** The floor's greatest depth, mm: beyond its last station it slopes on. That of its stations where it cannot be shaped. */
function depthOf(shell: ShellSpec, outline: Outline): number {
  const shaped = shapeFloor(shell, outline);
  return "deepest" in shaped ? shaped.deepest : Math.max(...shell.floor.stations.map(({ depth }) => depth));
}

/**
 * The same model in another size, with its lay-up carried along. The rule:
 *
 * - the outline stretches along and across; its radii stay, of a path of lines and arcs those of the corners between lines;
 * - stations of the floor keep their part of the length; the shallowest depth stays, the floor's deepest place comes to the depth asked
 *   for, and those between keep their share (a floor asked to be shallower than that is level);
 * - treads, goings, benches, ledges and seats keep their sizes, since people do; fittings theirs; all keep their part of their
 *   run of the rim, whether it is told as a part or as a distance;
 * - zones stay with what they lie on and keep their widths, pitches and margins.
 *
 * Plan figures come to whole millimetres. Problems are sentences that say which figure has left its limits.
 */
export function anotherSize(project: Project, size: ModelSize, name: string): Resized {
  const { shell } = project;
  const before = buildOutline(shell.outline);
  const now = sizeOfModel(shell);
  if (!before.ok || !now) return { ok: false, problems: ["The outline of this model cannot be built."] };
  const stretch: Stretch = { along: size.length / now.length, across: size.width / now.width };
  const outline = outlineIn(shell.outline, stretch, size);
  if (!hasSize(outline, size)) return { ok: false, problems: [noPath(shell.outline, now, size)] };
  const after = buildOutline(outline);
  const place = after.ok ? carrier(before.outline, after.outline) : (same: RimPlace) => same;
  const carried = carryPlaces(project, { place, run: (id) => id });
  const resized: Project = {
    ...project,
    ...carried,
    name,
    shell: withDepth({ ...carried.shell, outline }, after.ok ? after.outline : null, stretch, size.depth),
  };
  const checked = checkProject(resized);
  if (checked.ok) return { ok: true, project: checked.project };
  return { ok: false, problems: checked.problems.map(({ sentence }: Problem) => sentence) };
}

interface Stretch {
  readonly along: number;
  readonly across: number;
}

const whole = Math.round;

/** Rounds in which a rim that swings beyond its points is brought to its size, and how near, mm. */
const ROUNDS = 8;
const NEAR = 1;

/**
 * The outline in another size. A freeform rim swings beyond its points, and arcs go where arcs can, so both are stretched until the
 * rim itself has the size. A path that cannot be stretched so far stays as it is.
 */
export function outlineIn(outline: OutlineSpec, stretch: Stretch, size: Size): OutlineSpec {
  let { along, across } = stretch;
  let made = stretched(outline, stretch, size);
  for (let round = 0; made && round < ROUNDS; round++) {
    const built = buildOutline(made);
    if (!built.ok) break;
    const { length, width } = built.outline.extent;
    if (Math.abs(length - size.length) <= NEAR && Math.abs(width - size.width) <= NEAR) break;
    along *= size.length / length;
    across *= size.width / width;
    made = stretched(outline, { along, across }, size);
  }
  return made ?? outline;
}

type Size = Pick<ModelSize, "length" | "width">;

/** Whether a path came to the size that was asked for. Other outlines do, or are refused later by the figure that is in the way. */
function hasSize(outline: OutlineSpec, { length, width }: Size): boolean {
  if (outline.kind !== "path") return true;
  const built = buildOutline(outline);
  if (!built.ok) return false;
  const { extent } = built.outline;
  return Math.abs(extent.length - length) <= 2 * NEAR && Math.abs(extent.width - width) <= 2 * NEAR;
}

/** Halvings of the way from the size that a path has to the one that it cannot have. */
const HALVINGS = 12;

/** Says that a path cannot be stretched to a size, and the size nearest to it on the way there that it can. */
function noPath(outline: OutlineSpec, now: Size, wanted: Size): string {
  const part = (t: number): Size => ({
    length: whole(now.length + t * (wanted.length - now.length)),
    width: whole(now.width + t * (wanted.width - now.width)),
  });
  const goes = (size: Size) =>
    hasSize(
      outlineIn(outline, { along: size.length / now.length, across: size.width / now.width }, size),
      size,
    );
  let [low, high] = [0, 1];
  for (let round = 0; round < HALVINGS; round++) {
    const middle = (low + high) / 2;
    if (goes(part(middle))) low = middle;
    else high = middle;
  }
  const told = ({ length, width }: Size) => `${whole(length)} mm long and ${whole(width)} mm wide`;
  const why = "its lines and arcs would no longer run smoothly into each other";
  const cannot = `The outline's path cannot be ${told(wanted)}: ${why}`;
  const best = part(low);
  if (low > 0 && (best.length !== whole(now.length) || best.width !== whole(now.width)))
    return `${cannot}; ${told(best)} would work.`;
  const even = Math.sqrt((wanted.length / now.length) * (wanted.width / now.width));
  const grown = { length: whole(even * now.length), width: whole(even * now.width) };
  return goes(grown)
    ? `${cannot}. It only grows and shrinks evenly; ${told(grown)} would work.`
    : `${cannot}; only ${told(now)}, as it is, would work.`;
}

/** The outline stretched; null where a path cannot be. */
function stretched(outline: OutlineSpec, { along, across }: Stretch, size: Size): OutlineSpec | null {
  const point = ([x, y]: readonly [number, number]): [number, number] => [
    whole(x * along),
    whole(y * across),
  ];
  const { length, width } = size;
  switch (outline.kind) {
    case "rectangle":
    case "stadium":
    case "round-ended":
      return { ...outline, length, width };
    case "ell":
      return {
        ...outline,
        length,
        width,
        cutLength: whole(outline.cutLength * along),
        cutWidth: whole(outline.cutWidth * across),
      };
    case "polygon":
    case "freeform":
      return { ...outline, points: outline.points.map(point) };
    case "path":
      return stretchPath(outline, along, across);
  }
}

/**
 * A shell whose floor's deepest place has a depth: its stations are set until it has, since it may lie beyond the last of them.
 * Where setting them deeper does not help, because the sides of a hopper meet above them, the deepest station has that depth.
 */
function withDepth(shell: ShellSpec, outline: Outline | null, stretch: Stretch, depth: number): ShellSpec {
  const withStation = (deepest: number) => ({
    ...shell,
    floor: floorOf(shell.floor, stretch, whole(deepest)),
  });
  const plain = withStation(depth);
  const offOf = (made: ShellSpec) => (outline ? depth - depthOf(made, outline) : 0);
  let [made, station, off] = [plain, depth, offOf(plain)];
  for (let round = 0; Math.abs(off) > NEAR && round < ROUNDS; round++) {
    station += off;
    made = withStation(station);
    const now = offOf(made);
    if (Math.abs(now) >= Math.abs(off)) return Math.abs(off) > 2 * NEAR ? plain : made;
    off = now;
  }
  return made;
}

function floorOf(floor: FloorSpec, { along }: Stretch, deepest: number): FloorSpec {
  const depths = floor.stations.map(({ depth }) => depth);
  const [shallow, deep] = [Math.min(...depths), Math.max(...depths)];
  const least = Math.min(shallow, deepest);
  const inShare = (depth: number) =>
    deep > shallow ? whole(least + ((depth - shallow) / (deep - shallow)) * (deepest - least)) : deepest;
  const { hopper } = floor;
  return {
    ...floor,
    stations: floor.stations.map(({ at, depth }) => ({ at: whole(at * along), depth: inShare(depth) })),
    ...(hopper && { hopper: { ...hopper, depthAtWall: Math.min(hopper.depthAtWall, deepest) } }),
  };
}

/** Places told by part stay as they are; those told by distance keep their part of their run. */
function carrier(before: Outline, after: Outline): Carry["place"] {
  const lengthOf = (outline: Outline, id: string) => outline.runs.find((run) => run.id === id)?.length;
  return (place) => {
    if (!("distance" in place)) return place;
    const [was, is] = [lengthOf(before, place.run), lengthOf(after, place.run)];
    if (was === undefined || is === undefined) return place;
    // Not past the end of the new run by rounding.
    return { run: place.run, distance: Math.min(whole((place.distance / was) * is), Math.floor(is + 1e-6)) };
  };
}
