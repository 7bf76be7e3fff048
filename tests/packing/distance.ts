/** Least distance between the boundaries of any two of these outlines (x y pairs), the slow way: every corner to every edge. */
export function leastDistance(outlines: readonly ArrayLike<number>[]): number {
  let least = Infinity;
  for (const one of outlines)
    for (const other of outlines) if (one !== other) least = Math.min(least, cornersToEdges(one, other));
  return least;
}

function cornersToEdges(corners: ArrayLike<number>, ring: ArrayLike<number>): number {
  let least = Infinity;
  for (let i = 0; i < corners.length; i += 2) {
    for (let j = 0; j < ring.length; j += 2) {
      const k = (j + 2) % ring.length;
      const [dx, dy] = [ring[k] - ring[j], ring[k + 1] - ring[j + 1]];
      const [px, py] = [corners[i] - ring[j], corners[i + 1] - ring[j + 1]];
      const along = Math.min(1, Math.max(0, (px * dx + py * dy) / (dx * dx + dy * dy)));
      least = Math.min(least, Math.hypot(px - along * dx, py - along * dy));
    }
  }
  return least;
}
