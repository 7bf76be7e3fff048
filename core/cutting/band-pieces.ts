import type { Fit } from "../cloth/fit.ts";
import { clothFitter } from "../cloth/twins.ts";
import type { ClothZone } from "../cloth/zone.ts";
import type { LaidBand } from "../layup/laid.ts";
import type { Material, ShopSpec } from "../project/schema.ts";
import { fieldNear } from "../surface/bricks.ts";
import { type FlatStrip, unrollStrip } from "../surface/strip.ts";
import { longestLine, plyDoubts, tooWide, unfitness } from "./band-doubts.ts";
import { type FittedPart, fitPart } from "./fit-part.ts";
import { flatPiece, type Mark, plainPiece } from "./flat-piece.ts";
import { apart, divide, type Joint } from "./joints.ts";
import type { Piece } from "./kit.ts";
import { letters } from "./letters.ts";
import { cornersOfLine } from "./line-corners.ts";
import { lengthsBetween, type Ruler, rulerOf } from "./ruler.ts";

/** A stretch at least this long to each side of a joint should be straight, mm. */
const STRAIGHT_REACH = 50;
/** Up to this part of the handling length a piece may be over it because the ruler is not exact. */
const SLIGHT = 0.01;
/** Spacing of the nets on which pieces are laid, mm: what cloth does over the width of a hand. */
const NET_SPACING = 30;

export type Woven = Material & { readonly kind: "woven" };

export interface BandPieces {
  readonly pieces: readonly Piece[];
  readonly doubts: readonly string[];
}

const DEGREE = Math.PI / 180;

/**
 * Pieces of cloth of a band or stroke, ply after ply from the shell outwards, each ply's from the zone's beginning on, laid as woven cloth and
 * drawn flat. They are named by zone, ply and place: `foot/2c` is the third piece of the second ply of `foot`. In a closed zone the piece
 * that covers its beginning is `a`.
 */
export function bandPieces(zone: LaidBand, material: Woven, shop: ShopSpec): BandPieces {
  return piecesOf(zone, material, shop, clothFitter(material.lockingDeg * DEGREE, NET_SPACING));
}

/** How cloth lies on a zone; null: it is not laid. */
type FitZone = ((zone: ClothZone) => Fit | null) | null;

/** The pieces of a band; with no way given in which cloth lies they are as its plies are divided, and without cloth. */
export function piecesOf(zone: LaidBand, material: Woven, shop: ShopSpec, fitZone: FitZone): BandPieces {
  const pieces: Piece[] = [];
  const doubts: string[] = [];
  let below: readonly Joint[] = [];
  const corners = cornersOfLine(zone.strip);
  zone.plyWidths.forEach((widths, index) => {
    // A ply that has stepped back to nothing is told with the zone: there is no piece of it to cut.
    if (widths[0] + widths[1] <= 0) return;
    const ply = cutPly(zone, widths, material, shop, below, fitZone);
    below = ply.joints;
    ply.parts.forEach((part, place) => {
      const name = `${zone.id}/${index + 1}${letters(place)}`;
      const corner = turnOf(part.flat, widths) > shop.cornerTurnDeg * DEGREE;
      pieces.push(
        makePiece(
          zone,
          material,
          index + 1,
          name,
          part,
          corner,
          marksOf(part, ply.parts, zone, corners),
          shop.trim,
        ),
      );
      const unfit = unfitness(part, material);
      if (unfit) doubts.push(`${name}: ${unfit}`);
    });
    doubts.push(...ply.doubts.map((doubt) => `ply ${index + 1}: ${doubt}`));
  });
  const widest = Math.max(...pieces.map((piece) => piece.widthMm));
  if (widest > material.rollWidth) doubts.push(tooWide(widest, material, shop.lap));
  return { pieces, doubts };
}

/** What is marked on a part: ends of its neighbours, the line at its own ends, and corners of the line. */
function marksOf(
  part: FlatPart,
  parts: readonly FlatPart[],
  { strip, lengthMm }: LaidBand,
  corners: readonly number[],
): Mark[] {
  const inside = (station: number, turn: number): number[] => {
    const at = [station, station + turn, station - turn];
    return at.filter((each) => each > part.from + 1 && each < part.to - 1);
  };
  const turn = strip.closed ? lengthMm : Number.POSITIVE_INFINITY;
  const marks: Mark[] = [part.from, part.to].map((station) => ({ what: "line", station }));
  for (const other of parts)
    if (other !== part)
      for (const end of [other.from, other.to])
        marks.push(...inside(end, turn).map((station): Mark => ({ what: "lap", station })));
  for (const corner of corners)
    marks.push(...inside(corner, turn).map((station): Mark => ({ what: "corner", station })));
  return marks.map(({ what, station }) => ({ what, station: strip.from + station }));
}

