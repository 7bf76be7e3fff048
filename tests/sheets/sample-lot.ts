import type { Kit, Piece, SheetPiece, StripPiece } from "../../core/cutting/kit.ts";
import { type CutLot, cutLot } from "../../core/cutting/lots/cut-lot.ts";
import type { LotModel } from "../../core/cutting/lots/lot-model.ts";
import { ownStock } from "../../core/cutting/lots/own-stock.ts";
import { unwatched } from "../../core/cutting/lots/watch.ts";
import { totalsOf } from "../../core/cutting/totals.ts";
import { defaultProject } from "../../core/project/defaults.ts";
import type { Project } from "../../core/project/schema.ts";

/** A kit made by hand, so that what its sheets show is known beforehand: nothing is built, laid up or draped for it. */

/** A piece whose two short sides lean, its upper one curved, with a dart in it. */
const SHAPED = [0, 0, 1200, 0, 1150, 480, 640, 500, 600, 380, 560, 500, 300, 490, 60, 440];
const RECTANGLE = [0, 0, 2000, 0, 2000, 620, 0, 620];
const GUSSET = [0, 0, 260, 0, 0, 180];
const PAD = [0, 0, 900, 0, 900, 240, 120, 240, 0, 150];

function piece(name: string, outline: readonly number[], more: Partial<Piece> = {}): Piece {
  const xs = outline.filter((_, i) => i % 2 === 0);
  const ys = outline.filter((_, i) => i % 2 === 1);
  const [lengthMm, widthMm] = [Math.max(...xs), Math.max(...ys)];
  return {
    name,
    zone: "foot",
    ply: 1,
    material: "woven-800",
    quantity: 1,
    lengthMm,
    widthMm,
    leftEdgeMm: lengthMm,
    rightEdgeMm: lengthMm,
    midMm: lengthMm,
    corner: false,
    areaMm2: lengthMm * widthMm,
    flatAreaMm2: lengthMm * widthMm,
    glassKg: (lengthMm * widthMm * 0.8) / 1e6,
    fromMm: 0,
    toMm: lengthMm,
    outline: Float64Array.from(outline),
    darts: [],
    notches: [],
    shear: null,
    places: [{ fromMm: 0, toMm: lengthMm, hand: "as drawn" }],
    ...more,
  };
}

const shaped = piece("foot/1a", SHAPED, {
  quantity: 2,
  darts: [
    {
      side: "left",
      tip: [600, 380],
      mouth: [
        [640, 500],
        [560, 500],
      ],
      depthMm: 126.5,
      openingMm: 80,
    },
  ],
  notches: [
    { what: "lap", x: 50, y: 0, label: "1b" },
    { what: "line", x: 1175, y: 240 },
    { what: "corner", x: 600, y: 0, label: "1" },
  ],
  places: [
    { fromMm: 0, toMm: 1200, hand: "as drawn" },
    { fromMm: 3000, toMm: 4200, hand: "turned over" },
  ],
});

const strip = (name: string, lengthMm: number): StripPiece => ({
  name,
  zone: "ribs",
  material: "rib-strip",
  quantity: 1,
  lengthMm,
  ends: ["bevel", "bevel"],
  bevelDeg: 40,
  massKg: 0.1,
  tape: [
    { from: "centre line", alongMm: 0, downMm: 60 },
    { from: "centre line", alongMm: 0, downMm: 1200 },
  ],
});

const sheet = (name: string, kind: SheetPiece["kind"], outline: readonly number[], quantity: number) => ({
  name,
  zone: name.split("/")[0],
  kind,
  material: "core-sheet",
  quantity,
  lengthMm: Math.max(...outline.filter((_, i) => i % 2 === 0)),
  widthMm: Math.max(...outline.filter((_, i) => i % 2 === 1)),
  areaMm2: 1e4,
  massKg: 0.2,
  outline: Float64Array.from(outline),
});

function kitOf(project: Project, shells: number): Kit {
  const cuts = {
    shells,
    pieces: [
      shaped,
      piece("foot/1b", RECTANGLE),
      piece("foot/2a", RECTANGLE, { ply: 2 }),
      piece("steps-rise/1a", [0, 0, 1500, 0, 1500, 280, 0, 280], { material: "woven-600", quantity: 1 }),
    ],
    strips: [strip("ribs/1", 1598.1), strip("ribs/2", 1010), strip("ribs-shallow/3", 213.4)],
    sheets: [sheet("gussets/1", "gusset", GUSSET, 4), sheet("pad-seat/1", "pad", PAD, 1)],
  };
  return { ...cuts, totals: totalsOf(cuts, project.materials, project.shop), doubts: [] };
}

export function sampleModel(label: string, shells: number): LotModel {
  const project = { ...defaultProject(), name: label };
  return { label, project, kit: kitOf(project, shells) };
}

/** The kits of some models on as much stock as they want. */
export function sampleLot(models: readonly LotModel[], way: "hand" | "table"): CutLot {
  const [{ label, project }] = models;
  const name = models.length > 1 ? "Week 14" : label;
  const lot = { name, stock: ownStock(project.materials), cutting: { way } };
  return cutLot(models, lot, { steps: 5, watch: unwatched });
}
