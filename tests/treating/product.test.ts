import { describe, expect, it } from 'vitest';
import { setsOf } from '../../src/notebook/record-sets.ts';
import { productsOf } from '../../src/notebook/read.ts';
import { isExpired, lastGoodDay } from '../../src/treating/expiry.ts';
import {
  addProduct,
  changeProduct,
  productName,
  productOf,
  productsInUse,
  removeProduct,
  retireProduct,
} from '../../src/treating/product.ts';
import { productFaults, productGaps } from '../../src/treating/product-check.ts';
import { after, animal, emptyHerd, LABEL, product, refusal, treated, withSets } from './herd.ts';

const empty = emptyHerd(['2026-05-03']);

describe('addProduct(notebook, id, facts)', () => {
  it('keeps what was typed', () => {
    const notebook = after(
      empty,
      addProduct(empty, 'p', { ...LABEL, name: 'Drench', batch: '007' }),
    );
    expect(productOf(notebook, 'p')).toMatchObject({ name: 'Drench', batch: '007', labelPer: 5 });
  });

  it.each([
    [
      'a withdrawal of −1 days',
      { meat: { kind: 'days', days: -1 } },
      'The meat withdrawal cannot be -1 days. Type the whole days of the label, 0 or more, or choose not stated.',
    ],
    [
      'half a day',
      { meat: { kind: 'days', days: 1.5 } },
      'The meat withdrawal cannot be 1.5 days. Type the whole days of the label, 0 or more, or choose not stated.',
    ],
    [
      'hours below 0',
      { milk: { kind: 'hours', hours: -12 } },
      'The milk withdrawal cannot be -12 hours. Type the hours of the label, 0 or more, or choose not stated.',
    ],
    [
      'a strength of 0',
      { mgPerMl: 0 },
      'The strength in mg per mL must be more than 0; leave it empty if the label does not say.',
    ],
    [
      'a label line of 0',
      { labelMl: 0 },
      "The mL of the label's line must be more than 0; leave it empty if the label does not say.",
    ],
    ['no name', { name: '  ' }, 'Give the product the name on its label.'],
    [
      'an expiry that is no date',
      { expires: '13/2027' },
      '"13/2027" is not an expiry date that can be read in one way. Type the month like 2027-03, or the day like 2027-03-31.',
    ],
    [
      'a vet’s dose without the vet',
      { vetMl: 2, vetPerKg: 5 },
      "A vet's own dose needs the name of the vet who set it.",
    ],
    [
      'days that run backwards',
      { sampleFromDays: 14, sampleToDays: 10 },
      'The last day for the second sample is before the first.',
    ],
  ] as const)('refuses %s with a sentence', (_, facts, sentence) => {
    expect(refusal(addProduct(empty, 'p', { name: 'Drench', ...LABEL, ...facts }))).toBe(sentence);
  });

  it('takes a label that says nothing, and names the gaps', () => {
    const notebook = after(empty, addProduct(empty, 'p', { name: 'Drench' }));
    const gaps = productGaps(productOf(notebook, 'p')!).map(({ field }) => field);
    expect(gaps).toEqual(['labelMl', 'species', 'route', 'expires', 'meat', 'milk', 'afterDays']);
    expect(productGaps({ id: 'p', name: 'D', ...LABEL })).toEqual([]);
  });

  it('takes a milk withdrawal of 0 hours: no withdrawal, which is not the same as not stated', () => {
    expect(productFaults({ id: 'p', name: 'D', milk: { kind: 'hours', hours: 0 } })).toEqual([]);
  });
});

describe('changeProduct(notebook, id, facts)', () => {
  const notebook = product(empty, 'p', { name: 'Drench' });

  it('refuses what cannot be, and loses nothing', () => {
    expect(refusal(changeProduct(notebook, 'p', { mgPerMl: -1 }))).toContain('more than 0');
    expect(refusal(changeProduct(notebook, 'x', { name: 'Y' }))).toContain('not in this notebook');
  });

  it('empties a field with null', () => {
    const changed = after(notebook, changeProduct(notebook, 'p', { labelMl: null }));
    expect(productOf(changed, 'p')?.labelMl).toBeUndefined();
  });
});

describe('removeProduct(notebook, id)', () => {
  it('refuses a product that the log names; marking it as no longer in use keeps all of it', () => {
    const notebook = treated(
      product(animal(empty, 'A'), 'p', { name: 'Drench' }),
      'A',
      'p',
      '2026-05-03',
    );
    expect(refusal(removeProduct(notebook, 'p'))).toBe(
      'Drench stays: it is named by 1 treatment. Mark it as no longer in use instead; it is then offered no more.',
    );
    const retired = after(notebook, retireProduct(notebook, 'p', true));
    expect(productsInUse(retired)).toEqual([]);
    expect(productsOf(retired)).toHaveLength(1);
  });

  it('refuses a product that a block compares by', () => {
    const notebook = withSets(
      product(empty, 'p'),
      setsOf('blocks', 'b', {
        kind: 'reduction check',
        title: 'Check',
        order: 'a0',
        choices: { product: 'p' },
      }),
    );
    expect(refusal(removeProduct(notebook, 'p'))).toContain('the block "Check"');
  });

  it('takes an unused one off the list', () => {
    const notebook = product(empty, 'p');
    expect(productsOf(after(notebook, removeProduct(notebook, 'p')))).toEqual([]);
  });
});

describe('productName(notebook, id)', () => {
  it('adds the batch only where two products share a name', () => {
    const one = product(empty, 'p', { name: 'Drench', batch: 'B1' });
    expect(productName(one, 'p')).toBe('Drench');
    const two = product(one, 'q', { name: 'Drench', batch: 'B2' });
    expect(productName(two, 'q')).toBe('Drench (batch B2)');
  });
});

describe('lastGoodDay(expires)', () => {
  it.each([
    ['2027-03-31', '2027-03-31'],
    ['2027-02', '2027-02-28'],
    ['2028-02', '2028-02-29'],
    ['03/2027', '2027-03-31'],
    ['3.2027', '2027-03-31'],
    ['31/03/2027', '2027-03-31'],
  ])('%s is good until %s', (text, day) => {
    expect(lastGoodDay(text)).toBe(day);
  });

  it.each(['03/27', 'next year', '2027-13', '03/04/2027', '31/03/27'])('asks about %s', (text) => {
    expect(refusal(lastGoodDay(text))).toContain('is not an expiry date');
  });

  it('an unknown date is neither in date nor expired', () => {
    expect(isExpired(undefined, '2026-05-03')).toBeNull();
    expect(isExpired('03/27', '2026-05-03')).toBeNull();
    expect(isExpired('2026-04', '2026-05-03')).toBe(true);
  });
});
