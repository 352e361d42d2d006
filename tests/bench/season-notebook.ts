import type { Stamp } from '../../shared/cell.ts';
import type { SetTo } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { addDay } from '../../src/notebook/edit-days.ts';
import { fromTemplate } from '../../src/notebook/from-template.ts';
import { readTemplate } from '../../src/notebook/read-template.ts';
import { ordersAtEnd, setsOf } from '../../src/notebook/record-sets.ts';
import summer from '../../templates/summer-grazing.json' with { type: 'json' };

const stamp: Stamp = [1, 0, 'bench'];

/** The tag, and id, of an animal by its number from 0. */
export function tagOf(animal: number): string {
  return `A-${String(animal + 1).padStart(5, '0')}`;
}

/** The sampling days, two weeks apart from April on; each is its own id. */
export function dayIds(days: number): readonly string[] {
  return Array.from({ length: days }, (_, i) =>
    new Date(Date.UTC(2026, 3, 3 + 14 * i)).toISOString().slice(0, 10),
  );
}

/**
 * A summer grazing notebook with every block of its template, in two groups: two chambers and an eyelid score
 * for each animal on each day. On the last day only the first `countedLast` of them are counted.
 */
export function seasonNotebook(animals: number, days: number, countedLast = animals): Notebook {
  const template = readTemplate(summer);
  if (isFault(template)) throw new Error(template.sentence);
  const start = fromTemplate(template, {
    id: 'n-bench',
    title: 'A long season',
    stamp,
    bind: toStored,
  });
  const dates = dayIds(days);
  const withDays = dates.reduce((notebook, date) => {
    const added = addDay(notebook, date, '');
    return isFault(added) ? notebook : applyEdit(notebook, added.edit, stamp).notebook;
  }, start);
  const sets = ordersAtEnd([], animals).flatMap((order, i): SetTo[] => {
    const tag = tagOf(i);
    const group = i % 2 === 0 ? 'ewes' : 'lambs';
    return [
      ...setsOf('animals', tag, { tag, species: 'sheep', order }),
      { path: ['groups', tag, dates[0] ?? ''], value: group },
      ...dates.flatMap((date, d) =>
        d === days - 1 && i >= countedLast ? [] : countsOf(tag, date, i, d),
      ),
    ];
  });
  return applyEdit(withDays, { label: 'bench', source: 'template', sets }, stamp).notebook;
}

function countsOf(tag: string, date: string, i: number, d: number): SetTo[] {
  const number = (column: string, value: number): SetTo => ({
    path: ['readings', date, tag, column],
    value: { kind: 'number', text: String(value), value },
  });
  return [
    number('c-chamber1', (i * 7 + d * 13) % 37),
    number('c-chamber2', (i * 7 + d * 13 + 3) % 41),
    number('c-eyelid', 1 + ((i + d) % 5)),
  ];
}
