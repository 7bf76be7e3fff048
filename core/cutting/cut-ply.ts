import type { Fit } from "../cloth/fit.ts";
import type { ClothFitter } from "../cloth/twins.ts";
import type { ClothZone } from "../cloth/zone.ts";
import type { LaidBand } from "../layup/laid.ts";
import { boxOf } from "../packing/ring.ts";
import type { Material, ShopSpec } from "../project/schema.ts";
import { fieldNear } from "../surface/bricks.ts";
import { type FlatStrip, unrollStrip } from "../surface/strip.ts";
import { longestLine, plyDoubts } from "./band-doubts.ts";
import { type FittedPart, fitPart, liesWhole } from "./fit-part.ts";
import { foresightAlong } from "./foresight.ts";
import { clearOf, divide, type Joint, type JointRules } from "./joints.ts";
import type { CutDoubt } from "./kit.ts";
import { lengthsBetween, type Ruler, rulerOf } from "./ruler.ts";

/** A stretch at least this long to each side of a joint should be straight, mm. */
const STRAIGHT_REACH = 50;
/** Up to this part of the handling length a piece may be over it because the ruler is not exact. */
const SLIGHT = 0.01;
/** A ply is divided anew so many times for pieces that do not lie as they were foretold to; what then is left is split. */
const MOST_ROUNDS = 6;
const DEGREE = Math.PI / 180;

export interface FlatPart extends FittedPart {
  readonly flat: FlatStrip;
}

export interface CutPly {
  readonly joints: readonly Joint[];
  /** In order, the one that covers the zone's beginning first. */
  readonly parts: readonly FlatPart[];
  readonly doubts: readonly CutDoubt[];
}

/**
 * Divides a ply of a band, `left` and `right` mm wide, into pieces of cloth over the joints of the ply below. Where pieces lie is foretold first; those that turn out
 * not to lie teach better, and the ply is divided again.
 */
export function cutPly(
  { strip }: LaidBand,
  [left, right]: readonly [number, number],
  { lockingDeg, rollWidth }: Material & { readonly kind: "woven" },
  shop: ShopSpec,
  below: readonly Joint[],
  fitZone: ClothFitter,
): CutPly {
  const ruler = rulerOf(strip, left, right);
  const near = fieldNear(strip.field);
  const zoneOf = (a: number, b: number): ClothZone => {
    return { near, strip, from: strip.from + a, to: strip.from + b, left, right };
  };
  const locking = lockingDeg * DEGREE;
  const foresight = foresightAlong(ruler, zoneOf, locking, rollWidth);
  const { lies, isFound, learn } = foresight;
  const rules = {
    lap: shop.lap,
    stagger: shop.jointStagger,
    below,
    awkward: unevenness(ruler),
    lies,
    isFound,
  };
  const unrolled = ([from, to]: readonly [number, number]) =>
    unrollStrip(strip, strip.from + from, strip.from + to, left, right);
  /** Whole pieces that were laid, by their stations. */
  const laid = new Map<string, Fit>();
  const keyOf = ({ from, to }: ClothZone) => `${from} ${to}`;
  // Pieces are laid without their trim, which a person has to handle, too.
  const handlingLength = Math.max(1, shop.handlingLength - 2 * shop.trim);
  /** Whether it is only as cloth, slanting where it is sheared, that a piece is longer than can be handled. */
  const isTooLong = (fit: Fit, stretch: readonly [number, number]) =>
    lengthOf(fit) > handlingLength + 1e-6 && longestLine(unrolled(stretch)) <= handlingLength + 1e-6;
  const learnFrom = (stretch: readonly [number, number]): boolean => {
    const part = zoneOf(...stretch);
    if (laid.has(keyOf(part))) return false;
    // A cut is thought of last, where no division will do.
    const fit = fitZone(part, 0);
    const lies = liesWhole(fit, part, locking, rollWidth);
    if (fit && lies) laid.set(keyOf(part), fit);
    return learn(...stretch, fit, lies && fit !== null && !isTooLong(fit, stretch));
  };
  let division: readonly Joint[] = [];
  let whole: ReturnType<typeof stretches> = [];
  for (let round = 0; round <= MOST_ROUNDS; round++) {
    division = divideExactly(ruler, rules, handlingLength, (stretch) => longestLine(unrolled(stretch)));
    whole = stretches(ruler, division);
    if (!whole.map(learnFrom).includes(true)) break;
  }
  const partRules = {
    ...rules,
    zoneOf,
    fitZone: (part: ClothZone) => laid.get(keyOf(part)) ?? fitZone(part),
    locking,
    rollWidth,
  };
  const fitted = whole.map(([from, to]) => fitPart(ruler, partRules, from, to));
  const joints = [...division, ...fitted.flatMap((part) => part.joints)].sort((a, b) => a.at - b.at);
  const parts = inOrder(
    ruler,
    fitted.flatMap((each) => each.parts),
  ).map((part) => ({ ...part, flat: unrolled([part.from, part.to]) }));
  const doubts = plyDoubts(
    joints,
    unrolled,
    joints.map((joint) => clearOf(ruler, joint, below)),
    parts.map(({ flat, fit }) => Math.max(longestLine(flat), fit ? lengthOf(fit) : 0) + 2 * shop.trim),
    shop,
  );
  return { joints, parts, doubts };
}

