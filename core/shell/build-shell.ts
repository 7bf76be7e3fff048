import { buildOutline } from "../plan/build-outline.ts";
import type { Outline } from "../plan/chain.ts";
import { chainBounds } from "../plan/chain-bounds.ts";
import { makeChain } from "../plan/make-chain.ts";
import { startingShop } from "../project/defaults.ts";
import type { ShellSpec } from "../project/schema.ts";
import type { EdgeCut } from "../surface/field.ts";
import { MOST_OPERANDS } from "./active-set.ts";
import { checkApart, largestBeside } from "./apart-radii.ts";
import type { Block, Surroundings } from "./blocks.ts";
import { Drafted, Floor, Lip } from "./faces.ts";
import { type Clear, fitFeatures, trialsOf } from "./fit-features.ts";
import { fitWall } from "./fit-wall.ts";
import { checkFittings } from "./fitting-places.ts";
import { type FloorShape, shapeFloor, VALLEY } from "./floor-profile.ts";
import type { Growths } from "./growth.ts";
import { checkNoses, checkTreads } from "./level-treads.ts";
import { shiftSegments } from "./loop.ts";
import { checkNearMisses, checkRisers, runsBeside } from "./near-misses.ts";
import { type Node, Plane, Remembered } from "./node.ts";
import { found, PlanDistance } from "./plan-distance.ts";
import { betweenBlocks, type Radii, radiiOf } from "./radii.ts";
import { Rolled } from "./rolled.ts";
import type { Face, Refusal, Shell, ShellResult } from "./shell.ts";
import { fieldOf } from "./shell-field.ts";
import { checkSlots, narrowestSlot } from "./slots.ts";
import { checkCoping, checkLevels, hiddenBlocks } from "./validity.ts";
import { fitValleys, type Valleys } from "./valleys.ts";

/**
 * Builds a shell from its figures: outline, wall, floor and features as named faces, joined into one field by
 * rolling-ball blends. What cannot be built is refused with every reason found and figures that would work; what had to
 * be changed is listed in `adjustments`. `laid`: the laminate that lies under the reinforcement, under which the surface should
 * be whole too. Lengths mm.
 */
export function buildShell(spec: ShellSpec, laid = startingShop.laidThickness): ShellResult {
  const drawn = buildOutline(spec.outline);
  if (!drawn.ok) return { ok: false, refusals: drawn.refusals };
  const { outline } = drawn;
  const floor = shapeFloor(spec, outline);
  if (Array.isArray(floor)) return { ok: false, refusals: floor };

  const draft = (spec.draftDeg * Math.PI) / 180;
  const radii = radiiOf(spec);
  const here: Surroundings = { outline, radii, draft, deepest: floor.deepest };
  const clear: Clear = (blocks, there, feature) => {
    const ofIt = (top: string) => top.startsWith(`${feature}/`);
    return !runsBeside(outline, blocks, ofIt) && !narrowestSlot(there, floor, blocks, ofIt);
  };
  const built = fitFeatures(spec.features, here, clear);
  const trials = trialsOf(spec.features, here, clear);
  const { blocks } = built;
  const growth = fitWall(spec, floor, blocks, here);
  const refusals: Refusal[] = [
    ...checkCoping(spec, outline, radii.rim),
    ...checkFittings(spec.fittings, here, floor, blocks),
    ...checkRisers(spec.features),
    ...checkNearMisses(spec.features, outline, blocks, radii, trials),
    ...checkLevels(spec, outline, floor, blocks, radii),
    ...checkApart(spec.features, blocks, radii),
    ...checkTreads(spec.features, radii, trials),
    ...checkNoses(spec),
    ...built.refusals,
    ...growth.refusals,
  ];
  if (refusals.length > 0) return { ok: false, refusals };
  const slots = checkSlots(here, floor, blocks, trials);
  if (slots.length > 0) return { ok: false, refusals: slots };

  const faces = facesOf(spec, blocks);
  const wall = PlanDistance.of(outline.chain, growth.growths, draft);
  const joined = joinFaces(spec, outline, floor, blocks, radii, faces, wall, growth, draft, laid);
  if (Array.isArray(joined)) return { ok: false, refusals: joined };
  const box = chainBounds(outline.chain);
  const out = spec.coping.flange;
  const bounds = {
    min: [box.minX - out - 5, box.minY - out - 5, -floor.deepest - 60] as const,
    max: [box.maxX + out + 5, box.maxY + out + 5, 25] as const,
  };
  const shell: Shell = {
    spec,
    outline,
    faces,
    field: fieldOf(joined.root, faces, bounds, edgeCut(spec, outline), spec.coping.flange),
    adjustments: [
      ...floor.adjustments,
      ...built.adjustments,
      ...growth.adjustments,
      ...joined.valleys.adjustments,
      ...hiddenBlocks(outline, floor, blocks),
    ],
  };
  return { ok: true, shell };
}

