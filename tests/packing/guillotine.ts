/**
 * An independent proof that straight cuts part rectangles: look for a line from edge to edge that cuts none of them and has
 * some on either side, and do the same on both sides, until every rectangle is alone.
 */
export interface Rectangle {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

/**
 * How often the direction of the cuts must change until every rectangle is alone, the first ones running across (x = some
 * number); Infinity when no cuts do it.
 *
 * @param hair rectangles may reach this far over a cut: what sums of lengths are rounded by
 */
export function cutStages(rectangles: readonly Rectangle[], hair = 1e-6, across = true): number {
  if (rectangles.length <= 1) return 0;
  const parts = partsBetweenCuts(rectangles, hair, across);
  if (parts.length > 1) return 1 + Math.max(...parts.map((part) => cutStages(part, hair, !across)));
  // Nothing to cut this way: it must go the other way, and then into more than one part.
  if (partsBetweenCuts(rectangles, hair, !across).length === 1) return Infinity;
  return 1 + cutStages(rectangles, hair, !across);
}

function partsBetweenCuts(rectangles: readonly Rectangle[], hair: number, across: boolean): Rectangle[][] {
  const from = ({ left, low }: Rectangle) => (across ? left : low);
  const to = ({ right, high }: Rectangle) => (across ? right : high);
  const parts: Rectangle[][] = [];
  let end = -Infinity;
  for (const rectangle of [...rectangles].sort((a, b) => from(a) - from(b))) {
    if (parts.length === 0 || from(rectangle) >= end - hair) parts.push([]);
    parts[parts.length - 1].push(rectangle);
    end = Math.max(end, to(rectangle));
  }
  return parts;
}
