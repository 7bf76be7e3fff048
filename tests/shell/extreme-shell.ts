/**
 * Random shells that lie mostly at the ends of what the project takes, each from its seed alone. Few could be sold; each must be
 * built whole or refused with a reason.
 */
import type { FeatureSpec, FootprintSpec, OutlineSpec, ShellSpec } from "../../core/project/schema.ts";
import { dice } from "./random-shell.ts";

type Dice = ReturnType<typeof dice>;
type Ends = (low: number, high: number, step?: number) => number;

const four = {
  sides: ["shallow", "right", "deep", "left"],
  corners: ["shallow-right", "deep-right", "deep-left", "shallow-left"],
} as const;
const kinds = [
  "rectangle",
  "rectangle",
  "stadium",
  "round-ended",
  "ell",
  "ell",
  "polygon",
  "freeform",
  "freeform",
  "path",
] as const;
const numbered = (what: string, count: number) => Array.from({ length: count }, (_, i) => `${what}-${i + 1}`);

interface Plan {
  readonly outline: OutlineSpec;
  readonly length: number;
  readonly sides: readonly string[];
  readonly corners: readonly string[];
}

export function extremeShell(seed: number): ShellSpec {
  const d = dice(seed * 104729 + 7);
  // The least in one case of five, the most in one of ten, else mostly small.
  const ends: Ends = (low, high, step = 1) => {
    const p = d.next();
    if (p < 0.2) return low;
    if (p > 0.9) return high;
    return d.mm(low, p < 0.6 ? low + (high - low) * 0.3 : high, step);
  };
  const plan = extremePlan(d, ends);
  const stations = extremeFloor(d, ends, plan.length);
  const hopper = d.chance(0.15);
  const [cove, step, nose] = [ends(40, 500, 5), ends(15, 300, 5), ends(10, 120, 2)];
  const features = extremeFeatures(d, ends, plan);
  const pairs = extremePairs(d, ends, features);
  const radius = ends(10, 80, 2);
  const rimRadius = ends(5, 80, 2);
  const breakRadius = ends(100, 4000, 50);
  const crossFall = d.chance(0.25) ? d.mm(-60, 60, 5) : 0;
  const sides = hopper ? { hopper: { depthAtWall: d.mm(600, 1400, 10), slopeDeg: d.mm(5, 60, 1) } } : {};
  const draftDeg = d.pick([0, 0, 1, 3, 3, 5, 8, 10]);
  const flange = ends(75, 300, 5);
  const edge = d.pick<ShellSpec["coping"]["edge"]>([
    { kind: "flat" },
    { kind: "rolled", radius },
    { kind: "dropped", radius, drop: d.mm(radius, 200, 5) },
  ]);
  return {
    outline: plan.outline,
    floor: { stations, breakRadius, crossFall, ...sides },
    draftDeg,
    radii: { cove, step, nose, pairs },
    features,
    coping: { flange, rimRadius, edge },
    fittings: [],
    waterLine: 120,
  };
}

/** Points round an ellipse at uneven angles, each between `least` and `most` of the way out. */
function ring(d: Dice, long: number, wide: number, count: number, uneven: number, least: number, most = 1) {
  return Array.from({ length: count }, (_, i): [number, number] => {
    const a = (2 * Math.PI * (i + d.between(-uneven, uneven))) / count;
    const s = d.between(least, most);
    return [Math.round((long / 2) * s * Math.cos(a)), Math.round((wide / 2) * s * Math.sin(a))];
  });
}

