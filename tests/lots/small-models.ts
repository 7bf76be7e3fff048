import type { Kit } from "../../core/cutting/kit.ts";
import { kitForLot } from "../../core/cutting/lot.ts";
import type { LotModel } from "../../core/cutting/lots/lot-model.ts";
import type { Project } from "../../core/project/schema.ts";
import { smallProject } from "../cli/small-project.ts";

/** Two models with a kit written down by hand: some strips, some cloth, a pad. */
export function smallModels(
  shells: readonly [number, number],
  change: (project: Project) => Project = (p) => p,
): LotModel[] {
  const names = ["Knot 5", "Dunnock 6"];
  return names.map((name, i) => {
    const project = { ...(i === 1 ? change(smallProject()) : smallProject()), name };
    return { label: name, project, kit: kitForLot(project, kitByHand(i), shells[i]) };
  });
}

/** A kit of one shell; that of the second model is of other lengths. */
function kitByHand(model: number): Kit {
  const tape = [
    { from: "left", alongMm: 0, downMm: 60 },
    { from: "left", alongMm: 0, downMm: 1400 },
  ] as const;
  const strips = [1500, 1200, 700].map((length, k) => ({
    name: `ribs-left/${k + 1}`,
    zone: "ribs-left",
    material: "rib-strip",
    quantity: 1,
    lengthMm: length + 10 * model + 0.25,
    ends: ["bevel", "bevel"] as const,
    bevelDeg: 40,
    massKg: 0.1 * (k + 1),
    tape,
  }));
  const pieces = [1900, 2400].map((length, k) => ({
    name: `foot/1${"ab"[k]}`,
    zone: "foot",
    ply: 1,
    material: "woven-800",
    quantity: 1,
    lengthMm: length - 100 * model,
    widthMm: 500,
    leftEdgeMm: length,
    rightEdgeMm: length,
    midMm: length,
    corner: false,
    areaMm2: 500 * length,
    flatAreaMm2: 500 * length,
    glassKg: 0.4 * length * 1e-3,
    fromMm: 0,
    toMm: length,
    places: [{ fromMm: 0, toMm: length, hand: "as drawn" as const }],
    outline: Float64Array.of(0, 0, length - 100 * model, 0, length - 100 * model, 500, 0, 500),
  }));
  const sheets = [
    {
      name: "pad-1/1",
      zone: "pad-1",
      kind: "pad" as const,
      material: "core-sheet",
      quantity: 2,
      lengthMm: 800,
      widthMm: 300,
      areaMm2: 240_000,
      massKg: 0.384,
      outline: Float64Array.of(0, 0, 800, 0, 800, 300, 0, 300),
    },
  ];
  // The lot needs no more of a piece than what is cut and how often.
  return { shells: 1, strips, pieces, sheets, totals: [], doubts: [] } as unknown as Kit;
}
