/** What each thing needs, by key; needs that are no key themselves are ignored. */
export type NeedGraph = ReadonlyMap<string, readonly string[]>;

/**
 * The loops of a graph: every set of things that lead back to themselves by way of one another (Tarjan's
 * strongly connected sets), each sorted by key. What only depends on a loop is not part of it.
 */
export function loopsIn(graph: NeedGraph): readonly (readonly string[])[] {
  const loops: string[][] = [];
  const index = new Map<string, number>();
  const low = new Map<string, number>();
  const stack: string[] = [];
  const onStack = new Set<string>();

  const finish = (key: string): void => {
    if (low.get(key) !== index.get(key)) return;
    const set: string[] = [];
    for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
      onStack.delete(top);
      set.push(top);
      if (top === key) break;
    }
    if (set.length > 1 || graph.get(key)?.includes(key)) loops.push(set.sort());
  };

  for (const start of graph.keys()) {
    if (index.has(start)) continue;
    // An explicit trail in place of recursion: a season of running totals may be a long chain.
    const trail: { key: string; next: number }[] = [];
    const enter = (key: string): void => {
      index.set(key, index.size);
      low.set(key, index.get(key) ?? 0);
      stack.push(key);
      onStack.add(key);
      trail.push({ key, next: 0 });
    };
    enter(start);
    for (let step = trail[trail.length - 1]; step; step = trail[trail.length - 1]) {
      const need = graph.get(step.key)?.[step.next++];
      if (need === undefined) {
        finish(step.key);
        trail.pop();
        const parent = trail[trail.length - 1];
        if (parent) lower(low, parent.key, low.get(step.key) ?? 0);
      } else if (graph.has(need)) {
        if (!index.has(need)) enter(need);
        else if (onStack.has(need)) lower(low, step.key, index.get(need) ?? 0);
      }
    }
  }
  return loops;
}

function lower(low: Map<string, number>, key: string, value: number): void {
  low.set(key, Math.min(low.get(key) ?? value, value));
}

/** One round of a loop, from its first member back to it: `a, b, a`. */
export function roundOf(graph: NeedGraph, loop: readonly string[]): readonly string[] {
  const first = loop[0] ?? '';
  const members = new Set(loop);
  const cameFrom = new Map<string, string>();
  const queue = [first];
  for (let key = queue.shift(); key !== undefined; key = queue.shift()) {
    for (const need of graph.get(key) ?? []) {
      if (need === first) {
        const way = [first];
        for (let at = key; at !== first; at = cameFrom.get(at) ?? first) way.unshift(at);
        return [first, ...way];
      }
      if (!members.has(need) || cameFrom.has(need)) continue;
      cameFrom.set(need, key);
      queue.push(need);
    }
  }
  return [first, first];
}
