import { describe, expect, it } from 'vitest';
import { eggFactor } from '../../src/stats/egg-factor.ts';
import { epg } from '../../src/stats/epg.ts';
import { expectFault, figure } from './check-values.ts';

describe('eggFactor(grams, fluid, area, areas)', () => {
  // Protocols of published guides: grams, mL added, mL per area, areas, exact factor.
  it.each([
    ['FAO/RVC guide: 3 g + 42 mL, two grids', 3, 42, 0.15, 2, 50],
    ['Cork & Lejeune, 3rd ed. p. 120: 3 g in 45 mL, one grid', 3, 42, 0.15, 1, 100],
    ['sheep and goat sheet after Zajac & Conboy 2012: 4 g + 26 mL', 4, 26, 0.15, 2, 25],
    ['goat procedure of a US university: 2 g + 28 mL', 2, 28, 0.15, 2, 50],
    ['goat test notes 2015: 2 g + 26 mL counts as 28', 2, 26, 0.15, 2, 140 / 3],
    ['goat test notes 2015: 4 g + 28 mL', 4, 28, 0.15, 2, 80 / 3],
    ['Roepstorff & Nansen 1998, simple form: 4 g + 56 mL', 4, 56, 0.15, 2, 50],
    ['Dunn & Keymer 1986: 15 mL for each gram', 1, 15, 0.15, 2, 160 / 3],
  ])('%s', (_, grams, fluid, area, areas, factor) => {
    expect(eggFactor(grams, fluid, area, areas)).toBe(factor);
  });

  it('comes within the rounding of the published 67, 33 and 100', () => {
    // Vadlejch et al. 2011, Parasitol Res 109:1387–94 (abstract): 2 g, 3 chambers, 67; 1 g, 2 chambers, 33; the totals
    // of 60 and 10 mL are inferred. 2 g with 60 mL added, quoted as 100: a common hand-out form, memory.
    expect(Math.round(figure(eggFactor(2, 58, 0.15, 3)))).toBe(67);
    expect(Math.round(figure(eggFactor(1, 9, 0.15, 2)))).toBe(33);
    const added = figure(eggFactor(2, 60, 0.15, 2));
    expect(added).toBeCloseTo(103.333, 3);
    expect(Math.abs(added / 100 - 1)).toBeLessThan(0.035);
  });

  it('is exact where binary arithmetic is not', () => {
    expect(eggFactor(2, 28, 0.15, 2)).toBe(50);
    expect(epg(10, figure(eggFactor(3, 42, 0.3, 1)))).toBe(500);
    expect(epg(15, figure(eggFactor(1.5, 28.5, 0.15, 2)))).toBe(1000);
    expect(epg(30, figure(eggFactor(2, 28, 0.15, 1.5)))).toBe(2000);
  });

  it('is a fault where a measure is missing its sense', () => {
    expectFault(eggFactor(0, 28, 0.15, 2), 'bad-amount');
    expectFault(eggFactor(2, -1, 0.15, 2), 'bad-amount');
    expectFault(eggFactor(2, 28, 0, 2), 'bad-amount');
    expectFault(eggFactor(2, 28, 0.15, 0), 'bad-amount');
    expectFault(eggFactor(NaN, 28, 0.15, 2), 'bad-amount');
    expect(figure(eggFactor(2, 0, 0.15, 2))).toBeCloseTo(1 / 0.3, 12);
  });
});

describe('epg(eggs, factor)', () => {
  it('multiplies, and mends only the last hair of binary arithmetic', () => {
    expect(epg(27, 50)).toBe(1350);
    expect(epg(0, 50)).toBe(0);
    expect(epg(4, 100)).toBe(400);
    expect(epg(1, 200 / 3)).toBe(200 / 3);
    for (let eggs = 0; eggs <= 3000; eggs += 3) expect(epg(eggs, 200 / 3)).toBe((eggs / 3) * 200);
    expect(epg(3, 33.3)).toBe(99.9);
  });

  it('is a fault for nonsense', () => {
    expectFault(epg(-1, 50), 'bad-amount');
    expectFault(epg(NaN, 50), 'bad-amount');
    expectFault(epg(1, 0), 'bad-factor');
  });
});
