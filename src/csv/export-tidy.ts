import type { Engine } from '../../shared/derived.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { outcomeOf } from '../notebook/outcome.ts';
import { ownCups } from '../notebook/own-cups.ts';
import { presentAnimals } from '../notebook/present.ts';
import { animalOf, dayOf } from '../notebook/read.ts';
import { cupNumbers } from './cup-numbers.ts';
import { tidyHeadings } from './own-file.ts';
import { TidyWriter } from './tidy-row.ts';
import { type WriteCell, type WriteOptions, writeTable } from './write-table.ts';

/** Told after each day, for long seasons. */
export type OnDay = (done: number, of: number) => void;

/**
 * The days as a tidy table: one row for each animal present and each cup of its own, every column of the
 * notebook, typed and worked out. It reads back to the same readings.
 *
 * @param engine one of the export's own, since its open day changes; never the page's.
 */
export async function tidyRows(
  notebook: Notebook,
  engine: Engine,
  days: readonly DayId[],
  options: WriteOptions,
  onDay: OnDay = () => undefined,
): Promise<readonly (readonly WriteCell[])[]> {
  const rows: (readonly WriteCell[])[] = [tidyHeadings(notebook)];
  const writer = new TidyWriter(notebook, options.style);
  for (const [i, id] of days.entries()) {
    const day = dayOf(notebook, id);
    if (!day) continue;
    await engine.open(notebook, id);
    const numbers = cupNumbers(notebook, id);
    for (const animal of presentAnimals(notebook, id)) {
      rows.push(
        writer.cells({
          day,
          animals: [animal],
          cup: null,
          cupNumber: numbers.get(animal.id) ?? null,
          value: (column) => engine.value(animal.id, column),
          outcome: outcomeOf(notebook, id, engine.criteria(animal.id)),
        }),
      );
    }
    for (const cup of ownCups(notebook, id)) {
      const animals = (cup.animalIds ?? []).flatMap((one) => animalOf(notebook, one) ?? []);
      rows.push(
        writer.cells({ day, animals, cup, cupNumber: null, value: () => null, outcome: null }),
      );
    }
    onDay(i + 1, days.length);
  }
  return rows;
}

/** The days as the text of a tidy CSV file. */
export async function tidyText(
  notebook: Notebook,
  engine: Engine,
  days: readonly DayId[],
  options: WriteOptions,
  onDay?: OnDay,
): Promise<string> {
  return writeTable(await tidyRows(notebook, engine, days, options, onDay), options);
}
