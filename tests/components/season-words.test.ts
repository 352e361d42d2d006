import { describe, expect, it } from 'vitest';
import { apartSentence, seasonHeadline, seasonSentence } from '../../components/season-words.ts';
import type { SeasonGroup, SeasonMean } from '../../src/treating/season-means.ts';

function on(date: string, facts: Partial<SeasonMean>): SeasonMean {
  return {
    day: date,
    date,
    label: '',
    present: 5,
    mean: null,
    counted: 0,
    afterMean: null,
    afterCounted: 0,
    tooMany: 0,
    ...facts,
  };
}

const lambs: SeasonGroup = {
  group: 'lambs',
  means: [
    on('2026-05-03', { mean: 1210.4, counted: 4 }),
    on('2026-06-07', { afterMean: 20, afterCounted: 3 }),
    on('2026-07-19', { mean: 480, counted: 3, tooMany: 1 }),
  ],
};

describe('the season in words', () => {
  it('reads a line out: mean, day, n of N, and who is left out', () => {
    expect(seasonSentence(lambs, '.')).toBe(
      'lambs: 1,210 epg on 3 May (4 of 5 counted), at least 480 epg on 19 July (3 of 5 counted, 1 too many to count left out).',
    );
  });

  it('names the first and the newest day with counts in the headline', () => {
    expect(seasonHeadline({ ...lambs, group: null }, '.')).toBe(
      'Mean of all animals: 1,210 epg on 3 May, at least 480 epg on 19 July.',
    );
    expect(seasonHeadline({ group: null, means: [on('2026-05-03', {})] }, '.')).toBe(
      'No counts in this season yet.',
    );
  });

  it('says how many counts the lines leave out', () => {
    expect(apartSentence(lambs)).toBe(
      '3 counts soon after a treatment left out of the lines and the ranking, drawn apart (◇).',
    );
    expect(apartSentence({ group: null, means: [] })).toBe('');
  });
});