function facesOf(spec: ShellSpec, blocks: readonly Block[]): Face[] {
  return [
    { id: "wall", kind: "wall", feature: "" },
    { id: "floor", kind: "floor", feature: "" },
    ...blocks.flatMap((b): Face[] => [
      { id: b.top, kind: "tread", feature: b.feature },
      { id: b.riser, kind: "riser", feature: b.feature },
    ]),
    { id: "coping/top", kind: "coping", feature: "" },
    ...(spec.coping.edge.kind === "flat" ? [] : [{ id: "coping/lip", kind: "lip", feature: "" } as const]),
  ];
}

/**
 * Joins the faces. Every pair of faces that meets in a re-entrant edge gets its own fillet first, each with a radius no
 * smaller than the common `join` radius; one ball of that radius then rolls over all of them at once and rounds where
 * the fillets meet. In this order no fillet disturbs another and the order of the features does not matter. The rim
 * and the lip, which turn outwards, come last.
 */
function joinFaces(
  spec: ShellSpec,
  outline: Outline,
  floor: FloorShape,
  blocks: readonly Block[],
  radii: Radii,
  faces: readonly Face[],
  wallPlan: PlanDistance,
  { lean, tightest }: Growths,
  draft: number,
  laid: number,
): Joined | Refusal[] {
  const count = faces.length;
  const index = (id: string) => faces.findIndex((f) => f.id === id);
  const roll = (operands: readonly Node[], radius: number, sign: 1 | -1 = 1, limit?: number) =>
    new Rolled(operands, radius, sign, count, limit);
  // Balls that roll along the foot of a riser ask its nose from as far away as they are large.
  const asked = 1.3 * Math.max(radii.cove, ...spec.radii.pairs.map((p) => p.radius), spec.radii.step) + 40;
  const nose = (operands: readonly Node[], radius: number) =>
    new Rolled(operands, radius, -1, count, radius + asked);

  const wall = Drafted.of(wallPlan, draft, 1, 0, index("wall"), count, lean);
  const ground = new Remembered(floorNode(spec, outline, floor, index("floor"), count));
  const solids = blocks.map((b) => {
    const tread = new Plane(0, 0, -1, -b.depth, index(b.top), count);
    const riser = Drafted.of(PlanDistance.of(b.footprint), draft, -1, -b.depth, index(b.riser), count);
    const withNose = (radius: number) => nose([tread, riser], radius);
    return { block: b, tread, riser, node: new Remembered(withNose(b.nose)), withNose };
  });
  const valleys = fitValleys(solids, { outline: outline.chain, node: wall }, ground, radii, laid);

  const fillets: Fillet[] = [
    { faces: [wall, ground], radius: radii.cove, build: () => roll([wall, ground], radii.cove) },
  ];
  const pair = (a: Node, b: Node, radius: number) =>
    fillets.push({ faces: [a, b], radius, build: () => roll([a, b], radius) });
  solids.forEach((s, i) => {
    const tread = radii.step(s.block.top, "wall");
    const riser = radii.step(s.block.riser, "wall");
    if (tread === riser) pair(wall, s.node, valleys.againstWall(s.block));
    else {
      // Deeper in the ground than the nose's ball reaches neither fillet matters.
      const under = (face: Node, radius: number) =>
        roll([wall, face], radius, 1, radius + s.block.nose + WITHIN_NOSE);
      const build = () => nose([under(s.tread, tread), under(s.riser, riser)], s.block.nose);
      const radius = largestBeside(s.block.nose, tread, riser);
      fillets.push({ faces: [wall, s.node], radius, apart: true, build });
    }
    pair(ground, s.node, betweenBlocks(radii, s.block, null));
    for (const other of solids.slice(i + 1)) pair(s.node, other.node, valleys.radius(s.block, other.block));
  });
  // No larger than the wall's own corners on their way down: its ball would round them too, where two fillets end at them.
  const join = Math.min(...fillets.map((f) => f.radius), UNDER_CORNER * tightest);
  // Pairs with the common radius itself are left to the common ball.
  const own = fillets.filter((f) => f.radius > join || f.apart);
  const alone = [wall, ground, ...solids.map((s) => s.node)].filter(
    (n) => !own.some((f) => f.faces.includes(n)),
  );
  if (valleys.refusals.length > 0) return [...valleys.refusals];
  if (own.length + alone.length > MOST_OPERANDS) return [tooManyTops(blocks)];
  const water = roll([...own.map((f) => f.build()), ...alone], join);

  const { edge, flange } = spec.coping;
  const top = new Plane(0, 0, -1, 0, index("coping/top"), count);
  const rim = roll([water, top], radii.rim, -1);
  if (edge.kind === "flat") return { root: rim, valleys };
  const outer = shiftSegments(outline.chain.segments, -flange);
  if (!outer) throw new Error("the coping's outer edge was checked and must exist");
  const face = new Drafted(PlanDistance.of(makeChain(outer, true)), 0, -1, 0, index("coping/lip"), count);
  const lip = Lip.of(face, -lipDrop(spec) - BELOW_LIP, index("coping/lip"), count);
  return { root: roll([rim, lip], edge.radius, -1), valleys };
}

