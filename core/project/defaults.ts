import {
  currentVersion,
  type HouseRules,
  type Material,
  type Project,
  project,
  type ShopSpec,
} from "./schema.ts";

/**
 * What a new project starts with. Every figure here is common shop practice without a published source, and a
 * setting that each shop changes to its own: see the trade notes at each field. Data sheets come first.
 */

/** Practice: the two usual plain woven rovings on the usual roll, scored honeycomb strip and sheet of one thickness. */
export const startingMaterials: readonly Material[] = [
  {
    kind: "woven",
    id: "woven-600",
    name: "Woven roving 600 g/m²",
    gramsPerM2: 600,
    rollWidth: 1270,
    lockingDeg: 45, // plain roving begins to wrinkle at 40–50°
  },
  {
    kind: "woven",
    id: "woven-800",
    name: "Woven roving 800 g/m²",
    gramsPerM2: 800,
    rollWidth: 1270,
    lockingDeg: 45,
  },
  {
    kind: "strip",
    id: "rib-strip",
    name: "Honeycomb strip 100 × 20, scored",
    width: 100,
    thickness: 20,
    stockLength: 2400, // cut from the long side of a 1220 × 2440 sheet
    kgPerM3: 80, // practice, polypropylene honeycomb; foam core is of the same order
    bendRadius: 120, // practice, across the scores
  },
  {
    kind: "sheet",
    id: "core-sheet",
    name: "Honeycomb sheet 1220 × 2440 × 20",
    width: 1220,
    length: 2440,
    thickness: 20,
    kgPerM3: 80,
  },
];

/** Practice. */
export const startingShop: Readonly<ShopSpec> = {
  laidThickness: 6, // gel coat, barrier and chopped passes laid before the reinforcement: 4–9 mm
  handlingLength: 2500, // what one person carries and wets out: 2–3 m
  lap: 50,
  cornerTurnDeg: 10, // woven cloth gives way that much by shear without a fold
  jointStagger: 150,
  plyStep: 25,
  trim: 0,
  alike: 3, // what hand shears follow a line by
  kerf: 3, // a circular saw's
  bevelDeg: 40, // so that the cover laminate lies down: 30–45°
};

/** Practice. */
export const startingRules: Readonly<HouseRules> = {
  footBand: { material: "woven-800", reach: 150, plies: 2 },
  stepBand: { material: "woven-600", reach: 100, plies: 1 },
  noseBand: { material: "woven-600", reach: 75, plies: 0 }, // off: noses are outward edges, seldom reinforced
  ribs: {
    material: "rib-strip",
    pitch: 600,
    clear: 150,
    top: 60, // from under the coping's radius
    onto: 150,
    overCove: true,
    leastWall: 900,
  },
  gussets: { material: "core-sheet", pitch: 500, margin: 150, reach: 200, drop: 200, leastWidth: 300 },
  pads: { material: "core-sheet", margin: 40, leastWidth: 200 },
  stiffeners: { material: "rib-strip", margin: 100, leastRun: 900 },
};

/** A new project: a plain family pool with steps across the shallow end, and nothing laid on it yet. */
export function defaultProject(): Project {
  return project.parse({
    format: "ribband",
    version: currentVersion,
    name: "New shell",
    shell: {
      outline: { kind: "rectangle", length: 7500, width: 3500, cornerRadius: 350 },
      floor: {
        stations: [
          { at: 1500, depth: 1200 },
          { at: 6500, depth: 1700 },
        ],
        breakRadius: 2000,
        crossFall: 0,
      },
      draftDeg: 3,
      radii: { cove: 200, step: 50, nose: 30, pairs: [] },
      features: [
        {
          kind: "steps",
          id: "steps",
          place: { kind: "end", end: "shallow" },
          treads: [
            { depth: 300, going: 350 },
            { depth: 600, going: 300 },
            { depth: 900, going: 300 },
          ],
        },
      ],
      coping: { flange: 150, rimRadius: 20, edge: { kind: "rolled", radius: 25 } },
      fittings: [],
      waterLine: 120,
    },
    materials: startingMaterials,
    shop: startingShop,
    rules: startingRules,
    layup: [],
  });
}
