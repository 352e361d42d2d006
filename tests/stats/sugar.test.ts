import { describe, expect, it } from 'vitest';
import { SUGAR_DENSITY } from '../../src/stats/sugar-density.ts';
import { sugarFor, syrup, syrupGravity } from '../../src/stats/sugar.ts';
import { csvRows, expectClose, expectFault, figure } from './check-values.ts';

describe('the density table', () => {
  it('is the one of the source, row by row, with its status', () => {
    const rows = csvRows('sucrose-density-20c.csv');
    expect(SUGAR_DENSITY).toHaveLength(rows.length);
    for (const [i, row] of rows.entries()) {
      expect(SUGAR_DENSITY[i]).toEqual({
        massPercent: Number(row['mass_percent']),
        density: Number(row['density_kg_m3_20C']),
        status: row['status'],
      });
    }
  });
});

describe('syrupGravity(sugar g, water mL)', () => {
  it('454 g in 355 mL is 56.2 % and 1.266 (recipe set to 1.27: Blagburn & Butler 2006, Vet Med 101:455–464)', () => {
    const made = figure(syrup(454, 355));
    expect(made.massPercent).toBeCloseTo(56.2, 1);
    expect(made.specificGravity).toBeCloseTo(1.266, 3);
    expect(made.status).toBe('memory');
  });

  it('1¼ cups to 1 cup of water, labelled 1.20, is denser than its label: 1.238 to 1.246', () => {
    // US cup of 236.6 mL, 198 to 210 g of sugar in it; the recipe is of a US university goat page.
    const thin = figure(syrup(1.25 * 198, 236.6));
    const thick = figure(syrup(1.25 * 210, 236.6));
    expect(thin.massPercent).toBeCloseTo(51, 0);
    expect(thick.massPercent).toBeCloseTo(53, 0);
    expect(thin.specificGravity).toBeCloseTo(1.238, 2);
    expect(thick.specificGravity).toBeCloseTo(1.246, 2);
    // One cup to one cup.
    expect(figure(syrupGravity(204, 236.6))).toBeCloseTo(1.208, 2);
  });

  it('is 1 for plain water and says which rows were read', () => {
    expect(syrupGravity(0, 500)).toBe(1);
    expect(figure(syrup(30, 100)).status).toBe('seen');
    expect(figure(syrup(62, 100)).status).toBe('memory'); // 38.3 %, between the last row read and the first remembered
  });

  it('is a fault beyond the table and for nonsense', () => {
    expectFault(syrupGravity(900, 300), 'too-much-sugar');
    expectFault(syrupGravity(-1, 300), 'bad-amount');
    expectFault(syrupGravity(NaN, 300), 'bad-amount');
    expectFault(syrupGravity(100, 0), 'bad-amount');
  });
});

describe('sugarFor(gravity, water mL)', () => {
  // Worked from the same table with scipy: g of sugar per litre of water.
  it.each([
    [1.18, 40.3, 673],
    [1.2, 44.1, 788],
    [1.22, 47.9, 916],
    [1.25, 53.3, 1138],
    [1.27, 56.8, 1312],
    [1.28, 58.5, 1408],
  ])('%f takes %f %% or %i g a litre', (gravity, percent, grams) => {
    const needed = figure(sugarFor(gravity, 1000));
    expect(Math.abs(needed - grams)).toBeLessThan(2);
    expect(figure(syrup(needed, 1000)).massPercent).toBeCloseTo(percent, 0);
  });

  it('is the way back of syrupGravity', () => {
    for (let grams = 0; grams <= 2200; grams += 37) {
      const gravity = figure(syrupGravity(grams, 1000));
      expectClose(sugarFor(gravity, 1000), grams, 1e-9 + (grams === 0 ? 1e-6 : 0));
    }
  });

  it('is a fault outside the table', () => {
    expectFault(sugarFor(0.9, 1000), 'bad-gravity');
    expectFault(sugarFor(1.5, 1000), 'bad-gravity');
    expectFault(sugarFor(2.5, 1000), 'bad-gravity');
    expectFault(sugarFor(NaN, 1000), 'bad-amount');
    expectFault(sugarFor(1.2, 0), 'bad-amount');
  });
});
