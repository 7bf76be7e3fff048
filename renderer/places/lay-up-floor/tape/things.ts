import type { FlatFace } from "../../../../core/layup/tape-treads.ts";
import type { FootStretch, TapeFitting, UnrolledWall } from "../../../../core/layup/tape-wall.ts";
import type { Pattern } from "../../../worker/drawing/drawing.ts";
import type { TapeView } from "../../../worker/messages.ts";
import type { LaidZoneView } from "../../../worker/results.ts";
import { boxOf, distanceRound, distanceTo, holds } from "./flat-lines.ts";
import type { Extent } from "./window.ts";

/** A part of a zone on the drawing, ready to be drawn and pointed at. Along and down (or across), mm. */
export interface Placed {
  readonly zone: string;
  readonly name: string;
  readonly pattern: Pattern;
  /** Strips lie up and down the wall (ribs) or along the rim (stiffeners). */
  readonly upright: boolean;
  readonly outline: ArrayLike<number>;
  readonly line: ArrayLike<number>;
  readonly edges: readonly [ArrayLike<number>, ArrayLike<number>] | null;
  /** Half widths of each ply. */
  readonly plies: readonly (readonly [number, number])[];
  readonly box: Extent;
  /** How far it is moved along to be seen between 0 and the rim's length: one entry, or two where it passes the shallow centre. */
  readonly shifts: readonly number[];
}

/** Cloth lies under strips, as on the shell. */
const order: Record<Pattern, number> = { weave: 0, cells: 1, hatch: 2, ticks: 3 };

/** Every figure on the wall, in the order in which it is drawn. */
export function placeOnWall({ wall, zones }: TapeView, laid: readonly LaidZoneView[]): Placed[] {
  const known = new Map(laid.map((zone) => [zone.id, zone]));
  const placed = zones.flatMap(({ id, figures }): Placed[] => {
    const zone = known.get(id);
    if (!zone) return [];
    return figures.map(({ name, outline, line, edges }) => {
      const box = boxOf(outline);
      return {
        zone: id,
        name,
        pattern: zone.drawing.pattern,
        upright: zone.kind !== "stiffener",
        outline,
        line,
        edges,
        plies: zone.drawing.plies,
        box,
        shifts: [-wall.rimLengthMm, 0, wall.rimLengthMm].filter(
          (shift) => box.x1 + shift > 0 && box.x0 + shift < wall.rimLengthMm,
        ),
      };
    });
  });
  return placed.sort((a, b) => order[a.pattern] - order[b.pattern]);
}

/** What lies on a level face, in the order in which it is drawn. */
export function placeOnFace(face: FlatFace, laid: readonly LaidZoneView[]): Placed[] {
  const known = new Map(laid.map((zone) => [zone.id, zone]));
  const placed = face.parts.flatMap(({ zone, name, outline }): Placed[] => {
    const pattern = known.get(zone)?.drawing.pattern;
    if (!pattern) return [];
    const none = { line: [], edges: null, plies: [], shifts: [0] };
    return [{ zone, name, pattern, upright: true, outline, box: boxOf(outline), ...none }];
  });
  return placed.sort((a, b) => order[a.pattern] - order[b.pattern]);
}

/** The box of the unrolled wall: the coping, the rim and as far down as anything goes. */
export function extentOfWall(wall: UnrolledWall, placed: readonly Placed[]): Extent {
  let y1 = 0;
  for (const { line } of wall.foot) for (let i = 1; i < line.length; i += 2) y1 = Math.max(y1, line[i]);
  for (const { box } of placed) y1 = Math.max(y1, box.y1);
  return { x0: 0, x1: wall.rimLengthMm, y0: -wall.copingMm, y1 };
}

/** The uppermost figure at a point, `reach` mm beside it at most. */
export function figureAt(placed: readonly Placed[], x: number, y: number, reach: number): Placed | null {
  for (let i = placed.length - 1; i >= 0; i--) {
    const { box, outline, shifts } = placed[i];
    for (const shift of shifts) {
      const at = x - shift;
      if (at < box.x0 - reach || at > box.x1 + reach || y < box.y0 - reach || y > box.y1 + reach) continue;
      if (holds(outline, at, y) || distanceTo(outline, at, y) < reach) return placed[i];
    }
  }
  return null;
}

/** The stretch of the foot that runs within `reach` mm of a point. */
export function stretchAt(wall: UnrolledWall, x: number, y: number, reach: number): FootStretch | null {
  let best = reach;
  let found: FootStretch | null = null;
  for (const stretch of wall.foot) {
    const off = distanceRound(stretch.line, x, y, wall.rimLengthMm);
    if (off > best) continue;
    best = off;
    found = stretch;
  }
  return found;
}

export const fittingAt = (wall: UnrolledWall, x: number, y: number, reach: number): TapeFitting | null =>
  wall.fittings.find(
    ({ alongMm, downMm, halfWidthMm, halfHeightMm }) =>
      Math.abs(x - alongMm) < halfWidthMm + reach && Math.abs(y - downMm) < halfHeightMm + reach,
  ) ?? null;

/** The face at a point: the wall above its foot, or what stands below it there. */
export function faceAt(wall: UnrolledWall, x: number, y: number): string | null {
  if (y < 0) return "coping/top";
  let below: { readonly face: string; readonly down: number } | null = null;
  for (const { face, line } of wall.foot)
    for (const turn of [-wall.rimLengthMm, 0, wall.rimLengthMm])
      for (let i = 2; i < line.length; i += 2) {
        const [ax, ay, bx, by] = [line[i - 2], line[i - 1], line[i], line[i + 1]];
        const at = x + turn;
        if (at < Math.min(ax, bx) || at > Math.max(ax, bx)) continue;
        const down = bx === ax ? ay : ay + ((at - ax) * (by - ay)) / (bx - ax);
        if (below === null || down < below.down) below = { face, down };
      }
  if (!below) return null;
  return y <= below.down ? "wall" : below.face;
}
