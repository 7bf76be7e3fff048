import type { Chain } from "../plan/chain.ts";
import { reverseChain } from "../plan/make-chain.ts";
import { limits } from "../project/shell-schema.ts";
import type { Block } from "./blocks.ts";
import { smallestThatWorks } from "./figure-that-works.ts";
import { largestBall, type Side, SMALLEST } from "./largest-ball.ts";
import type { Node } from "./node.ts";
import { betweenBlocks, type Radii } from "./radii.ts";
import type { Adjustment, Refusal } from "./shell.ts";

/** A tier of a feature as it stands in the ground: tread and riser with the nose between them. */
export interface Solid {
  readonly block: Block;
  readonly node: Node;
  /** The same with another nose, mm. */
  readonly withNose: (radius: number) => Node;
}

/** The wall round the pool. */
export interface Wall {
  /** At the rim, the pool on its left. */
  readonly outline: Chain;
  readonly node: Node;
}

export interface Valleys {
  /** Radius between two tiers as built, mm. */
  readonly radius: (a: Block, b: Block) => number;
  /** Radius between a riser and the wall as built, mm. */
  readonly againstWall: (b: Block) => number;
  readonly adjustments: readonly Adjustment[];
  readonly refusals: readonly Refusal[];
}

/** A ridge sharper than this, mm, would be a crease of the gel coat itself. */
const BARE_RIDGE = 2;
/** Where there is room, so much of the ridge's radius is left on the lay-up surface, mm. */
const LAID_RIDGE = 1;

/** A side by the name of its face, and the same with another nose, mm. */
interface Named extends Side {
  readonly face: string;
  readonly withNose: (radius: number) => Node;
}

/**
 * Where the risers of two features meet in a valley in plan, or a riser and the wall, the ball that rounds the valley rolls
 * out of it over the noses, over both at once if the treads lie nearly level. A ball too large for that would leave a
 * crease: the radius between the two is made smaller there, by name, or refused when no ball at all passes. The ridge stays
 * round under `laid` mm of laminate too, unless only a ball too small to be made would leave it so.
 */
export function fitValleys(
  solids: readonly Solid[],
  wall: Wall,
  ground: Node,
  radii: Radii,
  laid: number,
): Valleys {
  const fitted = new Map<string, number>();
  const adjustments: Adjustment[] = [];
  const refusals: Refusal[] = [];
  const fitOne = (a: Solid, b: Named, beside: readonly Node[], below: number, asked: number): void => {
    const side = sideOf(a);
    const under = largestBall(side, b, beside, below, asked, Math.max(BARE_RIDGE, laid + LAID_RIDGE));
    const used = under < SMALLEST ? largestBall(side, b, beside, below, asked, BARE_RIDGE) : under;
    if (used >= asked) return;
    if (used < SMALLEST) {
      refusals.push(noBall(a, b, beside, below));
      return;
    }
    fitted.set(`${side.face}|${b.face}`, used);
    adjustments.push({
      id: `radius/${side.face}|${b.face}`,
      what: `radius between ${side.face} and ${b.face}`,
      asked,
      used,
      unit: "mm",
      why: "no larger ball rolls out of the valley in which they meet over the noses of their treads",
    });
  };
  const rim: Named = {
    face: "wall",
    chain: reverseChain(wall.outline),
    node: wall.node,
    withNose: () => wall.node,
  };
  solids.forEach((a, i) => {
    const apart = (others: readonly Solid[]) => solids.filter((s) => !others.includes(s)).map((s) => s.node);
    const foot = radii.step(a.block.riser, "wall");
    // With another radius above than below, the nose rolls over the two fillets instead.
    if (foot === radii.step(a.block.top, "wall")) {
      fitOne(a, rim, [ground, ...apart([a])], a.block.depth + limits.nose[1], foot);
    }
    for (const b of solids.slice(i + 1)) {
      if (a.block.feature === b.block.feature) continue;
      const below = Math.max(a.block.depth, b.block.depth) + limits.nose[1];
      const beside = [wall.node, ground, ...apart([a, b])];
      fitOne(a, sideOf(b), beside, below, betweenBlocks(radii, a.block, b.block));
    }
  });
  return {
    radius: (a, b) => fitted.get(`${a.riser}|${b.riser}`) ?? betweenBlocks(radii, a, b),
    againstWall: (b) => fitted.get(`${b.riser}|wall`) ?? radii.step(b.riser, "wall"),
    adjustments,
    refusals,
  };
}

const sideOf = ({ block, node, withNose }: Solid): Named => ({
  face: block.riser,
  chain: block.footprint,
  node,
  withNose,
});

function noBall(a: Solid, b: Named, beside: readonly Node[], below: number): Refusal {
  const { riser, depth, path } = a.block;
  const passesWith = (radius: number) => {
    const side = { ...sideOf(a), node: a.withNose(radius) };
    return (
      largestBall(side, { ...b, node: b.withNose(radius) }, beside, below, SMALLEST, BARE_RIDGE) >= SMALLEST
    );
  };
  const nose = smallestThatWorks(a.block.nose, limits.nose[1], passesWith);
  return {
    path: `${path}.depth`,
    value: depth,
    why: `${riser} and ${b.face} meet in a valley so sharp that not even a ball of ${SMALLEST} mm rolls out of it over the noses of their treads, at ${depth} mm`,
    wouldWork:
      nose !== null
        ? `noses of at least ${nose} mm, or faces that meet more squarely`
        : "faces that meet at 90° or more",
  };
}