interface Joined {
  readonly root: Node;
  readonly valleys: Valleys;
}

/** Treads, benches, ledges and seats that can always stand in one shell: each has a fillet with the wall, the floor and every other. */
const MOST_TOPS = Math.floor((Math.sqrt(8 * MOST_OPERANDS + 1) - 3) / 2);

function tooManyTops(blocks: readonly Block[]): Refusal {
  return {
    path: "shell.features",
    value: blocks.length,
    why: `${blocks.length} treads, benches, ledges and seats are more than can be rounded against each other`,
    wouldWork: `at most ${MOST_TOPS} in all, each tread of a flight counted`,
  };
}

/** The common ball is smaller by this than the corners that it must leave as they are. */
const UNDER_CORNER = 0.95;
/** How far beyond the ball of a nose the fillets that it rounds are still exact, mm. */
const WITHIN_NOSE = 20;

/** How far below its edge cut the lip goes on before the ground closes under it, mm: out of reach of every offset and blend. */
const BELOW_LIP = 150;

/** How far the coping's outer edge reaches down from the rim, mm. */
function lipDrop(spec: ShellSpec): number {
  const { edge } = spec.coping;
  return edge.kind === "dropped" ? edge.drop : edge.kind === "rolled" ? edge.radius : 0;
}

/**
 * A pair of faces with a fillet of its own, mm. `apart`: its radius differs between tread and riser; then `radius` is that of the
 * largest ball that leaves it as it is.
 */
interface Fillet {
  readonly faces: readonly Node[];
  readonly radius: number;
  readonly apart?: boolean;
  readonly build: () => Node;
}

function floorNode(spec: ShellSpec, outline: Outline, floor: FloorShape, face: number, count: number): Node {
  const main = new Floor(PlanDistance.of(floor.profile), floor.fall, face, count);
  const { hopper } = spec.floor;
  if (!hopper) return main;
  const slope = (hopper.slopeDeg * Math.PI) / 180;
  const sin = Math.sin(slope);
  const cos = Math.cos(slope);
  const half = outline.extent.width / 2;
  // Ground below the line that falls from `depthAtWall` at the side towards the middle.
  const side = (way: 1 | -1) =>
    new Plane(0, way * sin, -cos, -cos * hopper.depthAtWall - sin * half, face, count);
  return new Rolled([main, side(1), side(-1)], floor.breakRadius / VALLEY, 1, count);
}

/** Where the shell ends: below the lip, or at the edge of a flat flange. */
function edgeCut(spec: ShellSpec, outline: Outline): EdgeCut {
  const { flange, edge } = spec.coping;
  const gradient = new Float64Array(3);
  return edge.kind === "flat"
    ? cutBeside(PlanDistance.of(outline.chain), flange, -Infinity, gradient)
    : cutBeside(PlanDistance.of(outline.chain), flange / 2, lipDrop(spec), gradient);
}

/** What lies more than `out` mm outside the outline and more than `drop` mm below the rim is cut away. */
function cutBeside(plan: PlanDistance, out: number, drop: number, gradient: Float64Array): EdgeCut {
  return {
    gradient,
    evaluate(x, y, z) {
      const d = plan.at(x, y, 0);
      const below = -drop - z < d - out;
      gradient[0] = below ? 0 : found.gx;
      gradient[1] = below ? 0 : found.gy;
      gradient[2] = below ? -1 : 0;
      return below ? -drop - z : d - out;
    },
    within: (x, y, _z, radius) => cutBeside(plan.within(x, y, 0, radius), out, drop, gradient),
  };
}
