import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { animalsNamed } from '../../src/treating/animals-named.ts';
import { checkChoice, productsBetween } from '../../src/treating/check-choice.ts';
import { clearance, notClear, notClearWords } from '../../src/treating/clearance.ts';
import { doseRound, roundTreated } from '../../src/treating/dose-round.ts';
import { READY_SETS } from '../../src/treating/ready-criteria.ts';
import { animal, emptyHerd, good, product, refusal, treated, typed } from './herd.ts';

const DAY = '2026-06-01';

function herd() {
  let notebook = emptyHerd(['2026-05-01', DAY, '2026-06-15']);
  for (const tag of ['A', 'B', 'C']) notebook = animal(notebook, tag, { class: 'ewe' });
  notebook = typed(notebook, DAY, 'A', 'weight', 40);
  notebook = typed(notebook, DAY, 'B', 'weight', 62);
  return product(notebook, 'p');
}

const asked = { product: 'p', date: DAY, byHeaviest: false, margin: 0.1 };

describe('doseRound', () => {
  it('gives each its own dose, and what to have ready', () => {
    // By the label of 1 mL per 5 kg: 40 kg take 8 mL, 62 kg 12.4 mL; together 20.4, a tenth more 22.44 (by hand).
    const round = good(doseRound(herd(), { ...asked, animals: ['A', 'B'] }));
    expect(round.doses.map(({ ml }) => ml)).toEqual([8, 12.4]);
    expect(round.total).toMatchObject({ ml: 20.4, withMarginMl: 22.44, dosed: 2, of: 2 });
  });

  it('stops for one without a weight and counts it in the total', () => {
    const round = good(doseRound(herd(), { ...asked, animals: ['A', 'C'] }));
    expect(round.doses[1]?.ml).toBeNull();
    expect(round.doses[1]?.answer.stops).toEqual([
      'C has no weight: weigh it first. A guessed weight runs low.',
    ]);
    expect(round.total).toMatchObject({ ml: 8, dosed: 1, of: 2 });
  });

  it('takes what was typed in place of a dose, an emptied one as none', () => {
    const typedMl = new Map<string, number | null>([
      ['A', 9],
      ['B', null],
    ]);
    const round = good(doseRound(herd(), { ...asked, animals: ['A', 'B'], typed: typedMl }));
    expect(round.doses.map(({ ml }) => ml)).toEqual([9, null]);
    expect(roundTreated(round)).toEqual([
      { animal: 'A', doseMl: 9, weightKg: 40 },
      { animal: 'B', doseMl: null, weightKg: 62 },
    ]);
  });

  it('doses a band by its heaviest', () => {
    const round = good(doseRound(herd(), { ...asked, byHeaviest: true, animals: ['A', 'B'] }));
    expect(round.doses.map(({ ml }) => ml)).toEqual([12.4, 12.4]);
    // 12.4 mL for an animal whose own is 8 mL.
    expect(round.band?.lightest?.times).toBeCloseTo(1.55, 10);
  });

  it('writes no weight down that cannot be one', () => {
    const heavy = typed(herd(), DAY, 'A', 'weight', 4000);
    const round = good(doseRound(heavy, { ...asked, animals: ['A'] }));
    expect(round.doses[0]?.ml).toBeNull();
    expect(roundTreated(round)).toEqual([{ animal: 'A', doseMl: null, weightKg: null }]);
  });

  it('asks for a product first', () => {
    expect(refusal(doseRound(herd(), { ...asked, product: '', animals: ['A'] }))).toContain(
      'Choose a product first',
    );
  });
});

describe('checkChoice', () => {
  it('takes the newest treatment that has a count before and after it', () => {
    const given = treated(treated(herd(), 'A', 'p', DAY), 'B', 'p', '2026-07-01');
    expect(checkChoice(given)).toEqual({ before: DAY, after: '2026-06-15', products: ['p'] });
  });

  it('has nothing to say of a log without such a treatment', () => {
    expect(checkChoice(herd())).toBeNull();
    expect(checkChoice(treated(herd(), 'A', 'p', '2026-06-15'))).toBeNull();
  });

  it('leaves out what was given on the second day', () => {
    const given = treated(herd(), 'A', 'p', '2026-06-15');
    expect(productsBetween(given, DAY, '2026-06-15')).toEqual([]);
  });
});

describe('animalsNamed', () => {
  it('reads tags between commas and line ends, each once, and names what is no tag', () => {
    const found = animalsNamed(herd(), 'A, B\nA; X9');
    expect(found.animals).toEqual(['A', 'B']);
    expect(found.sentence).toBe('1 tag is not in this notebook: X9.');
  });

  it('asks whether a tag that differs only by case, zeros or spaces is meant, and takes it for nobody’s', () => {
    const found = animalsNamed(animal(herd(), 'W-101'), 'w-0101, X9');
    expect(found.animals).toEqual([]);
    expect(found.sentence).toBe(
      '2 tags are not in this notebook: w-0101 (is W-101 meant?) and X9.',
    );
  });

  it('finds an animal by its electronic number however that is written', () => {
    const marked = animal(herd(), '0012', { electronic: '982000123456789' });
    expect(animalsNamed(marked, '982 000123456789').animals).toEqual(['0012']);
    expect(animalsNamed(marked, '12').unknown).toEqual(['12']);
  });
});

describe('notClearWords', () => {
  it('says meat and milk in one sentence where they stand alike, else in two', () => {
    const asks = treated(herd(), 'A', 'p', DAY);
    expect(notClearWords(notClear(asks, 'A', DAY))).toEqual([
      'Meat and milk: no clear date for p, ask your vet.',
    ]);
    const dated = treated(herd(), 'A', 'p', DAY, {
      meatClear: '2026-06-12',
      milkClear: 'not permitted',
    });
    expect(notClearWords(notClear(dated, 'A', DAY))).toHaveLength(2);
    expect(clearance(dated, 'A', '2026-06-12', 'meat').state).toBe('clear');
    expect(notClearWords(notClear(herd(), 'A', DAY))).toEqual([]);
  });
});

describe('READY_SETS', () => {
  it('has sheep and goats, where barber’s pole worm is rare and where it is common', () => {
    expect(READY_SETS.map(({ id }) => id)).toEqual([
      'sheep-low',
      'sheep-high',
      'goat-low',
      'goat-high',
    ]);
  });

  it('puts white eyelids, bottle jaw and pale eyelids first, and asks for the count, in every set', () => {
    for (const { criteria } of READY_SETS) {
      expect(criteria.slice(0, 3).map(({ condition }) => condition)).toEqual([
        'eyelid = 5',
        'jaw',
        'eyelid = 4',
      ]);
      expect(criteria.at(-1)).toMatchObject({ condition: 'epg >= treat_from', mustBeKnown: true });
      expect(criteria.filter(({ ready }) => ready === 'too-many')).toHaveLength(1);
    }
  });
});

it('is refused as a whole where a product is gone', () => {
  const answer = doseRound(herd(), { ...asked, product: 'gone', animals: ['A'] });
  expect(isFault(answer)).toBe(true);
});
