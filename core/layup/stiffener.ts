import { pointAt } from "../plan/point-at.ts";
import type { ZoneSpec } from "../project/schema.ts";
import type { SurfaceCurve } from "../surface/curve.ts";
import { projectOnto } from "../surface/project.ts";
import { type Astray, isAstray, mm, unknownName } from "./adrift.ts";
import type { LaidStiffener } from "./laid.ts";
import { bevelOf } from "./rib.ts";
import { nearestMark } from "./rim-marks.ts";
import { stationIn } from "./row-obstacles.ts";
import { materialOf, type Site } from "./site.ts";

type StiffenerSpec = Extract<ZoneSpec, { kind: "stiffener" }>;

/**
 * Lays a strip along the underside of the coping on a straight run: in the middle of the flat between the rim's radius and the
 * edge's, as long as the run less its margins, with a bevel beyond each end.
 */
export function layStiffener(site: Site, spec: StiffenerSpec): LaidStiffener | Astray {
  const material = materialOf(site.project, spec.material, "strip");
  if (isAstray(material)) return material;
  const { runs, chain } = site.shell.outline;
  const straight = runs.filter((run) => run.kind === "straight");
  const run = runs.find((one) => one.id === spec.run);
  if (!run)
    return unknownName(
      "run of the rim",
      spec.run,
      straight.map((one) => one.id),
    );
  if (run.kind !== "straight") {
    const names = straight.map((one) => one.id).join(", ");
    return {
      why: `${run.id} is a curved run, and a stiffener is a straight strip.`,
      mend: names ? `A straight run: ${names}.` : "This rim has no straight run: leave the stiffener out.",
    };
  }
  const length = run.length - 2 * spec.margin;
  if (length < material.width) {
    return {
      why: `${run.id} is ${mm(run.length)} long, which margins of ${mm(spec.margin)} leave too short for a strip.`,
      mend: `A margin of at most ${mm(Math.max(0, (run.length - material.width) / 2))}, or a longer run.`,
    };
  }
  const flat = flatOf(site);
  const curve = lineUnder(site, run.from + spec.margin, length, (flat.from + flat.to) / 2);
  if (!curve) {
    return {
      why: `The underside of the coping was not found along ${run.id}.`,
      mend: "A wider flange, or smaller radii at the rim and the edge.",
    };
  }
  const wide = flat.to - flat.from;
  const mark = (what: string, station: number) => ({
    what,
    ...nearestMark(site.marks, stationIn(station, chain.length), chain.length),
    downMm: null,
  });
  return {
    id: spec.id,
    spec,
    kind: "stiffener",
    material,
    areaMm2: length * material.width,
    lengthMm: length,
    plies: 1,
    tape: [mark("start", run.from + spec.margin), mark("end", run.from + spec.margin + length)],
    doubts:
      wide < material.width - 0.5
        ? [`the strip is ${mm(material.width)} wide and the flat under the coping ${mm(wide)}`]
        : [],
    curve,
    cutLengthMm: length + 2 * bevelOf(material, site.project.shop.bevelDeg),
  };
}

/**
 * The flat of the coping, as distances out from the rim's outline, mm. The ball of radius r in the rim touches wall and top
 * from a centre r away from both; its foot on the top lies r(1 − sin δ)/cos δ out over a wall with draft δ.
 */
function flatOf({ shell }: Site): { from: number; to: number } {
  const { flange, rimRadius, edge } = shell.spec.coping;
  const draft = (shell.spec.draftDeg * Math.PI) / 180;
  const pair = shell.spec.radii.pairs.find(
    ({ between }) => between.includes("wall") && between.includes("coping/top"),
  );
  const r = pair?.radius ?? rimRadius;
  const lip = edge.kind === "flat" ? 0 : edge.radius;
  return { from: (r * (1 - Math.sin(draft))) / Math.cos(draft), to: flange - lip };
}

/** A straight line under the coping beside a stretch of the rim, `out` mm from it; null where there is no surface. */
function lineUnder(site: Site, from: number, length: number, out: number): SurfaceCurve | null {
  const count = 3;
  const points = new Float64Array(3 * count);
  const tangents = new Float64Array(3 * count);
  const normals = new Float64Array(3 * count);
  const stations = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const { x, y, tx, ty } = pointAt(site.shell.outline.chain, from + (length * i) / (count - 1));
    points.set([x + out * ty, y - out * tx, -site.project.shop.laidThickness], 3 * i);
    const local = site.near(points[3 * i], points[3 * i + 1], points[3 * i + 2]);
    if (!projectOnto(local, points, 3 * i, 1e-9)) return null;
    tangents.set([tx, ty, 0], 3 * i);
    normals.set(local.gradient, 3 * i);
    stations[i] = (length * i) / (count - 1);
  }
  return { points, tangents, normals, stations, length, closed: false };
}
