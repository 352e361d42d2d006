import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import { applyEdit, writeCells } from '../../src/notebook/apply-edit.ts';
import { choosing, clashesOf, otherValues } from '../../src/notebook/clashes.ts';
import { clocksAhead, mergeNotebooks, type Merged } from '../../src/notebook/merge.ts';
import { animalsOf, daysOf, readingOf } from '../../src/notebook/read.ts';
import { deepFreeze } from '../freeze.ts';
import { Copy, counted, twoCopies } from './copies.ts';

const now = 1_777_800_100_000;
const day = '2026-05-03';

function merge(
  mine: Copy,
  theirs: Copy,
  keepApart?: readonly (readonly [string, string])[],
): Merged {
  const stamp = mine.stamp(theirs.notebook);
  const merged = mergeNotebooks(deepFreeze(mine.notebook), deepFreeze(theirs.notebook), {
    stamp,
    now,
    ...(keepApart ? { keepApart } : {}),
  });
  const stamps = merged.changes.flatMap(({ to }) => (to ?? []).map(([, given]) => given));
  const taken = writeCells(mine.notebook, merged.changes, stamps);
  expect({ ...taken, seen: merged.seen }).toEqual(merged.notebook);
  mine.take(merged.notebook);
  return merged;
}

const tags = (notebook: Notebook): string[] => animalsOf(notebook).map(({ tag }) => tag);

describe('mergeNotebooks, where both copies wrote one cell', () => {
  it('lists a clash with both values, and an ordinary edit settles it for good', () => {
    const { phone, laptop } = twoCopies();
    phone.type(day, 'a1', 'c1', counted(4));
    laptop.type(day, 'a1', 'c1', counted(5));
    const { clashes } = merge(phone, laptop);
    expect(clashes.map(({ values }) => values.map(({ value }) => value))).toEqual([
      [counted(5), counted(4)],
    ]);
    const [clash] = clashes;
    if (!clash) return expect.unreachable();
    const edit = choosing(clash, counted(4), 'K-019');
    phone.take(applyEdit(phone.notebook, edit, phone.stamp()).notebook);
    expect(clashesOf(phone.notebook)).toEqual([]);
    expect(merge(phone, laptop).clashes).toEqual([]);
    expect(readingOf(phone.notebook, day, 'a1', 'c1')).toEqual(counted(4));
  });

  it('asks nothing where both typed the same count, though written differently', () => {
    const { phone, laptop } = twoCopies();
    phone.type(day, 'a1', 'c1', counted(5));
    laptop.type(day, 'a1', 'c1', { kind: 'number', text: '05', value: 5 });
    expect(merge(phone, laptop).clashes).toEqual([]);
  });

  it('marks no cell where both typed the same, and one that only one of them cleared', () => {
    const { phone, laptop } = twoCopies();
    phone.type(day, 'a1', 'c2', counted(0));
    laptop.type(day, 'a1', 'c2', counted(0));
    phone.type(day, 'a1', 'c1', counted(9));
    laptop.type(day, 'a1', 'c1', null);
    merge(phone, laptop);
    const cells = phone.notebook.readings[day]?.['a1'] ?? {};
    expect(cells['c2']).toHaveLength(2);
    expect(otherValues(cells['c2'])).toEqual([]);
    expect(otherValues(cells['c1'])).toEqual([counted(9)]);
  });

  it('asks where a number is the same but not its unit, and where one copy cleared the cell', () => {
    const { phone, laptop } = twoCopies();
    phone.type(day, 'a1', 'w', { kind: 'number', text: '40 kg', value: 40, unit: 'kg' });
    laptop.type(day, 'a1', 'w', { kind: 'number', text: '40 lb', value: 40, unit: 'lb' });
    phone.type(day, 'a1', 'c1', null);
    laptop.type(day, 'a1', 'c1', counted(7));
    expect(merge(phone, laptop).clashes).toHaveLength(2);
  });

  it('does not ask about the order of rows', () => {
    const { phone, laptop } = twoCopies();
    phone.write({ path: ['animals', 'a1', 'order'], value: 'a2' });
    laptop.write({ path: ['animals', 'a1', 'order'], value: 'a5' });
    expect(merge(phone, laptop).clashes).toEqual([]);
  });
});

