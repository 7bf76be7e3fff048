/** A line on the shell with a figure at each of its points: something that is dragged along it reads the figure there. */
export interface Ruler {
  /** x y z of each point, mm. */
  readonly points: Float32Array;
  /** The figure at each point, rising. */
  readonly figures: Float64Array;
  /** A closed line: after the last point the first comes again, its figure greater by this. */
  readonly round?: number;
}

/** The point of a ruler at a figure; its ends for figures beyond them. */
export function pointAtFigure({ points, figures, round }: Ruler, figure: number): [number, number, number] {
  const count = figures.length;
  const wanted = round === undefined ? figure : onRound(figure, figures[0], round);
  const at = (i: number, k: number) => points[3 * (i % count) + k];
  const of = (i: number) => (i < count ? figures[i] : figures[0] + (round ?? 0));
  const last = round === undefined ? count - 1 : count;
  let i = 1;
  while (i < last && of(i) < wanted) i++;
  const [low, high] = [of(i - 1), of(i)];
  const t = high > low ? Math.min(1, Math.max(0, (wanted - low) / (high - low))) : 0;
  return [0, 1, 2].map((k) => at(i - 1, k) + t * (at(i, k) - at(i - 1, k))) as [number, number, number];
}

const onRound = (figure: number, first: number, round: number): number =>
  figure - Math.floor((figure - first) / round) * round;

/**
 * The figure at the place of a ruler that is nearest to a spot of the picture. `seen`: x y of each of its points in the picture,
 * pixels. Only places within `reach` of the figure held are looked at, so that a loop's far side is never caught.
 */
export function figureNear(
  ruler: Ruler,
  seen: Float64Array,
  spot: { readonly x: number; readonly y: number },
  held: number,
  reach: number,
): number {
  const { figures, round } = ruler;
  const count = figures.length;
  let best = Infinity;
  let found = held;
  for (let i = 0; i < (round === undefined ? count - 1 : count); i++) {
    const next = (i + 1) % count;
    const from = figures[i];
    const to = next === 0 ? figures[0] + (round ?? 0) : figures[next];
    const [ax, ay, bx, by] = [seen[2 * i], seen[2 * i + 1], seen[2 * next], seen[2 * next + 1]];
    const square = (bx - ax) ** 2 + (by - ay) ** 2;
    const along = (spot.x - ax) * (bx - ax) + (spot.y - ay) * (by - ay);
    const t = square > 0 ? Math.min(1, Math.max(0, along / square)) : 0;
    const off = (spot.x - ax - t * (bx - ax)) ** 2 + (spot.y - ay - t * (by - ay)) ** 2;
    let figure = from + t * (to - from);
    if (round !== undefined) figure += Math.round((held - figure) / round) * round;
    if (off >= best || Math.abs(figure - held) > reach) continue;
    best = off;
    found = figure;
  }
  return found;
}
