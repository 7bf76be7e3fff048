import type { Kind } from "./rectangles.ts";

/** A rectangle on a stretch of stock. */
export interface Laid {
  readonly kind: Kind;
  /** Its lower left corner. */
  readonly x: number;
  readonly y: number;
}

/** What a stretch of stock holds, and what is left over, in the order it was given. */
export interface Filled {
  readonly laid: readonly Laid[];
  readonly left: readonly number[];
}

/**
 * Fills a stretch of stock with rectangles from its beginning on. The line along which they end so far (the skyline) is made of
 * steps; the step that lies furthest back is filled next with the rectangle that fits it best: one that fills its width and
 * is level with the higher side, then one that fills its width, then one that is level; of equal ones the first of the
 * list. It stands against the higher side. A step that nothing fits is given up (Leung, Zhang and Sim, "A two-stage
 * intelligent search algorithm for the two-dimensional strip packing problem", EJOR 215 (2011)).
 *
 * @param pieces numbers of demands, those first that are to be preferred
 * @param kindsOf for each demand the ways in which its rectangle may lie
 */
export function fillSkyline(
  pieces: readonly number[],
  kindsOf: readonly (readonly Kind[])[],
  length: number,
  width: number,
): Filled {
  /** Steps from low to high: where each begins across the stock, how wide it is, and how far along it lies. */
  const steps = [{ y: 0, width, x: 0 }];
  const left = [...pieces];
  const laid: Laid[] = [];
  while (left.length > 0) {
    let at = 0;
    for (let i = 1; i < steps.length; i++) if (steps[i].x < steps[at].x) at = i;
    const step = steps[at];
    const below = (at > 0 ? steps[at - 1].x : length) - step.x;
    const above = (at + 1 < steps.length ? steps[at + 1].x : length) - step.x;
    const best = bestFor(left, kindsOf, step.width, length - step.x, Math.max(below, above));
    if (best === null) {
      if (steps.length === 1) break;
      step.x += Math.min(below, above);
    } else {
      const { kind, place } = best;
      left.splice(place, 1);
      const lower = below >= above;
      const y = lower ? step.y : step.y + step.width - kind.width;
      laid.push({ kind, x: step.x, y });
      const own = { y, width: kind.width, x: step.x + kind.length };
      if (kind.width === step.width) steps[at] = own;
      else {
        step.width -= kind.width;
        if (lower) step.y += kind.width;
        steps.splice(lower ? at : at + 1, 0, own);
      }
    }
    for (let i = steps.length - 1; i > 0; i--) {
      if (steps[i].x !== steps[i - 1].x) continue;
      steps[i - 1].width += steps[i].width;
      steps.splice(i, 1);
    }
  }
  return { laid, left };
}

function bestFor(
  left: readonly number[],
  kindsOf: readonly (readonly Kind[])[],
  width: number,
  length: number,
  side: number,
): { readonly kind: Kind; readonly place: number } | null {
  let best: { readonly kind: Kind; readonly place: number } | null = null;
  let most = -1;
  for (let place = 0; place < left.length; place++) {
    if (place > 0 && left[place] === left[place - 1]) continue;
    for (const kind of kindsOf[left[place]]) {
      if (kind.width > width || kind.length > length) continue;
      const value = fitness(kind.width === width, kind.length - side);
      if (value <= most) continue;
      most = value;
      best = { kind, place };
      if (value === 4) return best;
    }
  }
  return best;
}

/** @param over by how much the rectangle is longer than the higher side */
function fitness(fillsWidth: boolean, over: number): number {
  if (fillsWidth) return over === 0 ? 4 : over > 0 ? 3 : 2;
  return over === 0 ? 1 : 0;
}
