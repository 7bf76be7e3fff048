/**
 * A shell of the project file as a solid of the other kernel: the ground round the pool. It understands what the comparison
 * needs: any outline, a floor of stations with breaks and cross fall, draft, cove, full-width steps and ledges at the ends,
 * a flat or rolled coping.
 */
import { buildOutline } from "../../core/plan/build-outline.ts";
import { nearest } from "../../core/plan/nearest.ts";
import type { ShellSpec } from "../../core/project/schema.ts";
import { areaOf, below, drafted, fillet, measureOutline, type Solid, upright, volumeOf } from "./brep.ts";
import { endProfile, floorProfile } from "./profiles.ts";

export interface SolidShell {
  readonly ground: Solid;
  /** Of the pool's surface out to the end of the coping, mm². */
  readonly areaMm2: number;
  /** Of the water up to the coping's top, mm³. */
  readonly volumeMm3: number;
}

/** How far an edge's points may lie from a surface that it is to lie on, mm. */
const ON = 0.01;
/** Below the deepest floor the slab of ground goes on by this much, mm. */
const UNDER = 400;

/** Builds the solid of a shell whose surface is moved outwards by `offset` mm. Throws for figures that it does not understand. */
export function solidShell(spec: ShellSpec, offset = 0): SolidShell {
  const drawn = buildOutline(spec.outline);
  if (!drawn.ok) throw new Error(drawn.refusals.map((each) => each.why).join("\n"));
  const { chain, extent } = drawn.outline;
  const draft = (spec.draftDeg * Math.PI) / 180;
  const tan = Math.tan(draft);
  const { cove, step } = spec.radii;
  const { flange, rimRadius, edge } = spec.coping;
  if (edge.kind === "dropped" || spec.floor.hopper) throw new Error("no dropped edge and no hopper here");
  const lip = edge.kind === "rolled" ? edge.radius : 0;
  const { stations } = spec.floor;
  const shallowest = Math.min(...stations.map((s) => s.depth));
  const bottom = -Math.max(...stations.map((s) => s.depth)) - UNDER;
  const top = -offset;
  // Moved out square to itself, the wall moves by this much in plan.
  const wallOut = offset / Math.cos(draft);
  // The ground lies within the lip: its face moves in, while a flat flange ends where the coping is cut off.
  const slabOut = lip > 0 ? flange - offset : flange;
  const outwards = (x: number, y: number) => nearest(chain, x, y).distance;
  const onWall = (x: number, y: number, z: number) => Math.abs(outwards(x, y) - wallOut - z * tan) < ON;

  const slab = upright(chain, slabOut, bottom, top);
  const basin = drafted(chain, [wallOut + bottom * tan, bottom], [wallOut + 50 * tan, 50]);
  const fall = Math.atan(spec.floor.crossFall / 1000);
  const reach = extent.width;
  const earth = below(floorProfile(spec, extent.length), offset, 3 * bottom, reach, fall);
  let ground = slab.cut(basin.cut(earth));
  ground = fillet(
    ground,
    cove + offset,
    (x, y, z) => onWall(x, y, z) && z < -shallowest / 2 && z > bottom + 1,
  );

  for (const feature of spec.features) {
    const { profile, foot } = endProfile(feature, spec, extent.length, bottom);
    const block = upright(chain, flange / 2, bottom, top).intersect(
      below(profile, offset, 3 * bottom, reach),
    );
    ground = ground.fuse(block as Solid);
    ground = fillet(ground, step + offset, (x, y, z) => {
      const near = nearest(profile, x, z);
      if (Math.abs(near.distance - offset) > ON || z < bottom + 1) return false;
      return onWall(x, y, z) || foot(near.station);
    });
  }
  ground = fillet(ground, rimRadius - offset, (x, y, z) => onWall(x, y, z) && z > top - ON);
  const slabPlan = measureOutline(chain, slabOut);
  const volumeMm3 = slabPlan.area * (top - bottom) - volumeOf(ground);
  if (lip > 0) {
    const onLip = (x: number, y: number, z: number) =>
      Math.abs(outwards(x, y) - slabOut) < ON && z > top - ON;
    ground = fillet(ground, lip - offset, onLip);
  }
  const sides = slabPlan.length * ((lip > 0 ? -lip : top) - bottom);
  return { ground, areaMm2: areaOf(ground) - slabPlan.area - sides, volumeMm3 };
}
