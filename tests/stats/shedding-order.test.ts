import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { sheddingOrder } from '../../src/stats/shedding-order.ts';
import { checkValues } from './check-values.ts';

function order(epgs: readonly (number | null)[]) {
  const found = sheddingOrder(epgs);
  if (isFault(found)) throw new Error(found.sentence);
  return found;
}

describe('sheddingOrder(epgs)', () => {
  it('orders by epg, equal ones as they came, and adds their eggs up', () => {
    // By hand: 1,000 eggs in all; 600, 200, 100, 100, 0.
    const { shedders, reached } = order([100, null, 600, 0, 200, 100]);
    expect(shedders.map(({ row }) => row)).toEqual([2, 4, 0, 5, 3]);
    expect(shedders.map(({ running }) => running)).toEqual([0.6, 0.8, 0.9, 1, 1]);
    expect(reached).toEqual({ animals: 2, counted: 5 });
  });

  const herds = checkValues.herds.filter(({ shedder_share_80 }) => shedder_share_80 != null);
  it.each(herds)("reaches 80 % of $name's eggs where R 4.2.2 does", (herd) => {
    const { shedders, reached } = order(herd.eggs.map((eggs) => eggs * herd.factor));
    expect(reached.animals / reached.counted).toBeCloseTo(herd.shedder_share_80 ?? NaN, 12);
    expect(shedders[reached.animals - 1]?.running).toBeGreaterThanOrEqual(0.8 * (1 - 1e-9));
    expect(shedders[reached.animals - 2]?.running ?? 0).toBeLessThan(0.8);
    expect(shedders.at(-1)?.running).toBeCloseTo(1, 12);
  });

  it('is a fault without eggs and without counts', () => {
    expect(sheddingOrder([0, 0])).toMatchObject({ fault: 'no-eggs' });
    expect(sheddingOrder([null])).toMatchObject({ fault: 'no-counts' });
  });
});
