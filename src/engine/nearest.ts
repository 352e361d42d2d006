/** Single-letter steps from one word to the other: insert, drop, change, or swap of neighbours. */
function steps(a: string, b: string): number {
  const width = b.length + 1;
  let before: number[] = [];
  let last = Array.from({ length: width }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j < width; j++) {
      const same = a[i - 1] === b[j - 1];
      let least = Math.min(
        (last[j] ?? 0) + 1,
        (row[j - 1] ?? 0) + 1,
        (last[j - 1] ?? 0) + (same ? 0 : 1),
      );
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, (before[j - 2] ?? 0) + 1);
      row.push(least);
    }
    before = last;
    last = row;
  }
  return last[b.length] ?? a.length;
}

/**
 * The known word nearest to the one written, for "did you mean". A word that begins like the written one
 * (or the other way round) counts as near. Null only when nothing is known at all.
 */
export function nearest(written: string, known: Iterable<string>): string | null {
  const word = written.toLowerCase();
  let best: string | null = null;
  let least = Infinity;
  for (const candidate of known) {
    const other = candidate.toLowerCase();
    const begins = other.startsWith(word) || word.startsWith(other);
    const far = steps(word, other) - (begins ? Math.min(word.length, other.length) / 2 : 0);
    if (far < least) [best, least] = [candidate, far];
  }
  return best;
}
