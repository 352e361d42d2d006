import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { cupSureness, type CountedCup } from '../../src/stats/cup-sureness.ts';
import { herdPrior } from '../../src/stats/herd-prior.ts';
import { meanSureness } from '../../src/stats/mean-sureness.ts';
import { checkValues, expectClose } from './check-values.ts';

const flat = { is: 'flat', counted: 3, because: 'few counted' } as const;

function sure(
  cup: Partial<CountedCup>,
  limit?: number,
  prior: Parameters<typeof cupSureness>[2] = flat,
) {
  const found = cupSureness({ eggs: 0, factor: 50, chambers: [], ...cup }, limit, prior);
  if (isFault(found)) throw new Error(found.sentence);
  return found;
}

describe('herdPrior(eggs, factors)', () => {
  const spread = checkValues.herds.filter((herd) => herd.k_ml !== null && herd.n >= 10);

  it.each(spread)("takes $name's k and mean, R 4.2.2", (herd) => {
    const found = herdPrior(herd.eggs, herd.factor);
    if (found.is !== 'herd') throw new Error(`flat: ${found.because}`);
    expectClose(found.prior.k, herd.k_ml ?? NaN, 1e-4);
    expectClose(found.prior.meanEpg, herd.mean_epg);
    expect(found.counted).toBe(herd.n);
  });

  it('is flat below 10 counted, uncounted animals not reckoned', () => {
    const nine = [0, 0, 1, 2, 3, 9, 20, 41, 80];
    expect(herdPrior([...nine, null, null], 50)).toMatchObject({
      counted: 9,
      because: 'few counted',
    });
    expect(herdPrior([...nine, 5], 50)).toMatchObject({ is: 'herd', counted: 10 });
  });

  it('is flat, and says why, without eggs and without spread', () => {
    expect(herdPrior(Array<number>(12).fill(0), 50)).toMatchObject({ because: 'no eggs' });
    expect(herdPrior(Array<number>(12).fill(4), 50)).toMatchObject({ because: 'no spread' });
  });
});

describe('cupSureness(cup, limit, prior)', () => {
  it.each(checkValues.poisson.filter(({ level, eggs }) => level === 0.95 && eggs > 0))(
    '$eggs eggs: the limits of R times the factor',
    ({ eggs, low, high }) => {
      const { limits, under } = sure({ eggs });
      expectClose(limits?.low ?? NaN, low * 50);
      expectClose(limits?.high ?? NaN, high * 50);
      expect(under).toBeNull();
    },
  );

  it('without an egg: under 3.0 × the factor, one-sided 95 % (−ln 0.05, elementary)', () => {
    const none = sure({ eggs: 0 });
    expect(none.limits).toBeNull();
    expectClose(none.under ?? NaN, -Math.log(0.05) * 50, 1e-12);
    expect(Math.round(none.under ?? NaN)).toBe(150);
  });

  it("15 eggs, limit at 20: 15.7 % flat, 6.1 % with the herd's k 0.5 and mean of 5 eggs (R)", () => {
    const herd = { is: 'herd', counted: 19, prior: { k: 0.5, meanEpg: 250 } } as const;
    expect(sure({ eggs: 15 }, 1000).over?.chance).toBeCloseTo(0.157, 3);
    expect(sure({ eggs: 15 }, 1000, herd).over?.chance).toBeCloseTo(0.061, 3);
    expect(sure({ eggs: 15 }).over).toBeNull();
  });

  it.each(checkValues.chamber_gap)(
    'chambers $chamber1 and $chamber2: p of R, and disagreement below 0.01',
    ({ chamber1, chamber2, p }) => {
      const chambers = [
        { eggs: chamber1, part: 1 },
        { eggs: chamber2, part: 1 },
      ];
      const found = sure({ eggs: chamber1 + chamber2, chambers }).chambers;
      expectClose(found?.p ?? NaN, p);
      expect(found?.agree).toBe(p >= 0.01);
    },
  );

  it('has nothing to compare with one chamber', () => {
    expect(sure({ eggs: 4, chambers: [{ eggs: 4, part: 1 }] }).chambers).toBeNull();
  });

  it('is a fault where eggs are not whole', () => {
    expect(cupSureness({ eggs: 1.5, factor: 50, chambers: [] }, 500, flat)).toMatchObject({
      fault: 'eggs-not-whole',
    });
  });
});

describe('meanSureness(eggs, factors, present)', () => {
  it.each(checkValues.herds.filter((herd) => herd.n >= 6 && herd.mean_low95 !== null))(
    'gives both kinds of limits of $name, R 4.2.2',
    (row) => {
      const found = meanSureness(row.eggs, row.factor, row.n);
      if (isFault(found)) throw new Error(found.sentence);
      expectClose(found.mean, row.mean_epg);
      if (isFault(found.these)) throw new Error(found.these.sentence);
      expectClose(found.these.low, row.counted_low95);
      expectClose(found.these.high, row.counted_high95);
      if (!isFault(found.herd)) {
        expectClose(found.herd.low, row.mean_low95, 1e-6);
        expectClose(found.herd.high, row.mean_high95, 1e-6);
      }
    },
  );

  it('asks about these animals only when all present were counted', () => {
    const eggs = [0, 3, 8, 1, 40, 2];
    expect(meanSureness(eggs, 50, 6)).toMatchObject({ asked: 'these', counted: 6 });
    expect(meanSureness([...eggs, null], 50, 7)).toMatchObject({ asked: 'herd', counted: 6 });
  });

  it('keeps the sentence of the herd where too few are counted, and still answers for these', () => {
    const found = meanSureness([4, 9], 50, 2);
    expect(found).toMatchObject({
      herd: { fault: 'too-few' },
      these: { low: expect.any(Number) as number },
    });
    expect(meanSureness([null, null], 50, 2)).toMatchObject({ fault: 'no-counts' });
  });
});
