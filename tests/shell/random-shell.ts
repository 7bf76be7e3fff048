/** Random shells from realistic ranges, each from its seed alone: the same seed always gives the same shell. */
import type { FeatureSpec, OutlineSpec, RimPlace, ShellSpec } from "../../core/project/schema.ts";

/** A small generator of uniform numbers (mulberry32). */
export function dice(seed: number) {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    next,
    between: (low: number, high: number) => low + (high - low) * next(),
    /** Whole millimetres, as people type them, in steps of `step`. */
    mm: (low: number, high: number, step = 5) => Math.round((low + (high - low) * next()) / step) * step,
    chance: (p: number) => next() < p,
    pick: <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)],
  };
}
type Dice = ReturnType<typeof dice>;

interface Plan {
  readonly outline: OutlineSpec;
  readonly length: number;
  readonly width: number;
  readonly sides: readonly string[];
  readonly corners: readonly string[];
}

export function randomShell(seed: number): ShellSpec {
  const d = dice(seed * 7919 + 13);
  const plan = randomPlan(d);
  const shallow = d.mm(950, 1350, 10);
  const deep = d.chance(0.25) ? shallow : d.mm(shallow, Math.min(2600, shallow + plan.length * 0.13), 10);
  const cove = d.mm(100, 250, 10);
  const step = d.mm(30, 90, 5);
  const stations =
    deep === shallow
      ? [{ at: 0, depth: shallow }]
      : d.chance(0.4)
        ? [
            { at: 0, depth: shallow },
            { at: plan.length, depth: deep },
          ]
        : [
            { at: 0, depth: shallow },
            { at: d.mm(plan.length * 0.2, plan.length * 0.35, 50), depth: shallow },
            { at: d.mm(plan.length * 0.65, plan.length * 0.85, 50), depth: deep },
            { at: plan.length, depth: deep },
          ];
  const hopper = deep > shallow + 300 && d.chance(0.2);
  const radius = d.mm(12, 30, 1);
  const rimRadius = d.mm(12, 30, 1);
  const flange = d.mm(Math.max(90, radius + rimRadius + 20), 260, 5);
  return {
    outline: plan.outline,
    floor: {
      stations,
      breakRadius: d.mm(400, 1500, 50),
      crossFall: d.chance(0.2) ? d.mm(-20, 20, 5) : 0,
      ...(hopper
        ? { hopper: { depthAtWall: d.mm(shallow, shallow + 200, 10), slopeDeg: d.mm(15, 40, 1) } }
        : {}),
    },
    draftDeg: d.pick([0, 1, 2, 2.5, 3, 4, 5]),
    radii: { cove, step, nose: d.mm(20, 50, 5), pairs: [] },
    features: randomFeatures(d, plan, shallow),
    coping: {
      flange,
      rimRadius,
      edge: d.pick([
        { kind: "flat" } as const,
        { kind: "rolled", radius } as const,
        { kind: "dropped", radius, drop: d.mm(radius + 10, 80, 5) } as const,
      ]),
    },
    fittings: [],
    waterLine: d.mm(80, 180, 10),
  };
}

function randomPlan(d: Dice): Plan {
  const length = d.mm(4000, 12500, 50);
  const width = d.mm(2400, Math.min(5000, length * 0.6 + 400), 50);
  const rectangleRuns = {
    sides: ["shallow", "right", "deep", "left"],
    corners: ["shallow-right", "deep-right", "deep-left", "shallow-left"],
  };
  const kind = d.pick([
    "rectangle",
    "rectangle",
    "rectangle",
    "stadium",
    "round-ended",
    "ell",
    "freeform",
    "polygon",
  ] as const);
  switch (kind) {
    case "rectangle": {
      const r = () => d.mm(100, 600, 10);
      const cornerRadius = d.chance(0.6) ? r() : ([r(), r(), r(), r()] as [number, number, number, number]);
      return { outline: { kind, length, width, cornerRadius }, length, width, ...rectangleRuns };
    }
    case "stadium":
      return {
        outline: { kind, length: Math.max(length, width + 800), width },
        length: Math.max(length, width + 800),
        width,
        sides: ["right", "left"],
        corners: [],
      };
    case "round-ended":
      return {
        outline: {
          kind,
          length: Math.max(length, width + 800),
          width,
          roundEnd: "deep",
          cornerRadius: d.mm(100, 500, 10),
        },
        length: Math.max(length, width + 800),
        width,
        sides: ["shallow", "right", "left"],
        corners: ["shallow-right", "shallow-left"],
      };
    case "ell": {
      const wide = Math.max(width, 3600);
      const long = Math.max(length, 7000);
      return {
        outline: {
          kind,
          length: long,
          width: wide,
          cutLength: d.mm(long * 0.3, long * 0.55, 50),
          cutWidth: d.mm(1250, Math.max(1300, wide - 2200), 50),
          cutAt: d.pick(["deep-right", "deep-left"] as const),
          cornerRadius: d.mm(150, 500, 10),
          reflexRadius: d.mm(350, 700, 10),
        },
        length: long,
        width: wide,
        sides: ["side-1", "side-2", "side-3", "side-4", "side-5", "side-6"],
        corners: ["corner-1", "corner-2", "corner-5", "corner-6"],
      };
    }
    case "freeform": {
      // Full, rounded shapes: a superellipse, dented here and there.
      const long = Math.min(length, width * 2.4);
      const n = d.pick([8, 9, 10]);
      const full = d.between(0.72, 0.9);
      const points = Array.from({ length: n }, (_, i): [number, number] => {
        const a = (2 * Math.PI * (i + 0.5 + d.between(-0.06, 0.06))) / n;
        const swell = d.between(0.92, 1.02);
        const bent = (c: number) => Math.sign(c) * Math.abs(c) ** full;
        return [
          Math.round((long / 2) * swell * bent(Math.cos(a))),
          Math.round((width / 2) * swell * bent(Math.sin(a))),
        ];
      });
      const sides = points.map((_, i) => `span-${i + 1}`);
      return { outline: { kind, points }, length: long * 0.95, width: width * 0.95, sides, corners: [] };
    }
    case "polygon": {
      const cut = d.mm(500, Math.min(1200, width / 3), 50);
      const points: [number, number][] = [
        [0, 0],
        [length - cut, 0],
        [length, cut],
        [length, width - cut],
        [length - cut, width],
        [0, width],
      ];
      return {
        outline: { kind, points, cornerRadius: d.mm(120, 400, 10) },
        length,
        width,
        sides: ["side-1", "side-5", "side-6"],
        corners: ["corner-1", "corner-6"],
      };
    }
  }
}

