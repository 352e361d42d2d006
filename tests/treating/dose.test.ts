import { describe, expect, it } from 'vitest';
import type { Animal, Product } from '../../shared/notebook.ts';
import { bandDose, lightestSentence } from '../../src/treating/band-dose.ts';
import { doseFor } from '../../src/treating/dose.ts';
import { doseTotal } from '../../src/treating/dose-total.ts';
import { doseWeight } from '../../src/treating/weighing.ts';
import { animal, emptyHerd, good, LABEL, refusal, typed } from './herd.ts';

// Every dose here is worked by hand: kg × mL ÷ kg of the label, or kg × mg/kg ÷ mg/mL.

const ewe: Animal = { id: 'e', tag: 'E1', class: 'ewe', species: 'sheep' };
const lamb: Animal = { id: 'l', tag: 'L1', class: 'lamb', species: 'sheep' };
const doe: Animal = { id: 'd', tag: 'D1', class: 'doe', species: 'goat' };
const label: Product = { id: 'p', name: 'Drench', ...LABEL };
const strength: Product = { ...without(label, 'labelMl', 'labelPer'), mgPerKg: 0.4, mgPerMl: 0.8 };
const vets: Product = { ...label, vetName: 'Dr Lee', vetMl: 2, vetPerKg: 5 };
const on = { date: '2026-06-01' };
const kg = (n: number) => ({ kg: n, date: '2026-06-01' });

function without(from: Product, ...fields: (keyof Product)[]): Product {
  return Object.fromEntries(
    Object.entries(from).filter(([field]) => !fields.includes(field as keyof Product)),
  ) as Product;
}

