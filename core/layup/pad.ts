import type { ZoneSpec } from "../project/schema.ts";
import { tiersOf } from "../shell/blocks.ts";
import { type Astray, isAstray, mm, unknownFace } from "./adrift.ts";
import { planBox } from "./anchors.ts";
import { flatPatches, type PlanBox } from "./flat-patch.ts";
import { flatShape, outlineLength } from "./flat-shape.ts";
import { inset, type Region, subtract, withoutHoles } from "./inset.ts";
import type { FlatShape, LaidPad, TapeMark } from "./laid.ts";
import { featuresOf, materialOf, type Site } from "./site.ts";
import { readTape } from "./tape.ts";

type PadSpec = Extract<ZoneSpec, { kind: "pad" }>;

/** A patch narrower than this (twice its area over its outline) is left out, mm: core so narrow stiffens nothing. */
const NARROWEST = 25;

/**
 * Lays a flat pad on the back of a level face: its flat part within the tangent lines of the radii around it, drawn in by
 * the margin, less the keep-outs of fittings.
 */
export function layPad(site: Site, spec: PadSpec): LaidPad | Astray {
  const material = materialOf(site.project, spec.material, "sheet");
  if (isAstray(material)) return material;
  const level = levelOf(site, spec.on);
  if (isAstray(level)) return level;
  const box = planBox(site, spec.on);
  if (!box) {
    return {
      why: `${spec.on} is not to be seen on this shell: other faces lie over it.`,
      mend: "Bring the face into sight, or leave the pad out.",
    };
  }
  const { z } = level;
  const flat = flatPatches(site.near, site.field.faces.indexOf(spec.on), z, box, cellFor(box));
  const left = withoutHoles(subtract(inset(flat, spec.margin), keptOff(site, spec.on)));
  const all = left.map(flatShape).filter((shape) => shape.areaMm2 > 0);
  const shapes = all.filter((shape) => widthOf(shape) >= NARROWEST);
  if (shapes.length === 0) {
    const wide = Math.max(0, ...flat.map((loop) => widthOf(flatShape(loop))));
    return {
      why: `The flat of ${spec.on} is about ${mm(wide)} wide, and a margin of ${mm(spec.margin)} all round leaves no pad.`,
      mend: `A margin of at most ${mm(Math.max(0, wide / 2 - NARROWEST))}, or a wider ${spec.on}.`,
    };
  }
  // Biggest first, then from the shallow end: an order that does not hang on how the plan was searched.
  shapes.sort((a, b) => Math.round(b.areaMm2 - a.areaMm2) || a.points[0] - b.points[0]);
  return {
    id: spec.id,
    spec,
    kind: "pad",
    material,
    areaMm2: shapes.reduce((sum, shape) => sum + shape.areaMm2, 0),
    lengthMm: shapes.reduce((sum, shape) => sum + outlineLength(shape), 0),
    plies: 1,
    tape: shapes.map((shape, i) => markOf(site, shape, z, shapes.length > 1 ? `patch ${i + 1}` : "pad")),
    doubts: narrow(all),
    shapes: shapes.map((shape) => ({ shape, z })),
  };
}

/** Height of the back of a level face at the lay-up surface, mm. */
function levelOf(site: Site, face: string): { z: number } | Astray {
  const { shell, project } = site;
  const out = project.shop.laidThickness;
  const treads = shell.faces.filter((each) => each.kind === "tread").map((each) => each.id);
  const known = shell.faces.find((each) => each.id === face);
  if (!known) return unknownFace("tread, bench or ledge top", face, treads, featuresOf(site));
  if (face === "floor") {
    const { stations, crossFall, hopper } = shell.spec.floor;
    const flat = crossFall === 0 && !hopper && stations.every(({ depth }) => depth === stations[0].depth);
    if (flat) return { z: -stations[0].depth - out };
    return {
      why: "The floor falls, and a flat pad lies on a level face.",
      mend: "A floor of one depth without cross fall, or no pad on it.",
    };
  }
  const tier = shell.spec.features
    .flatMap((feature) => tiersOf(feature, ""))
    .find((each) => each.top === face);
  if (tier) return { z: -tier.depth - out };
  return {
    why: `${face} is not level, and a flat pad lies on a tread, bench or ledge top.`,
    mend: treads.length > 0 ? `One of ${treads.join(", ")}.` : "This shell has none.",
  };
}

/** Cells fine enough to find a flat that takes a sixth of the face's box, or 80 mm, mm. */
const cellFor = ({ minX, maxX, minY, maxY }: PlanBox): number =>
  Math.min(80, Math.max(25, Math.min(maxX - minX, maxY - minY) / 6));

function keptOff(site: Site, face: string): Region {
  if (face !== "floor") return [];
  return site.keepOuts.flatMap((keepOut) => {
    if (keepOut.on !== "floor") return [];
    const dx = keepOut.halfWidth + keepOut.clearance;
    const dy = keepOut.halfHeight + keepOut.clearance;
    const { x, y } = keepOut;
    return [[x - dx, y - dy, x + dx, y - dy, x + dx, y + dy, x - dx, y + dy]];
  });
}

/** Twice the area over half the outline: the width of a long strip, mm. */
const widthOf = (shape: FlatShape): number => (2 * shape.areaMm2) / outlineLength(shape);

function narrow(all: readonly FlatShape[]): string[] {
  const out = all.filter((shape) => widthOf(shape) < NARROWEST);
  if (out.length === 0) return [];
  const widest = Math.max(...out.map(widthOf));
  return [`${out.length > 1 ? `${out.length} patches` : "a patch"} at most ${mm(widest)} wide left out`];
}

/** The corner of a patch that lies nearest to the rim mark its tape would start from: its first point counted from the shallow end. */
function markOf(site: Site, { points }: FlatShape, z: number, what: string): TapeMark {
  let first = 0;
  for (let i = 2; i < points.length; i += 2) if (points[i] < points[first] - 1e-6) first = i;
  return { what: `${what}, corner`, ...readTape(site, [points[first], points[first + 1], z]) };
}
