import { buildOutline } from "../../../../core/plan/build-outline.ts";
import type {
  FeatureSpec,
  FittingSpec,
  FootprintSpec,
  OutlineSpec,
  ShellSpec,
} from "../../../../core/project/schema.ts";
import { outlineIn } from "../../../../core/shell/another-size.ts";

/** What is put in when a person asks for another kind of something, or for one more: common figures to go on from. */

/** Practice: figures that most shops would begin with; each is there to be changed. */
const LEDGE = { depth: 300, reach: 1800 };
const BENCH = { depth: 450, width: 450 };
const SEAT = { depth: 500, reach: 450 };
const TREAD = { depth: 300, going: 320 };
const NEXT_TREAD_DOWN = 260;

interface Runs {
  readonly straight: readonly string[];
  readonly curved: readonly string[];
}

const known = new WeakMap<OutlineSpec, Runs>();

/** Runs of the rim by their ids, straight ones and corners. Remembered: many a figure is chosen from them. */
export function runsOf({ outline }: ShellSpec): Runs {
  let runs = known.get(outline);
  if (!runs) {
    const built = buildOutline(outline);
    const all = built.ok ? built.outline.runs : [];
    const ids = (kind: "straight" | "curved") => all.filter((run) => run.kind === kind).map(({ id }) => id);
    runs = { straight: ids("straight"), curved: ids("curved") };
    known.set(outline, runs);
  }
  return runs;
}

export function startingOutline(kind: OutlineSpec["kind"], spec: ShellSpec): OutlineSpec {
  const built = buildOutline(spec.outline);
  const { length, width } = built.ok ? built.outline.extent : { length: 8000, width: 3500 };
  const cornerRadius = 300;
  const half = width / 2;
  switch (kind) {
    case "rectangle":
      return { kind, length, width, cornerRadius };
    case "stadium":
      return { kind, length, width };
    case "round-ended":
      return { kind, length, width, roundEnd: "deep", cornerRadius };
    case "ell":
      return {
        kind,
        length,
        width,
        cutLength: Math.round(0.45 * length),
        cutWidth: Math.round(0.35 * width),
        cutAt: "shallow-left",
        cornerRadius,
        reflexRadius: 500,
      };
    case "polygon":
      return {
        kind,
        points: [
          [0, -half],
          [length, -half],
          [length, half],
          [0, half],
        ],
        cornerRadius,
      };
    case "freeform": {
      // About as far as the rim then swings out; further, a wide one would pass what an outline may have before it is fitted.
      const aside = 0.8 * half;
      const points: [number, number][] = [
        [0, 0],
        [0.25 * length, -aside],
        [0.75 * length, -aside],
        [length, 0],
        [0.75 * length, aside],
        [0.25 * length, aside],
      ];
      // The rim swings beyond its points: they are drawn in until it has the size that it had.
      return outlineIn({ kind, points }, { along: 1, across: 1 }, { length, width });
    }
    case "path": {
      const bulge = 1;
      return {
        kind,
        start: [half, -half],
        segments: [
          { kind: "line", to: [length - half, -half] },
          { kind: "arc", to: [length - half, half], bulge },
          { kind: "line", to: [half, half] },
          { kind: "arc", to: [half, -half], bulge },
        ],
      };
    }
  }
}

export function startingFootprint(kind: FootprintSpec["kind"], spec: ShellSpec): FootprintSpec {
  const { straight, curved } = runsOf(spec);
  const run = straight[0] ?? curved[0] ?? "";
  switch (kind) {
    case "end":
      return { kind, end: "shallow" };
    case "corner":
      return { kind, corner: curved[0] ?? run, shape: "round" };
    case "along":
      return { kind, from: { run, part: 0.3 }, to: { run, part: 0.7 }, endRadius: 150 };
    case "round":
      return { kind };
  }
}

export function startingFeature(kind: FeatureSpec["kind"], spec: ShellSpec): FeatureSpec {
  const id = freshId(
    kind,
    spec.features.map((feature) => feature.id),
  );
  const along = startingFootprint("along", spec);
  switch (kind) {
    case "steps":
      return { kind, id, place: { kind: "end", end: "shallow" }, treads: [TREAD, nextTread(TREAD)] };
    case "bench":
      return { kind, id, place: along, ...BENCH };
    case "ledge":
      return { kind, id, place: { kind: "end", end: "shallow" }, ...LEDGE };
    case "seat":
      return { kind, id, place: along, ...SEAT };
  }
}

/** Practice: openings as most of these fittings have them. */
const SIZES: Record<FittingSpec["kind"], readonly [number, number]> = {
  skimmer: [400, 180],
  return: [60, 60],
  light: [220, 220],
  suction: [280, 280],
};

export function startingFitting(kind: FittingSpec["kind"], spec: ShellSpec): FittingSpec {
  const id = freshId(
    kind,
    spec.fittings.map((fitting) => fitting.id),
  );
  const [width, height] = SIZES[kind];
  const { straight, curved } = runsOf(spec);
  const at: FittingSpec["at"] =
    kind === "suction"
      ? { floor: { alongPart: 0.75, acrossPart: 0.5 } }
      : { wall: { run: straight[0] ?? curved[0] ?? "", part: 0.5 }, depth: kind === "skimmer" ? 130 : 400 };
  return { id, kind, at, width, height, clearance: 100 };
}

type Tread = { depth: number; going: number };
export const nextTread = ({ depth, going }: Tread): Tread => ({ depth: depth + NEXT_TREAD_DOWN, going });

/** `bench`, `bench-2`, `bench-3` …: the first that is free. */
function freshId(stem: string, taken: readonly string[]): string {
  if (!taken.includes(stem)) return stem;
  for (let n = 2; ; n++) if (!taken.includes(`${stem}-${n}`)) return `${stem}-${n}`;
}
