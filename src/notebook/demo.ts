import type { Stamp } from '../../shared/cell.ts';
import type { SetTo } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { Template } from '../../shared/template.ts';
import { isFault } from '../../shared/value.ts';
import { parseReading } from '../text/parse-reading.ts';
import { applyEdit } from './apply-edit.ts';
import { demoDays, demoRows, demoTreated } from './demo-rows.ts';
import { addDay } from './edit-days.ts';
import { fromTemplate } from './from-template.ts';
import { columnByKey } from './read.ts';
import { ordersAtEnd, setsOf } from './record-sets.ts';
import { say } from '../text/say.ts';

/** The id under which the demo is kept, so that it is made once and edits stay. */
export const demoId = 'demo-nettlewick-top';

/** The groups of the demo's rows, in the language of the one who looks at it. */
const groupNames: Readonly<Record<string, string>> = {
  ewes: say('ewes'),
  lambs: say('lambs'),
  goats: say('goats'),
};

const dayKeys = ['chamber1', 'chamber2', 'nematodirus', 'eyelid', 'condition', 'jaw', 'weight'];

/**
 * The demo notebook: about 40 invented ewes, lambs and goats, three groups, four sampling days, one
 * treatment between the second and the third, and a last day with every odd cup there is.
 */
export function demoNotebook(
  template: Template,
  stamp: Stamp,
  bind: (notebook: Notebook, shown: string) => string,
): Notebook {
  const start = fromTemplate(template, {
    id: demoId,
    title: say('Nettlewick Top'),
    place: say('an invented hill smallholding'),
    stamp,
    bind,
  });
  const withDays = demoDays.reduce((notebook, date) => {
    const added = addDay(notebook, date, '', say('demo'));
    return isFault(added) ? notebook : applyEdit(notebook, added.edit, stamp).notebook;
  }, start);
  const sets = [...animalSets(withDays), ...treatmentSets(), ...aboutSets()];
  return applyEdit(withDays, { label: say('the demo'), source: 'template', sets }, stamp).notebook;
}

function aboutSets(): SetTo[] {
  const words = say(
    'This notebook is a demo: place, animals and counts are invented. Change anything; it stays on this device. On the last day look at G-013 (too many to count), L-003 (one chamber only), L-011 (pale, no count) and W-107 (spoiled).',
  );
  return [
    ...setsOf('about', 'notebook', { demo: true, herdWord: 'flock' }),
    { path: ['blocks', 'b-note-demo', 'kind'], value: 'note' },
    { path: ['blocks', 'b-note-demo', 'title'], value: say('About this demo') },
    { path: ['blocks', 'b-note-demo', 'text'], value: words },
    { path: ['blocks', 'b-note-demo', 'order'], value: 'b00' },
  ];
}

function animalSets(notebook: Notebook): SetTo[] {
  const lines = demoRows.trim().split('\n');
  const orders = ordersAtEnd([], lines.length);
  return lines.flatMap((line, i) => {
    const [tag = '', name, species, kind, group = '', ...days] = line.split('|');
    const id = `a-${tag}`;
    const born = kind === 'lamb' ? '2026-03-25' : kind === 'kid' ? '2026-04-02' : undefined;
    const stage = kind === 'ewe' || kind === 'doe' ? 'in milk' : undefined;
    return [
      ...setsOf('animals', id, { tag, name, species, class: kind, born, stage, order: orders[i] }),
      { path: ['groups', id, demoDays[0]] as const, value: groupNames[group] ?? group },
      ...days.flatMap((day, at) => daySets(notebook, demoDays[at] ?? '', id, day)),
    ];
  });
}

function daySets(notebook: Notebook, day: string, row: string, line: string): SetTo[] {
  const [cells = '', status] = line.split('!');
  const typed = cells.trim().split(' ');
  if (status !== undefined) {
    const [word = '', ...rest] = status.split(' ');
    return [
      ...readingSet(notebook, day, row, 'status', word),
      ...daySets(notebook, day, row, [...typed, ...rest].join(' ')),
    ];
  }
  return dayKeys.flatMap((key, i) => readingSet(notebook, day, row, key, typed[i] ?? '-'));
}

function readingSet(
  notebook: Notebook,
  day: string,
  row: string,
  key: string,
  text: string,
): SetTo[] {
  const column = columnByKey(notebook, key);
  if (text === '-' || !column) return [];
  const value = parseReading(column, text, { decimalMark: '.', weightUnit: 'kg' });
  return value === null ? [] : [{ path: ['readings', day, row, column.id], value }];
}

function treatmentSets(): SetTo[] {
  const date = demoDays[1];
  return [
    ...setsOf('products', 'p-demo', {
      name: say('the drench in the blue can (invented)'),
      activeGroup: '',
      species: ['sheep', 'goat'],
      route: say('by mouth'),
      afterDays: 21,
      meat: { kind: 'not stated' },
      milk: { kind: 'not stated' },
      order: 'a0',
    }),
    ...demoTreated.flatMap((tag) =>
      setsOf('treatments', `t-${tag}`, {
        animal: `a-${tag}`,
        product: 'p-demo',
        date,
        by: say('demo'),
        route: say('by mouth'),
        byLabel: false,
        note: say('invented'),
      }),
    ),
  ];
}
