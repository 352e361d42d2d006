import { describe, expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { HELP_CARDS, helpCard } from '../../src/engine/help-cards/all-help-cards.ts';
import { checkValues } from '../stats/check-values.ts';
import { TRADE_FUNCTIONS } from '../../src/engine/trade-functions/all-trade-functions.ts';

const engine = createEngine();

describe('help cards', () => {
  it('there is one for every trade function, and no other', () => {
    expect(HELP_CARDS.map(({ name }) => name).sort()).toEqual(
      TRADE_FUNCTIONS.map(({ name }) => name).sort(),
    );
    expect(helpCard('EPG')?.params.map(({ name }) => name)).toEqual(['eggs', 'factor']);
    expect(helpCard('NOSUCH')).toBeUndefined();
  });

  it('gives k by moments beside k by maximum likelihood, R 4.2.2', () => {
    const herd = checkValues.herds.find(({ name }) => name === 'herd-1');
    expect(helpCard('AGGREGATION')?.inWords).toContain(herd?.k_moments?.toFixed(4) ?? 'no herd');
  });

  // The answers on the cards are those of R 4.2.2 where a distribution or a likelihood is behind them
  // (tests/fixtures), of a source named on the card, or arithmetic.
  it.each(HELP_CARDS.map(({ name, example }) => [name, example] as const))(
    'the example of %s comes out as its card says',
    (_, { formula, answer }) => {
      const value = engine.evaluate(formula);
      if (typeof answer === 'string') expect(value).toBe(answer);
      else {
        const decimals = String(answer).split('.')[1]?.length ?? 0;
        expect(typeof value).toBe('number');
        expect(Math.abs(Number(value) - answer)).toBeLessThan(0.5 * 10 ** -decimals + 1e-9);
      }
    },
  );

  it.each(HELP_CARDS)(
    'the card of $name says what, what of missing ones, how, and whence',
    (card) => {
      for (const words of [card.what, card.missing, card.inWords]) expect(words).toMatch(/\.$/);
      expect(card.sources.length).toBeGreaterThan(0);
      expect(card.example.formula.startsWith(`${card.name}(`)).toBe(true);
    },
  );
});
