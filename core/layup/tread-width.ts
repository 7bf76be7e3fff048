import type { Transition } from "../shell/transitions.ts";
import type { Site } from "./site.ts";
import { type NoseFaces, treadSection } from "./tread-section.ts";

/**
 * How wide a tread, bench or ledge top is from its riser to what stands behind it, as a person gives it: between the places where
 * the faces would meet without radii, in the middle of its longest nose; and how long that nose is. Zero where it has no plain
 * corner there. Lengths mm.
 */
export function treadWidth(
  site: Site,
  faces: NoseFaces & { readonly lines: readonly Transition[] },
): { readonly width: number; readonly nose: number } {
  const longest = faces.lines.reduce((a, b) => (b.curve.length > a.curve.length ? b : a));
  const { length } = longest.curve;
  const section = treadSection(site, longest, faces, length / 2, Number.POSITIVE_INFINITY, 100);
  if (!section) return { width: 0, nose: length };
  // The radius at the back takes as much of the tread as itself, but for the draft.
  const width = section.underPlain + site.shell.spec.radii.step;
  return { width, nose: length };
}