function randomFeatures(d: Dice, plan: Plan, shallow: number): FeatureSpec[] {
  const features: FeatureSpec[] = [];
  const endRadius = () => d.mm(80, 300, 10);
  const place = (run: string, low: number, high: number): RimPlace => ({
    run,
    part: Math.round(d.between(low, high) * 100) / 100,
  });
  const treads = (n: number, going: [number, number]) => {
    const rise = (shallow - 100) / (n + 1);
    return Array.from({ length: n }, (_, i) => ({
      depth: Math.round((130 + rise * (i + 0.6)) / 10) * 10,
      going: d.mm(going[0], going[1], 10),
    }));
  };
  if (d.chance(0.7)) {
    let n = d.pick([2, 3, 3, 4]);
    const kind = d.pick(["end", "corner", "along"] as const);
    if (kind === "end")
      features.push({
        kind: "steps",
        id: "steps",
        place: { kind: "end", end: "shallow" },
        treads: treads(n, [280, 420]),
      });
    else if (kind === "corner" && plan.corners.length > 0) {
      const list = treads(n, [280, 350]);
      list[0].going = d.mm(650, 900, 10);
      features.push({
        kind: "steps",
        id: "steps",
        place: { kind: "corner", corner: d.pick(plan.corners), shape: "round" },
        treads: list,
      });
    } else {
      const run = d.pick(plan.sides);
      const most = plan.width * 0.33;
      while (n > 1 && 300 * n > most) n--;
      features.push({
        kind: "steps",
        id: "steps",
        place: {
          kind: "along",
          from: place(run, 0.1, 0.35),
          to: place(run, 0.55, 0.9),
          endRadius: endRadius(),
        },
        treads: treads(n, [260, 340]),
      });
    }
  }
  if (d.chance(0.45)) {
    const run = d.pick(plan.sides);
    const other = d.chance(0.3) ? plan.sides[(plan.sides.indexOf(run) + 1) % plan.sides.length] : run;
    features.push({
      kind: "bench",
      id: "bench",
      place:
        other === run
          ? { kind: "along", from: place(run, 0, 0.4), to: place(run, 0.6, 1), endRadius: endRadius() }
          : { kind: "along", from: place(run, 0.3, 0.7), to: place(other, 0.3, 0.7), endRadius: endRadius() },
      depth: d.mm(400, 600, 10),
      width: d.mm(350, 550, 10),
    });
  }
  if (d.chance(0.3)) {
    const kind = d.pick(["end", "corner", "along"] as const);
    const depth = d.mm(220, 450, 10);
    if (kind === "corner" && plan.corners.length > 0)
      features.push({
        kind: "ledge",
        id: "ledge",
        place: { kind: "corner", corner: d.pick(plan.corners), shape: d.pick(["round", "square"] as const) },
        depth,
        reach: d.mm(1100, 1500, 10),
      });
    else if (kind === "along") {
      const run = d.pick(plan.sides);
      features.push({
        kind: "ledge",
        id: "ledge",
        place: {
          kind: "along",
          from: place(run, 0.05, 0.3),
          to: place(run, 0.7, 0.95),
          endRadius: endRadius(),
        },
        depth,
        reach: d.mm(600, Math.min(1200, plan.width / 2.6), 10),
      });
    } else
      features.push({
        kind: "ledge",
        id: "ledge",
        place: { kind: "end", end: d.pick(["shallow", "deep"] as const) },
        depth,
        reach: d.mm(900, Math.min(2200, plan.length / 3), 10),
      });
  }
  if (d.chance(0.35)) {
    features.push({
      kind: "seat",
      id: "seat",
      place: { kind: "end", end: "deep" },
      depth: d.mm(400, 650, 10),
      reach: d.mm(350, 600, 10),
    });
  }
  return features;
}
