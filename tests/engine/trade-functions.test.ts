import { describe, expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { isFault } from '../../shared/value.ts';
import reference from '../fixtures/check-values/statistics.json' with { type: 'json' };

/** Reference numbers from R 4.2.2, kept with the fixtures; here they are asked for as formulas. */

const engine = createEngine();

function list(values: readonly number[]): string {
  return `{${values.join(',')}}`;
}

/** `wanted` is left out of the reference where R has no such number (no eggs to share out, say). */
function expectFigure(formula: string, wanted: number | null | undefined): void {
  if (wanted === null || wanted === undefined) return;
  const value = engine.evaluate(formula);
  expect(isFault(value) ? value.sentence : typeof value).toBe('number');
  expect(Math.abs(Number(value) - wanted)).toBeLessThanOrEqual(1e-6 * Math.abs(wanted) + 1e-12);
}

describe('trade functions in a formula', () => {
  it.each(reference.herds)('of $name agree with R', (herd) => {
    const eggs = list(herd.eggs);
    const epg = list(herd.eggs.map((seen) => seen * herd.factor));
    expectFigure(`HERDMEAN(${epg})`, herd.mean_epg);
    expectFigure(`MEDIAN(${epg})`, herd.median_epg);
    expectFigure(`HERDMEANLOW(${eggs}, ${herd.factor})`, herd.mean_low95);
    expectFigure(`HERDMEANHIGH(${eggs}, ${herd.factor})`, herd.mean_high95);
    expectFigure(`COUNTEDMEANLOW(${eggs}, ${herd.factor})`, herd.counted_low95);
    expectFigure(`COUNTEDMEANHIGH(${eggs}, ${herd.factor})`, herd.counted_high95);
    expectFigure(`SHEDDERSHARE(${epg})`, herd.shedder_share_80);
    expectFigure(`EGGSHARE(${epg})`, herd.egg_share_top20);
    expectFigure(`SHEDDERLUCK(${eggs})`, herd.shedder_luck_80);
    expectFigure(`SHAREFROM(${epg}, 1000)`, herd.over_1000);
    expectFigure(`AGGREGATION(${eggs})`, herd.k_ml);
  });

  it.each(reference.herds_mixed_factor)('with a factor for each animal: $name', (herd) => {
    const [eggs, factor] = [list(herd.eggs), list(herd.factor)];
    expectFigure(`HERDMEANLOW(${eggs}, ${factor})`, herd.mean_low95);
    expectFigure(`HERDMEANHIGH(${eggs}, ${factor})`, herd.mean_high95);
    expectFigure(`COUNTEDMEANLOW(${eggs}, ${factor})`, herd.counted_low95);
    expectFigure(`COUNTEDMEANHIGH(${eggs}, ${factor})`, herd.counted_high95);
    expectFigure(`AGGREGATION(${eggs}, ${factor})`, herd.k_ml);
  });

  it.each(reference.paired_reduction)('reductions: $name', (pair) => {
    const [before, after] = [list(pair.before_eggs), list(pair.after_eggs)];
    const factors = `${pair.factor_before}, ${pair.factor_after}`;
    const epg = (eggs: readonly number[], factor: number): string =>
      list(eggs.map((seen) => seen * factor));
    expectFigure(
      `FECR(${epg(pair.before_eggs, pair.factor_before)}, ${epg(pair.after_eggs, pair.factor_after)})`,
      pair.reduction,
    );
    const low = `FECRLOW(${before}, ${after}, ${factors}`;
    const high = `FECRHIGH(${before}, ${after}, ${factors}`;
    expectFigure(`${low})`, pair.leverage_adjusted?.low ?? pair.zero_after?.low);
    expectFigure(`${high}, 0.9, "adjusted")`, pair.leverage_adjusted?.high);
    expectFigure(`${low}, , "log-t")`, pair.paired_log_t?.low);
    expectFigure(`${high}, 0.9, "log-t")`, pair.paired_log_t?.high);
    expectFigure(`${low}, 0.9, "gamma")`, pair.paired_gamma?.low);
    expectFigure(`${high}, 0.9, "gamma")`, pair.paired_gamma?.high);
  });

  it.each(reference.paired_mixed_factor)('reductions, a factor for each animal: $name', (pair) => {
    const args = [pair.before_eggs, pair.after_eggs, pair.factor_before, pair.factor_after];
    expectFigure(`FECRLOW(${args.map(list).join(',')})`, pair.low);
    expectFigure(`FECRHIGH(${args.map(list).join(',')})`, pair.high);
  });

  it.each(reference.unpaired_reduction)('groups: $name', (groups) => {
    const args = `${list(groups.treated)}, ${list(groups.control)}`;
    expectFigure(`GROUPFECR(${args})`, groups.reduction);
    expectFigure(`GROUPFECRLOW(${args})`, groups.low);
    expectFigure(`GROUPFECRHIGH(${args}, 0.95)`, groups.high);
  });

  it('limits of one count, two chambers, and the chance over a limit', () => {
    for (const { eggs, level, low, high } of reference.poisson) {
      expectFigure(`EPGLOW(${eggs}, 1, ${level})`, low);
      expectFigure(`EPGHIGH(${eggs}, 1, ${level})`, high);
    }
    for (const { chamber1, chamber2, p } of reference.chamber_gap)
      expectFigure(`CHAMBERGAP(${chamber1}, ${chamber2})`, p);
    for (const { eggs, factor, limit, chance, ...prior } of reference.over_chance) {
      const herd = 'k' in prior ? `, ${prior.k}, ${prior.mean_epg}` : '';
      expectFigure(`OVERCHANCE(${eggs}, ${factor}, ${limit}${herd})`, chance);
    }
  });

  it('a dose on a coarse syringe is a sentence, as is half a prior or an odd method', () => {
    const said = (formula: string): string => {
      const value = engine.evaluate(formula);
      return isFault(value) ? value.sentence : String(value);
    };
    expect(said('DOSEML(4, 0.1, 1, 1)')).toContain('finer syringe');
    expect(said('OVERCHANCE(15, 50, 1000, 0.5)')).toContain('or neither');
    expect(said('FECRLOW({5,6},{1,0},,,,"best")')).toContain('“best” is no method');
    expect(said('EPG(27, 50, 3)')).toContain('takes at most 2 arguments');
    expect(said('EPG(27)')).toContain('needs at least 2 arguments');
    expect(said('CLEARDATE("1 June", 10)')).toContain('2026-05-03');
  });
});