describe('mergeNotebooks, where one copy removed what the other typed for', () => {
  it('brings back the animal, and lists it for review', () => {
    const { phone, laptop } = twoCopies();
    laptop.write({ path: ['animals', 'a1', 'removed'], value: true });
    phone.type(day, 'a1', 'c2', counted(8));
    const { revived } = merge(laptop, phone);
    expect(revived).toEqual([{ table: 'animals', id: 'a1' }]);
    expect(tags(laptop.notebook)).toEqual(['K-019']);
    merge(phone, laptop);
    expect(tags(phone.notebook)).toEqual(['K-019']);
  });

  it('brings back a day in the same way, from whichever side it is merged', () => {
    const { phone, laptop } = twoCopies();
    laptop.write({ path: ['days', day, 'removed'], value: true });
    phone.type(day, 'a1', 'c2', counted(8));
    expect(merge(phone, laptop).revived).toEqual([{ table: 'days', id: day }]);
    expect(daysOf(phone.notebook)).toHaveLength(1);
  });

  it('brings back an animal that the other copy treated', () => {
    const { phone, laptop } = twoCopies();
    laptop.write({ path: ['animals', 'a1', 'removed'], value: true });
    phone.write({ path: ['treatments', 't1', 'animal'], value: 'a1' });
    expect(merge(laptop, phone).revived).toEqual([{ table: 'animals', id: 'a1' }]);
  });

  it('leaves removed what was removed by someone who knew every count', () => {
    const { phone, laptop } = twoCopies();
    phone.type(day, 'a1', 'c2', counted(8));
    laptop.take(mergeNotebooks(laptop.notebook, phone.notebook, at(laptop, phone)).notebook);
    laptop.write({ path: ['animals', 'a1', 'removed'], value: true });
    expect(merge(phone, laptop).revived).toEqual([]);
    expect(tags(phone.notebook)).toEqual([]);
  });

  it('does not take a cleared cell for a count', () => {
    const { phone, laptop } = twoCopies();
    laptop.write({ path: ['animals', 'a1', 'removed'], value: true });
    phone.type(day, 'a1', 'c1', null);
    expect(merge(laptop, phone).revived).toEqual([]);
  });
});

function at(mine: Copy, theirs: Copy): { stamp: ReturnType<Copy['stamp']>; now: number } {
  return { stamp: mine.stamp(theirs.notebook), now };
}

