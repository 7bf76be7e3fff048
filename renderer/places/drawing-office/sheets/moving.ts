import { type LengthStyle, mmPerInch } from "../../../../core/units/length.ts";
import { isImperial } from "../../../parts/imperial.ts";
import { dot, type Handle, onward, type Spot } from "./handle.ts";

/** What a figure that is moved comes to whole parts of, mm: 10 mm or half an inch; fine, 1 mm or a sixteenth. */
export function grainOf(lengths: LengthStyle, fine: boolean): number {
  if (isImperial(lengths)) return fine ? mmPerInch / 16 : mmPerInch / 2;
  return fine ? 1 : 10;
}

/**
 * The spot of a handle after an arrow key: its figure grows or shrinks by `by` mm. A handle that moves along a line takes
 * the arrows along it; those across it count as well, up and right as onwards.
 */
export function nudged(handle: Handle, spot: Spot, arrow: Spot, by: number): Spot {
  const { along, stride } = handle;
  if (!along) return onward(spot, arrow, by);
  const share = dot(along, arrow);
  const way = Math.abs(share) > 0.3 ? Math.sign(share) : arrow.x + arrow.y;
  return onward(spot, along, way * by * stride);
}
