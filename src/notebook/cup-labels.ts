import type { Notebook } from '../../shared/notebook.ts';
import { lineOf } from './line.ts';
import { aboutOf, dayOf } from './read.ts';

/** What stands on one cup's label. */
export interface CupLabel {
  readonly tag: string;
  readonly number: number;
  readonly date: string;
  readonly title: string;
}

/** A label for every animal present, numbered and laid out in bench order. */
export function cupLabels(notebook: Notebook, dayId: string): readonly CupLabel[] {
  const day = dayOf(notebook, dayId);
  const date = [day?.date ?? dayId, day?.label].filter(Boolean).join(' ');
  const title = aboutOf(notebook).title ?? '';
  return lineOf(notebook, dayId, 'bench').map(({ tag }, i) => ({
    tag,
    number: i + 1,
    date,
    title,
  }));
}
