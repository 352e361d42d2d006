import { describe, expect, it } from 'vitest';
import { bringsOf, type Brings } from '../../src/notebook/merge-brings.ts';
import { mergeNotebooks } from '../../src/notebook/merge.ts';
import { counted, twoCopies, type Copy } from './copies.ts';

const day = '2026-05-03';

function brings(mine: Copy, theirs: Copy): Brings {
  const stamp = mine.stamp(theirs.notebook);
  const merged = mergeNotebooks(mine.notebook, theirs.notebook, { stamp, now: stamp[0] });
  return bringsOf(mine.notebook, merged);
}

describe('bringsOf(mine, merged)', () => {
  it('counts readings, and which of them are counts', () => {
    const { phone, laptop } = twoCopies();
    laptop.write({ path: ['columns', 'c2', 'kind'], value: 'count' });
    phone.write({ path: ['columns', 'c2', 'kind'], value: 'count' });
    phone.type(day, 'a1', 'c2', counted(5));
    phone.type(day, 'a1', 'eyelid', counted(3));
    expect(brings(laptop, phone)).toMatchObject({ readings: 2, counts: 1, animals: [], days: [] });
  });

  it('names days and animals that are new here, and counts their facts with them', () => {
    const { phone, laptop } = twoCopies();
    phone.addAnimal('p7', 'K-020');
    phone.write({ path: ['animals', 'p7', 'species'], value: 'goat' });
    phone.write({ path: ['days', '2026-06-01', 'date'], value: '2026-06-01' });
    phone.write({ path: ['treatments', 't1', 'animal'], value: 'a1' });
    phone.write({ path: ['treatments', 't1', 'date'], value: day });
    expect(brings(laptop, phone)).toEqual({
      readings: 0,
      counts: 0,
      days: ['2026-06-01'],
      animals: ['p7'],
      treatments: 1,
      other: 0,
    });
  });

  it('counts changes of what is here already as other ones', () => {
    const { phone, laptop } = twoCopies();
    phone.write({ path: ['animals', 'a1', 'name'], value: 'Willow' });
    phone.write({ path: ['about', 'notebook', 'title'], value: 'Far Fell' });
    expect(brings(laptop, phone)).toMatchObject({ readings: 0, other: 2 });
  });

  it('is nothing at all where the other copy has nothing new', () => {
    const { phone, laptop } = twoCopies();
    laptop.type(day, 'a1', 'c2', counted(5));
    expect(brings(laptop, phone)).toEqual({
      readings: 0,
      counts: 0,
      days: [],
      animals: [],
      treatments: 0,
      other: 0,
    });
  });

  it('counts a reading once where its animal is united with the one here', () => {
    const { phone, laptop } = twoCopies();
    laptop.addAnimal('l7', 'K-020');
    phone.addAnimal('p7', 'K-020');
    phone.type(day, 'p7', 'c1', counted(4));
    expect(brings(laptop, phone)).toMatchObject({ readings: 1, animals: [] });
  });
});
