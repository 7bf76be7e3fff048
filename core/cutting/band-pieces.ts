import { clothFitter } from "../cloth/twins.ts";
import type { LaidBand } from "../layup/laid.ts";
import type { Material, ShopSpec } from "../project/schema.ts";
import { cannotBeCut, tooWide, unfitness } from "./band-doubts.ts";
import { cutPly, type FlatPart } from "./cut-ply.ts";
import { edgeLength } from "./edge-length.ts";
import { flatPiece, type Mark, plainPiece } from "./flat-piece.ts";
import type { Joint } from "./joints.ts";
import type { CutDoubt, Piece } from "./kit.ts";
import { letters } from "./letters.ts";
import { cornersOfLine } from "./line-corners.ts";

/** Spacing of the nets on which pieces are laid, mm: what cloth does over the width of a hand. */
const NET_SPACING = 30;

type Woven = Material & { readonly kind: "woven" };

export interface BandPieces {
  readonly pieces: readonly Piece[];
  readonly doubts: readonly CutDoubt[];
}

/** A corner that is begun and done within so much has one mark: two would say no more, mm. */
const SHORT_CORNER = 100;

const DEGREE = Math.PI / 180;
/** What rounding may add to a width, mm. */
const ROUNDING = 1e-3;

/**
 * Pieces of cloth of a band or stroke, ply after ply from the shell outwards, each ply's from the zone's beginning on, laid as woven cloth and
 * drawn flat. They are named by zone, ply and place: `foot/2c` is the third piece of the second ply of `foot`. In a closed zone the piece
 * that covers its beginning is `a`. `onPiece` is called before each piece of cloth that is laid, to try it or for good.
 */
export function bandPieces(
  zone: LaidBand,
  material: Woven,
  shop: ShopSpec,
  onPiece: () => void = () => {},
): BandPieces {
  const fitter = clothFitter(material.lockingDeg * DEGREE, NET_SPACING);
  const fitZone: typeof fitter = (...part) => {
    onPiece();
    return fitter(...part);
  };
  const pieces: Piece[] = [];
  const doubts: CutDoubt[] = [];
  let below: readonly Joint[] = [];
  const corners = cornersOfLine(zone.strip);
  // Pieces are laid without their trim, which must find room on the roll, too.
  const bare = { ...material, rollWidth: Math.max(1, material.rollWidth - 2 * shop.trim) };
  zone.plyWidths.forEach((widths, index) => {
    // A ply that has stepped back to nothing is told with the zone: there is no piece of it to cut.
    if (widths[0] + widths[1] <= 0) return;
    const ply = cutPly(zone, widths, bare, shop, below, fitZone);
    below = ply.joints;
    ply.parts.forEach((part, place) => {
      const name = `${zone.id}/${index + 1}${letters(place)}`;
      const marks = marksOf(part, ply.parts, index + 1, zone, corners);
      const piece = makePiece(zone, material, index + 1, name, part, marks, shop);
      pieces.push(piece);
      const unfit = unfitness(part, piece, material);
      if (unfit)
        doubts.push({
          says: `${name}: ${unfit}`,
          atMm: (part.from + part.to) / 2,
          ...(cannotBeCut(part) && { fault: "cannot be cut" }),
        });
    });
    doubts.push(...ply.doubts.map((doubt) => ({ ...doubt, says: `ply ${index + 1}: ${doubt.says}` })));
  });
  return { pieces, doubts: [...doubts, ...wideOnes(zone, pieces, material, shop)] };
}

/** What is wider than its roll: the band, or by name the pieces that are so only because they turn. */
function wideOnes(
  { plyWidths }: LaidBand,
  pieces: readonly Piece[],
  material: Woven,
  { lap, trim }: ShopSpec,
): CutDoubt[] {
  const fault = "wider than its roll";
  const most = material.rollWidth + ROUNDING;
  const wide = pieces.filter(({ widthMm }) => widthMm > most);
  if (wide.length === 0) return [];
  const straight = Math.max(...plyWidths.map(([left, right]) => left + right + 2 * trim));
  if (straight > most)
    return [{ says: tooWide(Math.max(...wide.map(({ widthMm }) => widthMm)), material, lap), fault }];
  return wide.map(({ name, widthMm, fromMm, toMm }) => ({
    says: `${name}: ${tooWide(widthMm, material, lap)}`,
    atMm: (fromMm + toMm) / 2,
    fault,
  }));
}

/** What is marked on a part: ends of its neighbours by their names, the line at its own ends, and corners of the line, numbered along the part. */
function marksOf(
  part: FlatPart,
  parts: readonly FlatPart[],
  ply: number,
  { strip, lengthMm }: LaidBand,
  corners: ReturnType<typeof cornersOfLine>,
): Mark[] {
  const inside = (station: number, turn: number): number[] => {
    const at = [station, station + turn, station - turn];
    return at.filter((each) => each > part.from + 1 && each < part.to - 1);
  };
  const turn = strip.closed ? lengthMm : Number.POSITIVE_INFINITY;
  const marks: Mark[] = [part.from, part.to].map((station) => ({ what: "line", station }));
  for (const [place, other] of parts.entries())
    if (other !== part)
      for (const end of [other.from, other.to])
        marks.push(
          ...inside(end, turn).map(
            (station): Mark => ({ what: "lap", station, label: `${ply}${letters(place)}` }),
          ),
        );
  const seen = corners
    .flatMap(([from, to]) => {
      const tangents = to - from < SHORT_CORNER ? [(from + to) / 2] : [from, to];
      const stations = tangents.flatMap((each) => inside(each, turn));
      return stations.length > 0 ? [stations] : [];
    })
    .sort((a, b) => Math.min(...a) - Math.min(...b));
  for (const [i, stations] of seen.entries())
    marks.push(...stations.map((station): Mark => ({ what: "corner", station, label: `${i + 1}` })));
  return marks.map((mark) => ({ ...mark, station: strip.from + mark.station }));
}

/** How far an edge turns away from the middle over a piece, rad: what it is longer or shorter over its distance. */
function turnOf({ flat, zone }: FlatPart, leftEdgeMm: number, rightEdgeMm: number): number {
  const turn = (edge: number, width: number) => (width > 0 ? Math.abs(edge - flat.midLengthMm) / width : 0);
  return Math.max(turn(leftEdgeMm, zone.left), turn(rightEdgeMm, zone.right));
}

function makePiece(
  zone: LaidBand,
  material: Woven,
  ply: number,
  name: string,
  part: FlatPart,
  marks: readonly Mark[],
  { trim, cornerTurnDeg }: ShopSpec,
): Piece {
  const { from, to, fit, flat } = part;
  const cloth = fit ? flatPiece(fit, marks, trim) : plainPiece(flat);
  const leftEdgeMm = edgeLength(part, "left");
  const rightEdgeMm = edgeLength(part, "right");
  return {
    name,
    zone: zone.id,
    ply,
    material: material.id,
    quantity: 1,
    lengthMm: cloth.lengthMm,
    widthMm: cloth.widthMm,
    leftEdgeMm,
    rightEdgeMm,
    midMm: flat.midLengthMm,
    corner: turnOf(part, leftEdgeMm, rightEdgeMm) > cornerTurnDeg * DEGREE,
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
