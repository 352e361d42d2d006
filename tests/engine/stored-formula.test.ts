import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { parseStored, toShown, toStored } from '../../src/engine/stored-formula.ts';
import { columnId, edited, fields, limitLine, summerNotebook } from '../build-notebook.ts';

const herd = edited(summerNotebook({}), limitLine('treat', 500)).notebook;
const epg = columnId(herd, 'epg');

function faultOf(formula: string): string {
  const read = parseStored(herd, formula);
  return isFault(read) ? read.sentence : 'no fault';
}

describe('toStored and toShown', () => {
  it('bind names of columns, limits and figures to ids, and show them again', () => {
    expect(toStored(herd, 'epg >= treat')).toBe(`{c:${epg}} >= {l:l-treat}`);
    expect(toStored(herd, 'mean_epg')).toBe('{f:f-mean_epg}');
    expect(toShown(herd, `EPG({c:${epg}}, 50)`)).toBe('EPG(epg, 50)');
  });

  it.each([
    'EPG(eggs,  factor)',
    'herd["lambs"][2026-05-03 evening].epg + previous.epg - last.epg',
    'STDEV.S(herd.epg)',
    '"epg is ""high""" & note',
    'nosuch + epg',
    '{1,2;3,}',
    '  = epg * 5% ',
    'epg × 2 ≥ treat',
    'half a [formula "epg',
    'tag & day_grams',
  ])('give back every character of %s', (shown) => {
    expect(toShown(herd, toStored(herd, shown))).toBe(shown);
  });

  it('leave functions, groups, texts and unknown names alone', () => {
    const { notebook } = edited(herd, fields('columns', 'x', { key: 'average', kind: 'number' }));
    expect(toStored(notebook, 'AVERAGE(herd["epg"].average) & "epg"')).toBe(
      'AVERAGE(herd["epg"].{c:x}) & "epg"',
    );
    expect(toStored(herd, 'nosuch')).toBe('nosuch');
  });

  it('follow a renamed column, and remember a removed one by its name', () => {
    const stored = toStored(herd, 'epg + 1');
    const renamed = edited(herd, fields('columns', epg, { key: 'per_gram' })).notebook;
    expect(toShown(renamed, stored)).toBe('per_gram + 1');
    const removed = edited(renamed, fields('columns', epg, { removed: true })).notebook;
    expect(toShown(removed, stored)).toBe('per_gram + 1');
    expect(toShown(herd, '{c:never}')).toBe('{c:never}');
  });

  it('take capitals for small letters', () => {
    expect(toStored(herd, 'EPG + Treat')).toBe(`{c:${epg}} + {l:l-treat}`);
  });
});

describe('a formula that cannot be read', () => {
  it.each([
    ['', 'empty'],
    ['1 +', 'ends too early'],
    ['(1', 'closing bracket'],
    ['ROUND(1; 2)', 'comma, not “;” (at character 8)'],
    ['1,5', 'Decimals are written with a point'],
    ['"abc', 'never closed'],
    ['epg[1]', 'only for days and groups'],
    ['herd epg', 'full stop and a column name'],
    ['epg # 2', '“#” (at character 5)'],
    ['1 2', '“2” (at character 3)'],
    ['herd[].epg', 'herd'],
    ['A1:B2', 'cell addresses'],
    [`${'('.repeat(500)}1`, 'too many brackets'],
    [`${'-'.repeat(500)}1`, 'too long'],
  ])('%s says so', (formula, words) => {
    expect(faultOf(formula)).toContain(words);
  });

  it('names places as people see them, not as they are stored', () => {
    expect(faultOf(`{c:${epg}} # 2`)).toContain('(at character 5)');
  });

  it('allows a sign of equality in front', () => {
    expect(faultOf(' = epg + 1')).toBe('no fault');
  });
});