describe('mergeNotebooks, where both copies added one animal', () => {
  function bothAdded(): { phone: Copy; laptop: Copy } {
    const copies = twoCopies();
    copies.phone.addAnimal('p7', '982 000123456789');
    copies.phone.type(day, 'p7', 'c1', counted(4));
    copies.phone.write({ path: ['animals', 'p7', 'name'], value: 'Willow' });
    copies.laptop.addAnimal('l7', '982000123456789');
    copies.laptop.type(day, 'l7', 'c2', counted(9));
    copies.laptop.write(
      { path: ['treatments', 't1', 'animal'], value: 'l7' },
      { path: ['cups', 'cup1', 'animalIds'], value: ['a1', 'l7'] },
      { path: ['groups', 'l7', day], value: 'hill' },
    );
    return copies;
  }

  it('unites them under the lesser id, with everything that was written for either', () => {
    const { phone, laptop } = bothAdded();
    const { united, clashes } = merge(phone, laptop);
    expect(united).toMatchObject([{ kept: 'l7', gone: 'p7', tag: '982000123456789' }]);
    expect(clashes).toEqual([]);
    expect(tags(phone.notebook)).toEqual(['K-019', '982000123456789']);
    expect(readingOf(phone.notebook, day, 'l7', 'c1')).toEqual(counted(4));
    expect(readingOf(phone.notebook, day, 'l7', 'c2')).toEqual(counted(9));
    expect(readingOf(phone.notebook, day, 'p7', 'c1')).toBeUndefined();
    expect(phone.values('animals', 'l7', 'name')).toEqual(['Willow']);
    expect(phone.values('animals', 'p7', 'unitedInto')).toEqual(['l7']);
  });

  it('makes the treatments and pooled cups of the one those of the other', () => {
    const { phone, laptop } = twoCopies();
    laptop.addAnimal('l7', 'B-7');
    phone.addAnimal('p7', 'B-7');
    phone.write(
      { path: ['treatments', 't1', 'animal'], value: 'p7' },
      { path: ['cups', 'cup1', 'animalIds'], value: ['a1', 'p7'] },
      { path: ['groups', 'p7', day], value: 'hill' },
    );
    merge(phone, laptop);
    expect(phone.values('treatments', 't1', 'animal')).toEqual(['l7']);
    expect(phone.values('cups', 'cup1', 'animalIds')).toEqual([['a1', 'l7']]);
    expect(phone.values('groups', 'l7', day)).toEqual(['hill']);
  });

  it('keeps both counts as a clash where both were counted', () => {
    const { phone, laptop } = bothAdded();
    laptop.type(day, 'l7', 'c1', counted(6));
    const { clashes } = merge(phone, laptop);
    expect(clashes.map(({ path, values }) => [path, values.map((v) => v.value)])).toEqual([
      [
        ['readings', day, 'l7', 'c1'],
        [counted(6), counted(4)],
      ],
    ]);
  });

  it('comes to one animal also where each device unites for itself and they meet again', () => {
    const { phone, laptop } = bothAdded();
    const before = new Copy('laptop', () => 1, laptop.notebook);
    merge(phone, laptop);
    merge(laptop, new Copy('phone', () => 1, phone.notebook));
    merge(phone, before);
    for (const copy of [phone, laptop]) {
      expect(tags(copy.notebook)).toEqual(['K-019', '982000123456789']);
      expect(readingOf(copy.notebook, day, 'l7', 'c1')).toEqual(counted(4));
      expect(readingOf(copy.notebook, day, 'l7', 'c2')).toEqual(counted(9));
    }
  });

  it('takes a count typed later, elsewhere, for the record that is gone', () => {
    const { phone, laptop } = bothAdded();
    const vet = new Copy('vet', () => 1, phone.notebook);
    merge(phone, laptop);
    vet.type(day, 'p7', 'c3', counted(2));
    const { united } = merge(phone, vet);
    expect(united.map(({ gone }) => gone)).toEqual(['p7']);
    expect(readingOf(phone.notebook, day, 'l7', 'c3')).toEqual(counted(2));
    expect(tags(phone.notebook)).toEqual(['K-019', '982000123456789']);
  });

  it('keeps them apart where a person says so, now and at every later merge', () => {
    const { phone, laptop } = bothAdded();
    expect(merge(phone, laptop, [['l7', 'p7']]).united).toEqual([]);
    expect(tags(phone.notebook)).toHaveLength(3);
    expect(merge(laptop, phone).united).toEqual([]);
    expect(tags(laptop.notebook)).toHaveLength(3);
  });

  it('does not unite tags that differ by zeros or case, nor two that one copy already held', () => {
    const { phone, laptop } = twoCopies();
    phone.addAnimal('p1', '0123');
    laptop.addAnimal('l1', '123');
    phone.addAnimal('p2', 'a12');
    laptop.addAnimal('l2', 'A12');
    laptop.addAnimal('l3', 'A12');
    expect(merge(phone, laptop).united).toEqual([]);
  });
});

describe('clocksAhead(seen, now)', () => {
  it('reports a device more than a day ahead, and no other', () => {
    const hour = 3_600_000;
    const ahead = clocksAhead({ barn: [now + 49 * hour, 0], bench: [now + 23 * hour, 0] }, now);
    expect(ahead).toMatchObject([{ device: 'barn' }]);
    expect(ahead[0]?.sentence).toContain('2 days ahead');
  });

  it('is part of every merge', () => {
    const { phone } = twoCopies();
    const future = new Copy('future', () => now + 4e11, phone.notebook);
    future.type(day, 'a1', 'c2', counted(1));
    expect(merge(phone, future).ahead).toMatchObject([{ device: 'future' }]);
  });
});
