import { curvePointAt, type SurfaceCurve } from "../surface/curve.ts";

/** Middles whose x differ by less than this from one to the next count as level, so that symmetric pools keep their names, mm. */
const LEVEL = 60;

/**
 * Names for lines that ask for the same name: the first keeps it plain, the others get `#2`, `#3` …, ordered by where
 * their middles lie: along x, and across (y) where they are level.
 */
export function distinctNames(
  lines: readonly { readonly name: string; readonly curve: SurfaceCurve }[],
): string[] {
  const names = lines.map((l) => l.name);
  const groups = new Map<string, number[]>();
  lines.forEach((l, i) => {
    const group = groups.get(l.name);
    if (group) group.push(i);
    else groups.set(l.name, [i]);
  });
  for (const [name, group] of groups) {
    if (group.length < 2) continue;
    const at = group.map((i) => ({ i, middle: middleOf(lines[i].curve) }));
    at.sort((p, q) => p.middle[0] - q.middle[0]);
    let rank = 1;
    for (let n = 0; n < at.length; ) {
      let end = n + 1;
      while (end < at.length && at[end].middle[0] - at[end - 1].middle[0] < LEVEL) end++;
      const level = at.slice(n, end).sort((p, q) => p.middle[1] - q.middle[1]);
      for (const { i } of level) {
        if (rank > 1) names[i] = `${name}#${rank}`;
        rank++;
      }
      n = end;
    }
  }
  return names;
}

/** Middle of an open curve, by its length; centre of a closed one. */
function middleOf(curve: SurfaceCurve): [number, number] {
  const out = new Float64Array(9);
  if (!curve.closed) {
    curvePointAt(curve, curve.length / 2, out);
    return [out[0], out[1]];
  }
  let x = 0;
  let y = 0;
  for (let n = 0; n < 48; n++) {
    curvePointAt(curve, (curve.length * n) / 48, out);
    x += out[0] / 48;
    y += out[1] / 48;
  }
  return [x, y];
}