function extremePlan(d: Dice, ends: Ends): Plan {
  const kind = d.pick(kinds);
  const length = ends(3000, 15000, 50);
  const width = ends(2000, 6000, 50);
  const corner = () => ends(25, 1200, 5);
  const long = Math.max(length, width);
  switch (kind) {
    case "rectangle": {
      const cornerRadius = d.chance(0.5) ? corner() : four.corners.map(corner);
      return { outline: { kind, length, width, cornerRadius } as OutlineSpec, length, ...four };
    }
    case "stadium":
      return { outline: { kind, length: long, width }, length, sides: ["right", "left"], corners: [] };
    case "round-ended":
      return {
        outline: { kind, length: long, width, roundEnd: "deep", cornerRadius: corner() },
        length,
        sides: ["shallow", "right", "left"],
        corners: ["shallow-right", "shallow-left"],
      };
    case "ell": {
      const cutLength = d.mm(300, length - 700, 50);
      const cutWidth = d.mm(300, width - 700, 50);
      const cutAt = d.pick(four.corners);
      const [cornerRadius, reflexRadius] = [corner(), ends(25, 800, 5)];
      return {
        outline: { kind, length, width, cutLength, cutWidth, cutAt, cornerRadius, reflexRadius },
        length,
        sides: numbered("side", 6),
        corners: numbered("corner", 6),
      };
    }
    case "polygon": {
      const n = d.pick([4, 5, 6, 8]);
      const points = ring(d, length, width, n, 0.3, 0.6, 1.1);
      return {
        outline: { kind, points, cornerRadius: corner() },
        length,
        sides: numbered("side", n),
        corners: numbered("corner", n),
      };
    }
    case "freeform": {
      const n = d.pick([4, 6, 8, 12, 20, 40]);
      const dent = d.pick([0.05, 0.2, 0.5]);
      const points = ring(d, length, width, n, 0.2, 1 - dent);
      return { outline: { kind, points }, length, sides: numbered("span", n), corners: [] };
    }
    case "path": {
      const r = corner();
      const straight = length - width / 2 - 50;
      const quarter = Math.tan(Math.PI / 8);
      return {
        outline: {
          kind,
          start: [r, 0],
          segments: [
            { kind: "line", to: [straight, 0] },
            { kind: "arc", to: [straight, width], bulge: 1 },
            { kind: "line", to: [r, width] },
            { kind: "arc", to: [0, width - r], bulge: quarter },
            { kind: "line", to: [0, r] },
            { kind: "arc", to: [r, 0], bulge: quarter },
          ],
        },
        length,
        sides: ["segment-1", "segment-2", "segment-3", "segment-5"],
        corners: ["segment-4", "segment-6"],
      };
    }
  }
}

function extremeFloor(d: Dice, ends: Ends, length: number): ShellSpec["floor"]["stations"] {
  const shallow = ends(600, 1600, 10);
  const deep = d.chance(0.3) ? shallow : ends(shallow, 2800, 10);
  if (deep === shallow) return [{ at: 0, depth: shallow }];
  if (d.chance(0.5))
    return [
      { at: 0, depth: shallow },
      { at: length, depth: deep },
    ];
  return [
    { at: 0, depth: shallow },
    { at: d.mm(length * 0.2, length * 0.4), depth: shallow },
    { at: d.mm(length * 0.6, length * 0.9), depth: deep },
  ];
}

function extremeFeatures(d: Dice, ends: Ends, { sides, corners }: Plan): FeatureSpec[] {
  const place = (): FootprintSpec => {
    const kind = d.pick(["end", "corner", "along", "along", "round"] as const);
    if (kind === "end") return { kind, end: d.pick(["shallow", "deep"] as const) };
    if (kind === "corner" && corners.length > 0)
      return { kind, corner: d.pick(corners), shape: d.pick(["round", "square"] as const) };
    if (kind === "round") return { kind };
    const at = () => ({ run: d.pick(sides), part: Math.round(d.next() * 100) / 100 });
    return { kind: "along", from: at(), to: at(), endRadius: ends(30, 800, 5) };
  };
  const count = d.pick([0, 1, 1, 2, 2, 3]);
  return Array.from({ length: count }, (_, i): FeatureSpec => {
    const kind = d.pick(["steps", "bench", "ledge", "seat"] as const);
    const id = `${kind}-${i}`;
    if (kind === "steps") {
      const treads = d.pick([1, 2, 3, 4]);
      let depth = d.mm(100, 400, 10);
      return {
        kind,
        id,
        place: place(),
        treads: Array.from({ length: treads }, () => {
          const tread = { depth, going: ends(100, 900, 10) };
          depth = Math.min(2600, depth + d.mm(60, 350, 10));
          return tread;
        }),
      };
    }
    if (kind === "bench")
      return { kind, id, place: place(), depth: d.mm(100, 900, 10), width: ends(150, 1200, 10) };
    if (kind === "ledge")
      return { kind, id, place: place(), depth: d.mm(100, 600, 10), reach: ends(300, 2500, 10) };
    return { kind, id, place: place(), depth: d.mm(100, 900, 10), reach: ends(200, 1000, 10) };
  });
}

function extremePairs(d: Dice, ends: Ends, features: readonly FeatureSpec[]): ShellSpec["radii"]["pairs"] {
  if (features.length === 0 || !d.chance(0.3)) return [];
  const { id, kind } = d.pick(features);
  const [top, riser] = kind === "steps" ? [`${id}/tread-1`, `${id}/riser-1`] : [`${id}/top`, `${id}/riser`];
  const pairs: [string, string][] = [
    ["wall", top],
    ["wall", riser],
    ["floor", riser],
    [top, riser],
    ["wall", "floor"],
  ];
  return pairs.flatMap((between) => (d.chance(0.4) ? [{ between, radius: ends(10, 300, 5) }] : []));
}
