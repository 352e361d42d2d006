import type { Notebook } from '../shared/notebook.ts';
import { animalsOf, treatmentsOf } from '../src/notebook/read.ts';
import { notClear, notClearWords } from '../src/treating/clearance.ts';

/** Animals of which the same is not clear. */
export interface NotClearGroup {
  readonly sentence: string;
  readonly tags: readonly string[];
}

/** What is not clear on a date, over the animals still here, those with one sentence together. */
export function notClearOn(notebook: Notebook, date: string): readonly NotClearGroup[] {
  const treated = new Set(treatmentsOf(notebook).map(({ animal }) => animal));
  const groups = new Map<string, string[]>();
  for (const { id, tag, left } of animalsOf(notebook)) {
    if (!treated.has(id) || (left !== undefined && left <= date)) continue;
    const sentence = notClearWords(notClear(notebook, id, date)).join(' ');
    if (sentence === '') continue;
    const tags = groups.get(sentence);
    if (tags) tags.push(tag);
    else groups.set(sentence, [tag]);
  }
  return [...groups].map(([sentence, tags]) => ({ sentence, tags }));
}
