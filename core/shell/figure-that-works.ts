/** How near the figure that a refusal names is to the last that works, in its own unit. */
const NEAR = 1;

/**
 * The largest whole figure from `least` to `most` that works, by trying: null when not even the least does. What works must go on
 * working as the figure gets smaller.
 */
export function largestThatWorks(
  least: number,
  most: number,
  works: (figure: number) => boolean,
): number | null {
  const low = Math.ceil(least);
  if (!works(low)) return null;
  return between(low, Math.floor(most) + NEAR, works);
}

/** As `largestThatWorks`, the smallest: what works must go on working as the figure gets larger. */
export function smallestThatWorks(
  least: number,
  most: number,
  works: (figure: number) => boolean,
): number | null {
  const high = Math.floor(most);
  if (!works(high)) return null;
  return between(high, Math.ceil(least) - NEAR, works);
}

/** Halves the way from a figure that works to one that does not, or need not be tried. */
function between(good: number, bad: number, works: (figure: number) => boolean): number {
  let [yes, no] = [good, bad];
  while (Math.abs(yes - no) > NEAR) {
    const middle = yes < no ? Math.floor((yes + no) / 2) : Math.ceil((yes + no) / 2);
    if (works(middle)) yes = middle;
    else no = middle;
  }
  return yes;
}

/** The first step away from a figure that does not work; each is twice the one before. */
const FIRST = 5;

/** The whole figure nearest to `from` that works, on the way from there to `end`; null where none is met. */
export function nearestThatWorks(
  from: number,
  end: number,
  works: (figure: number) => boolean,
): number | null {
  const way = Math.sign(end - from);
  const whole = (figure: number) => (way < 0 ? Math.ceil(figure) : Math.floor(figure));
  let bad = from;
  for (let step = FIRST; way !== 0 && bad !== whole(end); step *= 2) {
    const tried = way * (from + way * step) > way * end ? whole(end) : Math.round(from + way * step);
    if (works(tried)) return between(tried, bad, works);
    bad = tried;
  }
  return null;
}