interface FlatPart extends FittedPart {
  readonly flat: FlatStrip;
}

interface CutPly {
  readonly joints: readonly Joint[];
  readonly parts: readonly FlatPart[];
  readonly doubts: readonly string[];
}

function cutPly(
  zone: LaidBand,
  [left, right]: readonly [number, number],
  material: Woven,
  shop: ShopSpec,
  below: readonly Joint[],
  fitZone: FitZone,
): CutPly {
  const { strip } = zone;
  const ruler = rulerOf(strip, left, right);
  const rules = { lap: shop.lap, stagger: shop.jointStagger, below, awkward: unevenness(ruler) };
  const unrolled = ([from, to]: readonly [number, number]) =>
    unrollStrip(strip, strip.from + from, strip.from + to, left, right);
  // The ruler is straight between the strip's samples, the pieces are measured exactly: make up for the difference.
  let aim = shop.handlingLength;
  for (let round = 0; ; round++) {
    const division = divide(ruler, { ...rules, longest: aim });
    const whole = stretches(ruler, division.joints);
    const lengths = whole.map((stretch) => longestLine(unrolled(stretch)));
    // Pieces that cannot be as short as asked are further over than that.
    const slight = division.longest > aim ? SLIGHT * shop.handlingLength : Infinity;
    const over = Math.max(
      0,
      ...lengths.map((length) => length - shop.handlingLength).filter((by) => by < slight),
    );
    if (over > 1e-6 && round < 4) {
      aim -= 2 * over;
      continue;
    }
    const near = fieldNear(strip.field);
    const zoneOf = (a: number, b: number): ClothZone => {
      return { near, strip, from: strip.from + a, to: strip.from + b, left, right };
    };
    const locking = material.lockingDeg * DEGREE;
    const fitted = whole.map(([from, to]) =>
      fitZone
        ? fitPart(ruler, { ...rules, zoneOf, fitZone, locking, rollWidth: material.rollWidth }, from, to)
        : { parts: [{ from, to, zone: zoneOf(from, to), fit: null }], joints: [] },
    );
    const splits = fitted.flatMap((part) => part.joints);
    const joints = [...division.joints, ...splits].sort((a, b) => a.at - b.at);
    const parts = inOrder(
      ruler,
      fitted.flatMap((each) => each.parts),
    ).map((part) => ({ ...part, flat: unrolled([part.from, part.to]) }));
    return {
      joints,
      parts,
      doubts: plyDoubts(
        joints,
        unrolled,
        Math.min(division.stagger, ...splits.map((split) => clearOf(ruler, split, below))),
        parts.map(({ flat }) => longestLine(flat)),
        shop,
      ),
    };
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

/** How far a joint is from those of the ply below, mm. */
const clearOf = (ruler: Ruler, joint: Joint, below: readonly Joint[]) =>
  Math.min(...below.map((other) => apart(ruler, joint.at, other.at)));

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

/** How far an edge turns away from the middle over a piece, rad: what it is longer or shorter over its distance. */
function turnOf(flat: FlatStrip, [left, right]: readonly [number, number]): number {
  const turn = (edge: number, width: number) => (width > 0 ? Math.abs(edge - flat.midLengthMm) / width : 0);
  return Math.max(turn(flat.leftLengthMm, left), turn(flat.rightLengthMm, right));
}

function makePiece(
  zone: LaidBand,
  material: Woven,
  ply: number,
  name: string,
  { from, to, fit, flat }: FlatPart,
  corner: boolean,
  marks: readonly Mark[],
  trim: number,
): Piece {
  const cloth = fit ? flatPiece(fit, marks, trim) : plainPiece(flat);
  return {
    name,
    zone: zone.id,
    ply,
    material: material.id,
    quantity: 1,
    lengthMm: cloth.lengthMm,
    widthMm: cloth.widthMm,
    leftEdgeMm: flat.leftLengthMm,
    rightEdgeMm: flat.rightLengthMm,
    midMm: flat.midLengthMm,
    corner,
    areaMm2: flat.areaMm2,
    flatAreaMm2: cloth.flatAreaMm2,
    glassKg: (material.gramsPerM2 / 1000) * (cloth.flatAreaMm2 / 1e6),
    fromMm: from,
    toMm: to,
    outline: cloth.outline,
    darts: cloth.darts,
    notches: cloth.notches,
    shear: cloth.shear,
    places: [{ fromMm: from, toMm: to, hand: "as drawn" }],
  };
}
