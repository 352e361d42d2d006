import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import {
  boundStatements,
  cupStatements,
  meanLines,
  percentText,
  priorWords,
  pText,
} from '../../components/sureness-words.ts';
import { cupSureness, type CountedCup } from '../../src/stats/cup-sureness.ts';
import type { PriorFound } from '../../src/stats/herd-prior.ts';
import { meanSureness } from '../../src/stats/mean-sureness.ts';

const flat: PriorFound = { is: 'flat', counted: 4, because: 'few counted' };
const inFlock = { mark: '.', herd: 'flock' } as const;
const herd: PriorFound = { is: 'herd', counted: 19, prior: { k: 0.5, meanEpg: 250 } };

function said(cup: Partial<CountedCup>, prior: PriorFound = flat, mark: '.' | ',' = '.') {
  const sure = cupSureness({ eggs: 0, factor: 50, chambers: [], ...cup }, 1000, prior);
  if (isFault(sure)) throw new Error(sure.sentence);
  return cupStatements(sure, prior, null, { mark, herd: 'herd' }).map(({ about, figure, rest }) =>
    [about, figure, rest].filter((part) => part !== '').join(' | '),
  );
}

describe('cupStatements(…)', () => {
  it('gives the limits of 27 eggs at 50: 17.79 to 39.28 eggs, printed Poisson tables', () => {
    expect(said({ eggs: 27 })[0]).toBe(
      '95 % limits | 890 to 1,964 epg | the luck of the count only',
    );
  });

  it('says of a cup without eggs that the animal is not free of worms', () => {
    expect(said({})[0]).toBe('no egg seen | probably under 150 epg | not free of worms');
  });

  it('says with what the chance was reckoned, and what it leaves out', () => {
    expect(said({ eggs: 15 })[1]).toBe(
      'chance to be at 1,000 epg or more | 16 % | fewer than 10 counted, so from this count alone; dung varies from day to day beyond that',
    );
    expect(said({ eggs: 15 }, herd)[1]).toBe(
      "chance to be at 1,000 epg or more | 6.1 % | with the herd's own spread (19 counted, k 0.50); dung varies from day to day beyond that",
    );
  });

  it('advises where the chambers differ at p below 0.01, and only there', () => {
    const chambers = (a: number, b: number) => ({
      eggs: a + b,
      chambers: [
        { eggs: a, part: 1 },
        { eggs: b, part: 1 },
      ],
    });
    // 12 and 15 eggs: p 0.70; 3 and 17: p 0.0026 (exact binomial, as R's binom.test).
    expect(said(chambers(12, 15))).toContain('chambers | agree | p 0.70');
    expect(said(chambers(3, 17))).toContain(
      'chambers | differ more than luck explains | p 0.003: stir, refill, recount, or check the typing',
    );
  });

  it('says what one egg stands for, with the decimal mark of the notebook', () => {
    expect(said({ eggs: 3, factor: 200 / 3 }, flat, ',').at(-1)).toBe(
      'one egg stands for | 66,67 epg',
    );
  });
});

describe('percentText(share), pText(p)', () => {
  it('never shows a chance as certain', () => {
    expect(percentText(0.00001, '.')).toBe('under 0.1 %');
    expect(percentText(0.99999, '.')).toBe('over 99.9 %');
    expect(percentText(0.5, '.')).toBe('50 %');
    expect(percentText(0.071, ',')).toBe('7,1 %');
    expect(pText(0.0004, '.')).toBe('p under 0.001');
  });
});

describe('boundStatements(bound)', () => {
  it('says that a bound is no figure, and how to get one', () => {
    expect(boundStatements({ is: 'at least', epg: 2050 }, '.')).toEqual([
      {
        about: 'this count is',
        figure: 'at least 2,050 epg',
        rest: 'a bound, in no mean and no list: count a part of the grid for a figure',
      },
    ]);
    expect(boundStatements({ is: 'too many', epg: null }, '.')[0]?.figure).toBe('too many');
    expect(boundStatements(null, '.')).toEqual([]);
  });
});

describe('priorWords(prior)', () => {
  it('says why the herd was not used', () => {
    expect(priorWords({ is: 'flat', counted: 12, because: 'no spread' }, inFlock)).toBe(
      "the flock's counts differ no more than chance, so from this count alone",
    );
    expect(
      priorWords({ is: 'flat', counted: 12, because: 'no eggs' }, { ...inFlock, herd: 'mob' }),
    ).toBe('no eggs in the mob, so from this count alone');
  });
});

describe('meanLines(sureness)', () => {
  function lines(eggs: readonly (number | null)[], factors: number | number[], present: number) {
    const sure = meanSureness(eggs, factors, present);
    if (isFault(sure)) throw new Error(sure.sentence);
    return meanLines(sure, (row) => `K-${row}`, inFlock);
  }

  it('puts the question most likely meant first, each named for what it answers', () => {
    const eggs = [0, 3, 8, 1, 40, 2];
    expect(lines(eggs, 50, 6).lines.map(({ about }) => about)).toEqual([
      'the mean of these animals',
      'the mean of the flock they were drawn from',
    ]);
    expect(lines([...eggs, null], 50, 7).lines[0]?.question).toBe('herd');
  });

  it('calls an upper limit above 5 × the mean not useful', () => {
    const herdLine = lines([0, 0, 0, 0, 1, 2, 90], 50, 7).lines[1];
    expect(herdLine?.figure).toMatch(/^\d+ epg or more$/);
    expect(herdLine?.rest).toMatch(/^no useful upper limit/);
  });

  it('names the row that pulls the plain mean out of the limits of the model', () => {
    // One animal counted at a factor of 2000 among animals counted at 10.
    const eggs = [
      ...Array<number>(30)
        .fill(20)
        .map((e, i) => e + (i % 5)),
      9,
    ];
    const factors = [...Array<number>(30).fill(10), 2000];
    expect(lines(eggs, factors, 31).pulled).toMatch(/: K-30 pulls it there/);
    expect(lines([1, 4, 9, 0, 3, 2], 50, 6).pulled).toBeNull();
  });

  it('gives the sentence where too few are counted for limits of the herd', () => {
    expect(lines([3, 9], 50, 2).lines[1]).toMatchObject({
      figure: '',
      rest: 'Only 2 counted: limits for the herd need at least 6 animals.',
    });
  });
});
