import { describe, expect, it } from 'vitest';
import { addCup, giveCup, nameCup, ownCups } from '../../src/notebook/own-cups.ts';
import { readingOf } from '../../src/notebook/read.ts';
import { undoing } from '../../src/notebook/undo.ts';
import { applyEdit, writeCells } from '../../src/notebook/apply-edit.ts';
import { isFault } from '../../shared/value.ts';
import type { Cup, Notebook } from '../../shared/notebook.ts';
import { after, animal, emptyHerd, good, refusal, withSets } from '../treating/herd.ts';

const DAY = '2026-06-14';

function herd(): Notebook {
  return animal(animal(emptyHerd([DAY]), 'A'), 'B', { left: '2026-06-01' });
}

function withCup(number: number, animals: readonly string[] = [], id = `cup-${number}`): Notebook {
  return after(herd(), addCup(herd(), DAY, number, animals, id));
}

function theCup(notebook: Notebook): Cup {
  const [cup] = ownCups(notebook, DAY);
  if (!cup) throw new Error('there is no cup');
  return cup;
}

const counted = (notebook: Notebook, row: string, value: number): Notebook =>
  withSets(notebook, [
    {
      path: ['readings', DAY, row, 'c-chamber1'],
      value: { kind: 'number', text: String(value), value },
    },
  ]);

describe('addCup', () => {
  it('adds cups, listed by number, with or without an animal', () => {
    const two = after(withCup(12), addCup(withCup(12), DAY, 3, ['A', 'B'], 'other'));
    expect(ownCups(two, DAY).map(({ number, animalIds }) => [number, animalIds])).toEqual([
      [3, ['A', 'B']],
      [12, []],
    ]);
    expect(ownCups(two, '2026-07-01')).toEqual([]);
  });

  it.each([[0], [2.5], [NaN], [100_000]])('refuses the number %s', (number) => {
    expect(refusal(addCup(herd(), DAY, number, [], 'x'))).toBe(
      'A cup has a whole number from 1 on. Type the number written on it.',
    );
  });

  it('refuses a number that another cup of the day bears', () => {
    expect(refusal(addCup(withCup(12), DAY, 12, [], 'x'))).toContain('Cup 12 is in this list');
  });
});

describe('giveCup', () => {
  const given = (notebook: Notebook, animals: readonly string[]): Notebook =>
    after(notebook, nameCup(theCup(notebook), animals));
  const why = (notebook: Notebook): string => refusal(giveCup(notebook, theCup(notebook)));

  it('moves what was typed into the animal’s row, and undo brings the cup back', () => {
    const before = given(counted(withCup(12), 'cup-12', 7), ['A']);
    const edit = good(giveCup(before, theCup(before)));
    const { notebook, changes } = applyEdit(before, edit, [900, 0, 't']);
    expect(readingOf(notebook, DAY, 'A', 'c-chamber1')).toMatchObject({ value: 7, text: '7' });
    expect(readingOf(notebook, DAY, 'cup-12', 'c-chamber1')).toBeUndefined();
    expect(ownCups(notebook, DAY)).toEqual([]);
    const step = { label: '', source: 'typed', stamp: [900, 0, 't'], changes } as const;
    const undone = undoing(notebook, step, [901, 0, 't'], new Map());
    const back = writeCells(notebook, undone.changes, [[901, 0, 't']]);
    expect(readingOf(back, DAY, 'A', 'c-chamber1')).toBeUndefined();
    expect(readingOf(back, DAY, 'cup-12', 'c-chamber1')).toMatchObject({ value: 7 });
    expect(ownCups(back, DAY)).toHaveLength(1);
  });

  it('refuses a cup of nobody and of several, whose counts are no one’s', () => {
    expect(why(withCup(12))).toBe(
      'Say first of which one animal cup 12 is: then its counts can go into that row.',
    );
    expect(why(withCup(12, ['A', 'B']))).toContain('of which one animal');
  });

  it('refuses an animal that is not here that day', () => {
    expect(why(withCup(12, ['B']))).toContain('B is not here on that day');
  });

  it('never writes over what the animal’s own row holds', () => {
    const both = counted(counted(withCup(12, ['A']), 'cup-12', 7), 'A', 3);
    expect(isFault(giveCup(both, theCup(both)))).toBe(true);
    expect(why(both)).toContain('A has chamber1 typed in its own row already');
  });
});