describe('doseFor(product, animal, weight)', () => {
  it('goes by the label’s own line first: 42 kg at 1 mL per 5 kg is 8.4 mL', () => {
    const dose = doseFor({ ...label, mgPerKg: 5, mgPerMl: 25 }, ewe, kg(42), on);
    expect(dose).toMatchObject({ ml: 8.4, source: 'label', stops: [], questions: [] });
    expect(dose.sum).toBe('42 kg × 1 mL ÷ 5 kg = 8.4 mL');
  });

  it('goes by strength where there is no line: 3 kg × 0.4 ÷ 0.8 on a 0.25 mL step is 1.5 mL, not 1.75', () => {
    expect(doseFor({ ...strength, stepMl: 0.25 }, lamb, kg(3), on).ml).toBe(1.5);
  });

  it('rounds up to the step, and says so', () => {
    const dose = doseFor({ ...label, stepMl: 0.5 }, ewe, kg(42), on);
    expect(dose.ml).toBe(8.5);
    expect(dose.sum).toBe('42 kg × 1 mL ÷ 5 kg = 8.4 mL, drawn up as 8.5 mL');
  });

  it('writes decimals as the notebook does, as typed or worked out', () => {
    const comma = { ...on, mark: ',' } as const;
    const drench: Product = { ...label, labelMl: 1.5, labelPer: 7.5, stepMl: 0.5 };
    expect(doseFor(drench, ewe, kg(42.3), comma).sum).toBe(
      '42,3 kg × 1,5 mL ÷ 7,5 kg = 8,46 mL, drawn up as 8,5 mL',
    );
    expect(doseFor(strength, ewe, kg(42.3), comma).sum).toBe(
      '42,3 kg × 0,4 mg/kg ÷ 0,8 mg/mL = 21,15 mL',
    );
    expect(doseFor({ ...vets, vetMl: 2.5 }, ewe, kg(42.5), { ...comma, source: 'vet' }).sum).toBe(
      '42,5 kg × 2,5 mL ÷ 5 kg = 21,25 mL, as Dr Lee set it',
    );
    expect(doseFor({ ...label, stepMl: 1.5 }, lamb, kg(2), comma).stops).toEqual([
      'L1: The dose is 0,4 mL and the syringe steps by 1,5 mL: rounding up would add more than 10 %. Use a finer syringe.',
    ]);
    expect(doseFor(label, ewe, kg(400.5), comma).stops[0]).toContain('400,5 kg is heavier');
    const gap = doseFor({ ...label, mgPerKg: 5, mgPerMl: 30 }, ewe, kg(42), comma);
    expect(gap.stops[0]).toContain('gives 20 mL and its strength 16,67 mL');
  });

  it('stops where the syringe is too coarse: 0.4 mL on a 1 mL step', () => {
    const dose = doseFor({ ...label, stepMl: 1 }, lamb, kg(2), on);
    expect(dose.ml).toBeNull();
    expect(dose.stops).toEqual([
      'L1: The dose is 0.4 mL and the syringe steps by 1 mL: rounding up would add more than 10 %. Use a finer syringe.',
    ]);
  });

  it('reads a label line in pounds: 110.231 lb (50 kg) at 1 mL per 25 lb is 4.409 mL, not 10', () => {
    const pounds: Product = { ...label, labelPer: 25, labelUnit: 'lb' };
    // 50 kg ÷ 0.45359237 = 110.2311 lb; ÷ 25 = 4.40925.
    expect(doseFor(pounds, ewe, kg(50), on).ml).toBeCloseTo(4.40925, 4);
    expect(doseFor(pounds, ewe, kg(50), on).sum).toBe('110.23 lb × 1 mL ÷ 25 lb = 4.41 mL');
  });

  it.each([
    ['no weight', label, ewe, null, 'E1 has no weight: weigh it first. A guessed weight runs low.'],
    [
      'a weight of 0',
      label,
      ewe,
      kg(0),
      'E1: a weight of 0 kg cannot be. Type what the scale showed.',
    ],
    [
      'a weight of 4000 kg',
      label,
      ewe,
      kg(4000),
      'E1: 4000 kg is heavier than any sheep or goat. Check the digits.',
    ],
    [
      'no strength',
      without(label, 'labelMl', 'labelPer'),
      ewe,
      kg(40),
      "Drench has no strength: type the label's line, mL per kg, or its strength with mg per kg.",
    ],
    [
      'a strength of 0',
      { ...strength, mgPerMl: 0 },
      ewe,
      kg(40),
      'E1: The mg per mL must be more than 0.',
    ],
    [
      'an expired product',
      { ...label, expires: '2026-05' },
      ewe,
      kg(40),
      'Drench expired (2026-05): use one that is in date.',
    ],
    [
      'another species',
      label,
      doe,
      kg(40),
      'D1 is a goat and the label of Drench names sheep only: ask your vet for a dose and a withdrawal.',
    ],
    [
      'a label without species',
      without(label, 'species'),
      ewe,
      kg(40),
      'Which species the label of Drench names is not typed yet. Tick them on the product.',
    ],
  ] as const)('%s is a stop, not a number', (_, product, who, weight, sentence) => {
    const dose = doseFor(product, who, weight, on);
    expect(dose).toMatchObject({ ml: null, source: null, sum: '', stops: [sentence] });
  });

  it('stops at another route than the label’s, however it is spelt', () => {
    const given = (route: string) => doseFor(label, ewe, kg(40), { ...on, route }).stops;
    expect(given('under the skin')).toEqual([
      'The label of Drench says by mouth, not under the skin: give it as the label says, or ask your vet.',
    ]);
    expect(given(' By  mouth')).toEqual([]);
  });

  it('stops where the label’s line and its strength contradict each other', () => {
    // 100 kg: 20 mL by the line, 50 mL by 5 mg/kg of 10 mg/mL.
    const dose = doseFor({ ...label, mgPerKg: 5, mgPerMl: 10 }, ewe, kg(40), on);
    expect(dose.stops[0]).toContain("the label's line gives 20 mL and its strength 50 mL");
  });

  it('is in date on the last day of the month on the label, and not the day after', () => {
    const upTo = { ...label, expires: '05/2026' };
    expect(doseFor(upTo, ewe, kg(40), { date: '2026-05-31' }).ml).toBe(8);
    expect(doseFor(upTo, ewe, kg(40), { date: '2026-06-01' }).ml).toBeNull();
  });

  it('takes the vet’s own dose where the label stops, and names what it lifts', () => {
    const dose = doseFor(vets, doe, kg(40), on);
    expect(dose).toMatchObject({ ml: 16, source: 'vet', stops: [] });
    expect(dose.sum).toBe('40 kg × 2 mL ÷ 5 kg = 16 mL, as Dr Lee set it');
    expect(dose.lifted).toEqual([
      'D1 is a goat and the label of Drench names sheep only: ask your vet for a dose and a withdrawal.',
    ]);
  });

  it('does not take a vet’s dose without the vet’s name', () => {
    const dose = doseFor(without(vets, 'vetName'), doe, kg(40), on);
    expect(dose.ml).toBeNull();
    expect(dose.stops[1]).toContain("type the vet's name");
  });

  it('keeps the label for an animal it covers, unless the vet’s dose is asked for', () => {
    expect(doseFor(vets, ewe, kg(40), on)).toMatchObject({ ml: 8, source: 'label' });
    expect(doseFor(vets, ewe, kg(40), { ...on, source: 'vet' })).toMatchObject({
      ml: 16,
      source: 'vet',
    });
  });

  it('needs a weight for a vet’s dose per kg, and none for one per animal', () => {
    expect(doseFor(vets, doe, null, on)).toMatchObject({ ml: null });
    const each = without(vets, 'vetPerKg');
    expect(doseFor(each, doe, null, on)).toMatchObject({ ml: 2, source: 'vet', stops: [] });
    expect(doseFor(vets, doe, kg(4000), on)).toMatchObject({ ml: null });
  });

  it('asks about a weight of young stock over 14 days old, and gives the dose all the same', () => {
    const old = (date: string) => doseFor(label, lamb, { kg: 20, date }, on);
    expect(old('2026-05-17')).toMatchObject({
      ml: 4,
      questions: ['L1 was weighed 15 days ago (17 May 2026) and is growing: weigh it again?'],
    });
    expect(old('2026-05-18').questions).toEqual([]);
    expect(doseFor(label, ewe, { kg: 60, date: '2025-09-01' }, on).questions).toEqual([]);
  });

  it('asks about a weight 30 % off the last one, inclusive', () => {
    const jump = (now: number) =>
      doseFor(label, ewe, { ...kg(now), before: { kg: 50, date: '2026-05-01' } }, on).questions;
    expect(jump(65)).toEqual([
      'E1 weighed 50 kg on 1 May 2026 and 65 kg on 1 June 2026: is that right?',
    ]);
    expect(jump(35)).toHaveLength(1);
    expect(jump(64.9)).toEqual([]);
  });
});