/** How much of the length of a roll a piece takes, mm. */
const lengthOf = ({ outline }: Fit): number => boxOf(outline).width;

/**
 * Divides a ply so that no piece, measured exactly by `measured`, passes the handling length (mm) if that can be: a ruler is straight between the strip's
 * samples.
 */
function divideExactly(
  ruler: Ruler,
  rules: Omit<JointRules, "longest">,
  handlingLength: number,
  measured: (stretch: readonly [from: number, to: number]) => number,
): readonly Joint[] {
  let aim = handlingLength;
  for (let round = 0; ; round++) {
    const { joints, longest } = divide(ruler, { ...rules, longest: aim });
    // Pieces that cannot be as short as asked are further over than that.
    const slight = longest > aim ? SLIGHT * handlingLength : Infinity;
    const overs = stretches(ruler, joints).map((stretch) => measured(stretch) - handlingLength);
    const over = Math.max(0, ...overs.filter((by) => by < slight));
    if (over <= 1e-6 || round === 4) return joints;
    aim -= 2 * over;
  }
}

/** Parts of a ply in order, within the first turn of a closed zone, the one that covers its beginning first. */
function inOrder({ length, closed }: Ruler, parts: readonly FittedPart[]): FittedPart[] {
  if (!closed) return [...parts];
  const turned = parts.map((part) =>
    part.from < length ? part : { ...part, from: part.from - length, to: part.to - length },
  );
  const first = turned.findIndex(({ from, to }) => from === 0 || to > length);
  return [...turned.slice(first), ...turned.slice(0, first)];
}

/** How unevenly the lines run near a joint: 0 where the band is straight, 1 where one edge gains the joint's own length. */
function unevenness(ruler: Ruler): (from: number, to: number) => number {
  return (from, to) => {
    const middle = (from + to) / 2;
    const reach = Math.max(STRAIGHT_REACH, (to - from) / 2);
    const [least, most] = lengthsBetween(ruler, middle - reach, middle + reach);
    return (most - least) / (2 * reach);
  };
}

/** Stations from and to of each piece, in order; a closed zone's first piece covers its beginning. */
function stretches(ruler: Ruler, joints: readonly Joint[]): (readonly [number, number])[] {
  const { length, closed } = ruler;
  if (!closed) {
    const starts = [0, ...joints.map((joint) => joint.from)];
    const ends = [...joints.map((joint) => joint.to), length];
    return starts.map((from, i) => [from, ends[i]]);
  }
  const pieces = joints.map((joint, i): readonly [number, number] => {
    const next = joints[(i + 1) % joints.length];
    const to = next.to + (i + 1 < joints.length ? 0 : length);
    return joint.from < 0 ? [joint.from + length, to + length] : [joint.from, to];
  });
  // The last piece runs past the end of the stations unless a joint stands at the beginning itself.
  return joints[0].at > 0 ? [pieces[pieces.length - 1], ...pieces.slice(0, -1)] : pieces;
}
