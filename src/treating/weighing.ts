import type { Animal, Column, Notebook } from '../../shared/notebook.ts';
import { aboutOf, columnByKey, columnsOf, daysOf, readingOf } from '../notebook/read.ts';
import { kgPerLb } from '../text/parse-reading.ts';

/** One weight of one animal, always in kg, and the date it was weighed. */
export interface Weighing {
  readonly kg: number;
  readonly date: string;
}

/** The weight a dose is worked out from, and the one before it to hold it against. */
export interface DoseWeight extends Weighing {
  readonly before?: Weighing;
}

/**
 * The newest weight typed for an animal up to a date, with the one before; `null` where it was never
 * weighed. A weight typed in lb comes out in kg; a cell that could not be read as a weight is none.
 */
export function doseWeight(notebook: Notebook, animal: Animal, upTo: string): DoseWeight | null {
  const [latest, before] = weighingsOf(notebook, animal.id, upTo);
  if (!latest) return null;
  return before ? { ...latest, before } : latest;
}

/** All weights of an animal up to a date, newest first. */
export function weighingsOf(
  notebook: Notebook,
  animalId: string,
  upTo: string,
): readonly Weighing[] {
  const column = weightColumn(notebook);
  if (!column) return [];
  const usual = aboutOf(notebook).weightUnit ?? 'kg';
  return [...daysOf(notebook)]
    .reverse()
    .filter((day) => day.date <= upTo)
    .flatMap((day) => {
      const reading = readingOf(notebook, day.id, animalId, column.id);
      if (reading?.kind !== 'number') return [];
      const inLb = (reading.unit ?? usual) === 'lb';
      return [{ kg: inLb ? reading.value * kgPerLb : reading.value, date: day.date }];
    });
}

function weightColumn(notebook: Notebook): Column | undefined {
  const named = columnByKey(notebook, 'weight');
  if (named?.kind === 'weight') return named;
  return columnsOf(notebook).find((column) => column.kind === 'weight');
}