describe('doseWeight(notebook, animal, date)', () => {
  it('gives the newest weight up to the date in kg, with the one before', () => {
    let notebook = animal(emptyHerd(['2026-05-01', '2026-06-01', '2026-07-01']), 'A');
    notebook = typed(notebook, '2026-05-01', 'A', 'weight', 40);
    notebook = typed(notebook, '2026-06-01', 'A', 'weight', {
      kind: 'number',
      text: '100 lb',
      value: 100,
      unit: 'lb',
    });
    notebook = typed(notebook, '2026-07-01', 'A', 'weight', {
      kind: 'fault',
      text: '4x',
      reason: 'no',
    });
    const [a] = [{ id: 'A', tag: 'A' }];
    // 100 lb × 0.45359237, the international pound of 1959.
    expect(doseWeight(notebook, a, '2026-07-02')).toEqual({
      kg: 45.359237,
      date: '2026-06-01',
      before: { kg: 40, date: '2026-05-01' },
    });
    expect(doseWeight(notebook, a, '2026-05-31')).toEqual({ kg: 40, date: '2026-05-01' });
    expect(doseWeight(notebook, a, '2026-04-01')).toBeNull();
  });
});

describe('bandDose(product, members)', () => {
  const member = (tag: string, weight: number | null) => ({
    animal: { ...ewe, id: tag, tag },
    weight: weight === null ? null : kg(weight),
  });

  it('doses by the heaviest and shows what the lightest gets', () => {
    const band = bandDose(label, [member('A', 40), member('B', 60), member('C', 45)], on);
    expect(band).toMatchObject({ ml: 12, heaviest: { tag: 'B', kg: 60 }, stops: [] });
    expect(band.lightest).toEqual({ tag: 'A', kg: 40, ownMl: 8, times: 1.5 });
    expect(lightestSentence(band.lightest!, 12)).toBe(
      'The lightest, A (40 kg), gets 12 mL, 1.5 times its own 8 mL.',
    );
  });

  it('stops where the lightest would get exactly twice its own, rounding included', () => {
    expect(bandDose(label, [member('A', 30), member('B', 60)], on)).toMatchObject({
      ml: null,
      stops: [
        'The lightest, A (30 kg), gets 12 mL, 2 times its own 6 mL. That is 2 times or more: split the band by weight.',
      ],
    });
    expect(bandDose(label, [member('A', 30.1), member('B', 60)], on).ml).toBe(12);
    expect(
      bandDose({ ...label, stepMl: 0.5 }, [member('A', 30.1), member('B', 60.1)], on).ml,
    ).toBeNull();
  });

  it('stops where one has no weight, and names it', () => {
    expect(bandDose(label, [member('A', null), member('B', 60)], on).stops).toEqual([
      'A has no weight: weigh it first. A guessed weight runs low.',
    ]);
    expect(bandDose(label, [], on).stops).toHaveLength(1);
  });

  it('does not mix the label’s dose and the vet’s in one band', () => {
    const band = bandDose(vets, [member('A', 40), { animal: doe, weight: kg(40) }], on);
    expect(band.ml).toBeNull();
    expect(band.stops[0]).toContain('dose them as two bands');
  });
});

describe('doseTotal(doses, margin)', () => {
  it('adds up the doses given, with a tenth more, and counts who had a stop', () => {
    expect(good(doseTotal([8.4, null, 0.1, 0.2]))).toEqual({
      ml: 8.7,
      withMarginMl: 9.57,
      dosed: 3,
      of: 4,
    });
    expect(good(doseTotal([10], 0)).withMarginMl).toBe(10);
  });

  it('says so where there is nothing to add up, or the margin cannot be', () => {
    expect(refusal(doseTotal([null]))).toBe('No dose could be worked out yet.');
    expect(refusal(doseTotal([1], -0.1))).toContain('0 to 100 %');
  });
});
