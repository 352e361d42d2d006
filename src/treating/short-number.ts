/** A number for a sentence: at most so many decimals, no zeros that say nothing, never `-0`. */
export function shortNumber(value: number, decimals = 2): string {
  const text = String(Number(value.toFixed(decimals)));
  return text === '-0' ? '0' : text;
}

/** A whole number with its word: `1 animal`, `3 animals`. */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}
