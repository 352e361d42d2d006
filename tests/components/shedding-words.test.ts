import { describe, expect, it } from 'vitest';
import { leftOutWords, luckWords, sheddingSentences } from '../../components/shedding-words.ts';
import { shedderCaution, shedderLuck } from '../../src/stats/shedder-luck.ts';
import { shedderCount } from '../../src/stats/shedder-share.ts';
import { isFault, fault } from '../../shared/value.ts';

describe('sheddingSentences(shedding)', () => {
  it('says how many shed 80 %, beside what luck alone would show, and who is left out', () => {
    // 20 animals with 2 eggs each on average; that the top 20 % hold 40 % by luck is the known answer
    // for such a herd, so 80 % take a good half of them.
    const eggs = [20, 12, 4, 2, 1, 1, ...Array<number>(14).fill(0)];
    const reached = shedderCount(eggs);
    if (isFault(reached)) throw new Error(reached.sentence);
    const said = sheddingSentences({
      reached,
      share: 0.8,
      luck: shedderLuck(eggs),
      caution: shedderCaution(eggs),
      leftOut: [
        { tag: 'G-013', bound: 'at least 2,050 epg' },
        { tag: 'L-002', bound: '' },
      ],
    });
    expect(said).toEqual([
      '2 of 20 animals shed 80 % of the eggs.',
      'By the luck of counting alone, if all shed alike, it would be about 11 of 20.',
      'Too few eggs to say who sheds: it takes 10 animals and 5 eggs seen on average.',
      '2 too many to count left out: G-013, at least 2,050 epg; L-002.',
    ]);
  });

  it('keeps still where there is nothing to add', () => {
    expect(leftOutWords([])).toBe('');
    const luck = fault('no-eggs', 'No eggs.');
    expect(luckWords({ luck, reached: { animals: 1, counted: 3 } })).toBe('');
    const said = sheddingSentences({
      reached: { animals: 1, counted: 3 },
      share: 0.8,
      luck,
      caution: null,
      leftOut: [],
    });
    expect(said).toEqual(['1 of 3 animals sheds 80 % of the eggs.']);
  });
});
