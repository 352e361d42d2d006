import { describe, expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { placeIn } from '../../src/engine/formula-problem.ts';
import { speak } from '../../src/text/say.ts';
import { summerNotebook } from '../build-notebook.ts';

/** What is said of a formula in a column of the summer's notebook. */
async function said(formula: string): Promise<string> {
  const engine = createEngine(() => Promise.resolve());
  await engine.open(
    summerNotebook({ animals: { A: {} }, days: { '2026-05-17': {} } }),
    '2026-05-17',
  );
  return engine.check(formula, 'column')?.sentence ?? 'no fault';
}

describe('a faulty formula is told of in one sentence that names the place', () => {
  it.each([
    ['epq + 1', '“epq” (at character 1) is not a known name. The nearest known name is “epg”.'],
    [
      '1 + AVERAGE(herd.eyelids)',
      '“eyelids” (at character 13) is not a known name. The nearest known name is “eyelid”.',
    ],
    ['1 epg', '“epg” (at character 3) does not fit there.'],
    [
      '1 + B7',
      '“B7” (at character 5) looks like a cell address. Here columns have names, such as epg or herd.epg.',
    ],
    ['TODAY()', '“TODAY” (at character 1) would give another figure each day: type the date.'],
    ['1 + ROW()', '“ROW” (at character 5) speaks of cell addresses, and here columns have names.'],
    ['tag + 1', 'Text stands where a number is needed (at character 1).'],
    [
      'IF(5, 1, 2)',
      'A number stands where TRUE or FALSE, such as eyelid >= 4, is needed (at character 4).',
    ],
    [
      'IF(tag, 1, 2)',
      'Text stands where TRUE or FALSE, such as eyelid >= 4, is needed (at character 4).',
    ],
    [
      'tag > 5',
      'The two sides of “>” (at character 5) are text and a number: compare like with like.',
    ],
    [
      'TRUE = "a"',
      'The two sides of “=” (at character 6) are TRUE or FALSE and text: compare like with like.',
    ],
    ['(1', 'The formula ends too early: it needs a closing bracket “)”.'],
    [
      'ROUND(1 2)',
      'The formula needs a comma “,” or a closing bracket “)” before “2” (at character 9).',
    ],
    [
      'SUM(herd epg)',
      'The formula needs a full stop and a column name, as in herd.epg, before “epg” (at character 10).',
    ],
    [
      'SUM(herd',
      'The formula ends too early: it needs a full stop and a column name, as in herd.epg.',
    ],
    [
      'SUM(herd[2026-05-18].epg)',
      'There is no sampling day “2026-05-18” in this notebook. The nearest is 2026-05-17.',
    ],
    ['EPG(27)', 'EPG (at character 1) needs at least 2 arguments.'],
    ['ABS(1, 2)', 'ABS (at character 1) takes at most 1 argument.'],
  ])('%s', async (formula, sentence) => {
    expect(await said(formula)).toBe(sentence);
  });
});

it('another language has its own order and quotation marks, and keeps the place', async () => {
  const unknown = '“{shown}” {place} is not a known name. The nearest known name is “{near}”.';
  const kinds = 'Text stands where a number is needed {place}.';
  speak({
    language: 'xx',
    locale: 'en-GB',
    sentences: {
      '(at character {number})': '({number}:)',
      [unknown]: '«{near}»? {place} «{shown}»',
      [kinds]: '{place} 9 ≠ a',
    },
  });
  try {
    const name = await said('2 * epq');
    expect(name).toBe('«epg»? (5:) «epq»');
    expect(await said('2 * tag')).toBe('(5:) 9 ≠ a');
    // Counted from 0, as the page marks it.
    expect(placeIn(name, '2 * epq'.length)).toBe(4);
    expect(placeIn('nothing of a place', 7)).toBe(null);
  } finally {
    speak({ language: 'en', locale: 'en-GB', sentences: {} });
  }
});
