import type { Block } from "./blocks.ts";
import type { Radii } from "./radii.ts";
import type { Refusal } from "./shell.ts";

/**
 * How many times larger than the smaller of two unequal radii to the wall a nose may be. Where a riser meets the wall square
 * the nose's ball turns from the one fillet to the other on an ellipse whose sharpest radius is (n + r)·sin 45°, which must
 * be more than its own n: n < 2.41 r. The rest is for drafted walls, which meet it less squarely.
 */
const MOST = 2;

/** A tread and its riser with unequal radii to the wall: the nose between them runs out over both fillets, and must be round enough for it. */
export function checkApart(blocks: readonly Block[], radii: Radii): Refusal[] {
  return blocks.flatMap((b): Refusal[] => {
    const [tread, riser] = [radii.step(b.top, "wall"), radii.step(b.riser, "wall")];
    const smaller = Math.min(tread, riser);
    if (tread === riser || b.nose <= MOST * smaller) return [];
    return [
      {
        path: "shell.radii.nose",
        value: Math.round(b.nose),
        why: `the nose of ${b.top}, ${Math.round(b.nose)} mm, cannot run out over the radii of ${tread} mm from tread to wall and ${riser} mm from riser to wall`,
        wouldWork: `a nose of at most ${Math.floor(MOST * smaller)} mm, or radii to the wall of at least ${Math.ceil(b.nose / MOST)} mm`,
      },
    ];
  });
}
