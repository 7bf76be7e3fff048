import { pointAt } from "../plan/point-at.ts";
import { resolveRimPlace } from "../plan/rim-place.ts";
import type { FittingSpec } from "../project/schema.ts";
import type { Shell } from "../shell/shell.ts";

/** Where a fitting pierces the shell: reinforcement keeps off its size and its clearance. Lengths mm. */
export type KeepOut = OnWall | OnFloor;

interface Fitted {
  readonly id: string;
  readonly kind: FittingSpec["kind"];
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly clearance: number;
}

interface OnWall extends Fitted {
  readonly on: "wall";
  /** Rim station of its middle, and its depth below the rim, measured plumb. */
  readonly station: number;
  readonly depth: number;
  /** Plan point of the rim there, and the rim's direction. */
  readonly x: number;
  readonly y: number;
  readonly tx: number;
  readonly ty: number;
}

interface OnFloor extends Fitted {
  readonly on: "floor";
  /** Plan point of its middle; its width lies along the pool. */
  readonly x: number;
  readonly y: number;
}

/**
 * The fittings of a shell as keep-out areas. One on the floor lies at the given parts of the outline's box: along from the
 * shallow end, across from the right side.
 */
export function keepOuts(shell: Shell): KeepOut[] {
  return shell.spec.fittings.flatMap((fitting) => keepOutOf(fitting, shell) ?? []);
}

function keepOutOf(fitting: FittingSpec, { outline }: Shell): KeepOut | null {
  const { id, kind, at, width, height, clearance } = fitting;
  const size = { id, kind, halfWidth: width / 2, halfHeight: height / 2, clearance };
  if ("floor" in at) {
    const { length, width: across } = outline.extent;
    return {
      ...size,
      on: "floor",
      x: at.floor.alongPart * length,
      y: (at.floor.acrossPart - 0.5) * across,
    };
  }
  const place = resolveRimPlace(outline, at.wall);
  if (!("station" in place)) return null;
  const { x, y, tx, ty } = pointAt(outline.chain, place.station);
  return { ...size, on: "wall", station: place.station, depth: at.depth, x, y, tx, ty };
}

/** A fitting that a zone lies over, by name and size, for a doubt. */
export const called = (keepOut: KeepOut): string =>
  `${keepOut.id} (${2 * keepOut.halfWidth} × ${2 * keepOut.halfHeight} mm)`;

/** Whether a point of the shell (mm) lies over a fitting, or within `beyond` mm of its edges. */
export function liesOver(keepOut: KeepOut, x: number, y: number, z: number, beyond: number): boolean {
  const dx = x - keepOut.x;
  const dy = y - keepOut.y;
  if (keepOut.on === "floor")
    return Math.abs(dx) < keepOut.halfWidth + beyond && Math.abs(dy) < keepOut.halfHeight + beyond;
  const along = dx * keepOut.tx + dy * keepOut.ty;
  // The wall leans in with depth by less than half of it: what is further off lies on another wall.
  const off = dx * keepOut.ty - dy * keepOut.tx;
  return (
    Math.abs(along) < keepOut.halfWidth + beyond &&
    Math.abs(z + keepOut.depth) < keepOut.halfHeight + beyond &&
    Math.abs(off) < 300
  );
}
