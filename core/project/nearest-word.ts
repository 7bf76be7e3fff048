/**
 * The word of a list that a mistyped one most likely means; undefined when none is near. Near is: less than half of
 * the longer word changed, or one word begins with the other (`draft`, `draftDeg`). Capitals do not matter.
 */
export function nearestWord(typed: string, words: readonly string[]): string | undefined {
  let best: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const word of words) {
    const changes = changesBetween(typed.toLowerCase(), word.toLowerCase());
    const longer = Math.max(typed.length, word.length);
    const begins = typed.length > 2 && (word.startsWith(typed) || typed.startsWith(word));
    if (changes < least && (begins || changes * 2 < longer)) {
      best = word;
      least = changes;
    }
  }
  return best;
}

/**
 * How many letters must be put in, left out, replaced or swapped with their neighbour to make one word of the other
 * (the restricted edit distance of F. J. Damerau, Communications of the ACM 7 (1964) 171–176).
 */
function changesBetween(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      row[j] = Math.min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (same ? 0 : 1));
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) row[j] = Math.min(row[j], before[j - 2] + 1);
    }
    before = above;
    above = row;
  }
  return above[b.length];
}
