import { describe, expect, it } from 'vitest';
import { herdForPlan } from '../../src/simulation/herd-for-plan.ts';
import { PLAN_FIELDS, readPlan, type PlanTexts } from '../../src/simulation/read-plan.ts';
import { rightVerdict } from '../../src/simulation/right-verdict.ts';
import { aggregation } from '../../src/stats/aggregation.ts';
import { expectFault, figure } from '../stats/check-values.ts';

const texts: PlanTexts = {
  mean: '640',
  k: '0.7',
  factor: '100',
  works: '99',
  fails: '80',
  expected: '99',
  threshold: '90',
  animals: '10, 15 20;30',
  areas: '1, 2',
  precision: '25',
  runs: '2000',
  seed: '1',
};

describe('readPlan(texts, mark, level)', () => {
  it('reads a plan: lists by comma, space or semicolon, the factor shared out over the areas', () => {
    const { plan, areas, precision, faults } = readPlan(texts, '.', 0.9);
    expect(faults).toEqual({});
    expect(plan).toEqual({
      meanEpg: 640,
      k: 0.7,
      factors: [100, 50],
      animals: [10, 15, 20, 30],
      efficacies: [99, 80],
      expected: 99,
      threshold: 90,
      level: 0.9,
      runs: 2000,
      seed: 1,
    });
    expect(areas).toEqual([1, 2]);
    expect(precision).toBe(0.25);
  });

  it("reads numbers in the person's own decimal mark, and refuses the other one with a sentence", () => {
    expect(readPlan({ ...texts, k: '0,7' }, ',', 0.9).plan?.k).toBe(0.7);
    expect(readPlan({ ...texts, k: '0,7' }, '.', 0.9).faults.k).toMatch(/decimal mark/);
  });

  it('takes "alike" for no spread beyond chance, and a number named twice once', () => {
    expect(readPlan({ ...texts, k: 'Alike' }, '.', 0.9).plan?.k).toBe(Infinity);
    expect(readPlan({ ...texts, animals: '10 10 12' }, '.', 0.9).plan?.animals).toEqual([10, 12]);
  });

  it('has a sentence for every wrong field, and no plan until they are mended', () => {
    const wrong: [keyof PlanTexts, string, RegExp][] = [
      ['mean', '0', /more than 0/],
      ['mean', '-5', /more than 0/],
      ['k', 'some', /not a number/],
      ['factor', '', /Nothing is typed/],
      ['works', '101', /at most 100/],
      ['animals', '1, 10', /from 2 to 500/],
      ['animals', '4000', /from 2 to 500/],
      ['animals', '12.5', /whole number/],
      ['areas', '0', /from 1 to 20/],
      ['areas', '1 2 3 4 5 6 7 8 9', /up to 8/],
      ['threshold', '99', /below the expected/],
      ['runs', '2.5', /whole number/],
      ['runs', '1000000', /from 1 to 20000/],
      ['seed', '0', /from 1 to/],
    ];
    for (const [field, text, sentence] of wrong) {
      const { plan, faults } = readPlan({ ...texts, [field]: text }, '.', 0.9);
      expect(plan, `${field} ${text}`).toBeNull();
      expect(faults[field]).toMatch(sentence);
      expect(Object.keys(faults)).toEqual([field]);
    }
  });

  it('one wrong field hides no other, and a wrong precision stops no plan', () => {
    const nothing = Object.fromEntries(PLAN_FIELDS.map((field) => [field, '?'])) as PlanTexts;
    expect(Object.keys(readPlan(nothing, '.', 0.9).faults).sort()).toEqual([...PLAN_FIELDS].sort());
    const { plan, precision } = readPlan({ ...texts, precision: '0' }, '.', 0.9);
    expect(plan).not.toBeNull();
    expect(precision).toBeNull();
  });
});

describe('herdForPlan(eggs, factors)', () => {
  it("gives the herd's mean, k and usual factor, leaving out who was not counted", () => {
    const eggs = [0, 3, 12, null, 40, 1, 7];
    const factors = [50, 50, 50, 50, 25, 50, null];
    const herd = figure(herdForPlan(eggs, factors));
    // (0 + 150 + 600 + 1000 + 50) / 5 = 360.
    expect(herd.meanEpg).toBe(360);
    expect(herd.counted).toBe(5);
    expect(herd.factor).toBe(50);
    expect(herd.k).toBe(aggregation(eggs, factors));
  });

  it('like animals have no k: they shed alike', () => {
    expect(figure(herdForPlan([9, 10, 11, 10], [50, 50, 50, 50])).k).toBe(Infinity);
  });

  it('is a fault with nobody counted, and with no eggs', () => {
    expectFault(herdForPlan([null], [50]), 'no-counts');
    expectFault(herdForPlan([0, 0, 0], [50, 50, 50]), 'no-eggs');
    expectFault(herdForPlan([4], [50]), 'too-few');
  });
});

describe('rightVerdict(efficacy, expected, threshold)', () => {
  it('is the class that endless eggs would give; at a limit, it is reached', () => {
    expect(rightVerdict(100, 99, 90)).toBe('susceptible');
    expect(rightVerdict(99, 99, 90)).toBe('susceptible');
    expect(rightVerdict(95, 99, 90)).toBe('low resistant');
    expect(rightVerdict(90, 99, 90)).toBe('low resistant');
    expect(rightVerdict(80, 99, 90)).toBe('resistant');
    expect(rightVerdict(-20, 99, 90)).toBe('resistant');
  });
});
