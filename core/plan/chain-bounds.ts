import type { Chain, Segment } from "./chain.ts";
import { turnTo } from "./nearest.ts";
import { segmentEnd, segmentStart } from "./segments.ts";

/** A box in plan, mm. */
export interface PlanBox {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

/** The smallest box, square to the axes, that holds a segment. */
export function segmentBounds(segment: Segment): PlanBox {
  const a = segmentStart(segment);
  const b = segmentEnd(segment);
  const box = {
    minX: Math.min(a.x, b.x),
    maxX: Math.max(a.x, b.x),
    minY: Math.min(a.y, b.y),
    maxY: Math.max(a.y, b.y),
  };
  if (segment.kind === "line") return box;
  const { cx, cy, radius } = segment;
  const passes = (px: number, py: number) => turnTo(segment, px, py) <= Math.abs(segment.sweep);
  if (passes(1, 0)) box.maxX = cx + radius;
  if (passes(-1, 0)) box.minX = cx - radius;
  if (passes(0, 1)) box.maxY = cy + radius;
  if (passes(0, -1)) box.minY = cy - radius;
  return box;
}

/** The smallest box, square to the axes, that holds a chain: exact. */
export function chainBounds(chain: Chain): PlanBox {
  const boxes = chain.segments.map(segmentBounds);
  return {
    minX: Math.min(...boxes.map((box) => box.minX)),
    maxX: Math.max(...boxes.map((box) => box.maxX)),
    minY: Math.min(...boxes.map((box) => box.minY)),
    maxY: Math.max(...boxes.map((box) => box.maxY)),
  };
}
