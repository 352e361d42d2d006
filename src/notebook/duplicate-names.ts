/**
 * The place of a name that stands twice in one JSON object, as the names that lead there; null when
 * there is none. Reading JSON keeps the last of the two and drops the other without a word, so a
 * file put together by hand could lose an animal. The text must be well-formed JSON.
 */
export function duplicateName(json: string): readonly string[] | null {
  const token = /"(?:[^"\\]|\\.)*"|[{}[\],]/g;
  const open: { names: Set<string> | null; at: string }[] = [];
  let isNameNext = false;
  for (let match = token.exec(json); match; match = token.exec(json)) {
    const [found] = match;
    const inside = open.at(-1);
    if (found === '{' || found === '[') {
      open.push({ names: found === '{' ? new Set() : null, at: '' });
      isNameNext = found === '{';
    } else if (found === '}' || found === ']') {
      open.pop();
      isNameNext = false;
    } else if (found === ',') {
      isNameNext = inside?.names != null;
    } else if (isNameNext && inside?.names) {
      const name = found.includes('\\') ? (JSON.parse(found) as string) : found.slice(1, -1);
      inside.at = name;
      if (inside.names.has(name)) return open.filter(({ names }) => names).map(({ at }) => at);
      inside.names.add(name);
      isNameNext = false;
    }
  }
  return null;
}
