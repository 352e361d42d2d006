import type { Notebook } from '../../shared/notebook.ts';
import { limitsOf, limitValue } from '../notebook/read.ts';

/** A named limit's value on a day, as the person set it; `undefined` where there is no such limit. */
export function limitByKey(notebook: Notebook, day: string, key: string): number | undefined {
  const limit = limitsOf(notebook).find((one) => one.key === key);
  return limit && limitValue(notebook, day, limit.id);
}
