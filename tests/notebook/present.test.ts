import { expect, it } from 'vitest';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { groupsOn, presentAnimals } from '../../src/notebook/present.ts';
import { edited, fields, nextStamp, summerNotebook, typing } from '../build-notebook.ts';

const day = '2026-05-03';
const herd = summerNotebook({
  animals: { a: { group: 'ewes' }, b: { group: 'lambs', left: '2026-05-01' }, c: {} },
  days: { [day]: {} },
});
const ids = (notebook: typeof herd): string =>
  presentAnimals(notebook, day)
    .map(({ id }) => id)
    .join(' ');

it('gives the same animals as the same array, so that views can compare by identity', () => {
  const { notebook } = edited(herd, [typing(herd, day, 'a', 'chamber1', '3')]);
  expect(ids(herd)).toBe('a c');
  expect(presentAnimals(notebook, day)).toBe(presentAnimals(herd, day));
  expect(groupsOn(notebook, day)).toBe(groupsOn(herd, day));
});

it('takes in an animal past its leaving date as soon as something is typed for it, in place', () => {
  const start = structuredClone(herd);
  expect(ids(start)).toBe('a c');
  const type = (from: typeof herd, text: string): typeof herd => {
    const sets = [typing(from, day, 'b', 'chamber1', text)];
    const edit = { label: 'count', source: 'typed' as const, sets };
    return applyEdit(from, edit, nextStamp(), 'days in place').notebook;
  };
  const typed = type(start, '7');
  expect(ids(typed)).toBe('a b c');
  expect(groupsOn(typed, day)).toEqual(['ewes', 'lambs']);
  expect(ids(type(typed, ''))).toBe('a c');
});

it('follows a leaving date that is put in, and a move to another group', () => {
  expect(ids(herd)).toBe('a c');
  const left = edited(herd, fields('animals', 'c', { left: day })).notebook;
  expect(ids(left)).toBe('a');
  const set = { path: ['groups', 'a', '2026-05-02'] as const, value: 'hill' };
  expect(groupsOn(edited(herd, [set]).notebook, day)).toEqual(['hill']);
  expect(groupsOn(herd, day)).toEqual(['ewes']);
});
