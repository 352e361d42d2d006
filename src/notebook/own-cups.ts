import type { Edit, SetTo } from '../../shared/edit.ts';
import type { Cup, Notebook } from '../../shared/notebook.ts';
import type { DayId, RowId } from '../../shared/ref.ts';
import { fault, type Fault } from '../../shared/value.ts';
import { say } from '../text/say.ts';
import { known, newest } from './cell.ts';
import { isPresent } from './present.ts';
import { animalOf, byText, columnOf, readingOf } from './read.ts';
import { setsOf } from './record-sets.ts';

/** A cup bears a number that can be written on it. */
const HIGHEST_NUMBER = 99_999;

/**
 * Cups of their own on a day, by number: of an animal not known yet, of several animals, or a second one of
 * one animal. What was counted in them stands in their own rows and in no animal's figures.
 */
export function ownCups(notebook: Notebook, day: DayId): readonly Cup[] {
  return Object.entries(notebook.cups)
    .map(([id, fields]) => known(id, fields))
    .filter((cup) => cup.day === day && cup.removed !== true && cup.number !== undefined)
    .sort((a, b) => (a.number ?? 0) - (b.number ?? 0) || byText(a.id, b.id));
}

/** Adds a cup of its own. Faults: no whole number from 1, a number that another such cup of the day bears. */
export function addCup(
  notebook: Notebook,
  day: DayId,
  number: number,
  animalIds: readonly RowId[],
  id: RowId,
): Edit | Fault {
  if (!(Number.isInteger(number) && number >= 1 && number <= HIGHEST_NUMBER))
    return fault(
      'cup-number',
      say('A cup has a whole number from 1 on. Type the number written on it.'),
    );
  if (ownCups(notebook, day).some((cup) => cup.number === number))
    return fault(
      'cup-number',
      say('Cup {number} is in this list already. Give this one another number.', { number }),
    );
  return {
    label: say('adding cup {number}', { number }),
    source: 'typed',
    sets: setsOf('cups', id, { day, number, animalIds }),
  };
}

/** Says whose dung a cup holds: nobody's yet, one animal's, or that of several. */
export function nameCup(cup: Cup, animalIds: readonly RowId[]): Edit {
  return {
    label: say('whose cup {number} is', { number: cup.number }),
    source: 'typed',
    sets: setsOf('cups', cup.id, { animalIds }),
  };
}

/**
 * Moves what was typed for a cup into the row of its one animal, where it counts as that animal's from then
 * on; the cup leaves the list. One edit, so that undo brings the cup back. Faults: a cup of none or of several
 * animals, an animal that is not present that day, or that has something typed in one of these columns.
 */
export function giveCup(notebook: Notebook, cup: Cup): Edit | Fault {
  const { id, day = '', number } = cup;
  const [row, ...others] = cup.animalIds ?? [];
  const animal = row === undefined ? undefined : animalOf(notebook, row);
  if (row === undefined || others.length > 0 || animal?.tag === undefined)
    return fault(
      'cup-animal',
      say('Say first of which one animal cup {number} is: then its counts can go into that row.', {
        number,
      }),
    );
  if (!isPresent(notebook, day, animal))
    return fault(
      'cup-animal',
      say('{tag} is not here on that day, so it has no row to put the counts into.', {
        tag: animal.tag,
      }),
    );
  const typed = Object.entries(notebook.readings[day]?.[id] ?? {}).flatMap(([column, cell]) => {
    const reading = newest(cell);
    return reading === undefined ? [] : [{ column, reading }];
  });
  const taken = typed.find(({ column }) => readingOf(notebook, day, row, column) !== undefined);
  if (taken)
    return fault(
      'cup-taken',
      say(
        '{tag} has {column} typed in its own row already. Keep this cup in the list, or clear that cell first.',
        {
          tag: animal.tag,
          column: columnOf(notebook, taken.column)?.label ?? taken.column,
        },
      ),
    );
  const moved = typed.flatMap(({ column, reading }): SetTo[] => [
    { path: ['readings', day, row, column], value: reading },
    { path: ['readings', day, id, column], value: null },
  ]);
  return {
    label: say('cup {number} into the row of {tag}', { number, tag: animal.tag }),
    source: 'typed',
    sets: [...moved, ...setsOf('cups', id, { removed: true })],
  };
}
