import type { Notebook } from '../../shared/notebook.ts';
import { daysOf, treatmentsOf } from '../notebook/read.ts';

/** Two sampling days and the products given between them. */
export interface CheckChoice {
  readonly before: string;
  readonly after: string;
  readonly products: readonly string[];
}

/**
 * What a dewormer check starts from: the newest treatment that has a sampling day on or before its date and one
 * after it, the nearest of each, and every product given between the two. `null` while there is none.
 */
export function checkChoice(notebook: Notebook): CheckChoice | null {
  const days = daysOf(notebook);
  const newestFirst = [...treatmentsOf(notebook)].reverse();
  for (const { date } of newestFirst) {
    if (date === undefined) continue;
    const before = days.filter((day) => day.date <= date).at(-1);
    const after = days.find((day) => day.date > date);
    if (!before || !after) continue;
    return {
      before: before.id,
      after: after.id,
      products: productsBetween(notebook, before.id, after.id),
    };
  }
  return null;
}

/** The products given on the first day (after its count) or later, and before the second. */
export function productsBetween(
  notebook: Notebook,
  before: string,
  after: string,
): readonly string[] {
  const dateOf = (id: string): string => daysOf(notebook).find((day) => day.id === id)?.date ?? '';
  const [from, to] = [dateOf(before), dateOf(after)];
  const given = treatmentsOf(notebook).flatMap(({ date, product }) =>
    date !== undefined && product !== undefined && date >= from && date < to ? [product] : [],
  );
  return [...new Set(given)];
}
