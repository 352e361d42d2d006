import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { isFault } from '../../shared/value.ts';
import { doseByLabel, doseMl } from '../../src/stats/dose.ts';
import { expectFault, figure } from './check-values.ts';

describe('doseMl(kg, mg per kg, mg per mL, step)', () => {
  it('is kg × mg/kg ÷ mg/mL, worked by hand', () => {
    expect(doseMl(40, 5, 25)).toBe(8);
    expect(doseMl(41.5, 5, 25)).toBe(8.3);
    expect(doseMl(3, 0.4, 0.8)).toBe(1.5);
    expect(doseMl(10, 1, 3)).toBe(10 / 3);
  });

  it('rounds up to the step of the syringe, in exact decimals', () => {
    // In binary arithmetic 3 × 0.4 ÷ 0.8 is a hair above 1.5 and would be drawn up as 1.75.
    expect(doseMl(3, 0.4, 0.8, 0.25)).toBe(1.5);
    expect(doseMl(41.5, 5, 25, 0.5)).toBe(8.5);
    expect(doseMl(40, 5, 25, 0.5)).toBe(8);
    expect(doseMl(42.6, 0.2, 0.8, 0.1)).toBe(10.7);
  });

  it('takes a dose within 1e-9 above a step for that step', () => {
    // 3.3 kg in pounds and back is 3.3000000000000003 kg.
    expect(doseMl(3.3000000000000003, 1, 1, 0.1)).toBe(3.3);
    expect(doseMl(3.3001, 1, 1, 0.1)).toBe(3.4);
  });

  it('stops where rounding would add more than 10 %', () => {
    expectFault(doseMl(1, 0.4, 1, 1), 'coarse-syringe');
    const stop = doseMl(1, 0.4, 1, 1);
    expect(isFault(stop) && stop.sentence).toMatch(/0\.4 mL.*finer syringe/);
    expect(doseMl(10, 1, 1, 11)).toBe(11); // 10 % exactly is still allowed
    expectFault(doseMl(9.99, 1, 1, 11), 'coarse-syringe');
  });

  it('is a fault for anything not above 0', () => {
    for (const bad of [0, -1, NaN, Infinity]) {
      expectFault(doseMl(bad, 5, 25), 'bad-amount');
      expectFault(doseMl(40, bad, 25), 'bad-amount');
      expectFault(doseMl(40, 5, bad), 'bad-amount');
      expectFault(doseMl(40, 5, 25, bad), 'bad-amount');
      expectFault(doseByLabel(bad, 1, 5), 'bad-amount');
      expectFault(doseByLabel(40, bad, 5), 'bad-amount');
      expectFault(doseByLabel(40, 1, bad), 'bad-amount');
    }
  });

  it('never draws less than the dose nor a whole step more, in hundredths', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 20000 }),
        fc.integer({ min: 1, max: 2000 }),
        fc.constantFrom(1, 5, 10, 25, 50),
        (kg, rate, step) => {
          // Whole-number arithmetic as the judge: dose in 1/10000 mL at 1 mg per mL, step in 1/100 mL.
          const drawn = doseMl(kg / 100, rate / 100, 1, step / 100);
          const dose = kg * rate;
          const steps = Math.ceil(dose / (step * 100));
          if (steps * step * 100 * 10 > dose * 11) return isFault(drawn);
          return figure(drawn) === (steps * step) / 100;
        },
      ),
      { seed: 7, numRuns: 2000 },
    );
  });
});

describe('doseByLabel(kg, mL, per kg, step)', () => {
  it('is the label rate times the weight', () => {
    expect(doseByLabel(42, 1, 5)).toBe(8.4);
    expect(doseByLabel(42, 1, 5, 0.5)).toBe(8.5);
    expect(doseByLabel(45, 2.5, 10, 0.25)).toBe(11.25);
    expectFault(doseByLabel(2, 1, 5, 1), 'coarse-syringe');
  });
});
