/** `A`, `A and B`, `A, B and C`; empty for none. */
export function wordList(words: readonly string[], joiner: 'and' | 'or' = 'and'): string {
  const last = words.at(-1);
  if (last === undefined) return '';
  if (words.length === 1) return last;
  return `${words.slice(0, -1).join(', ')} ${joiner} ${last}`;
}
