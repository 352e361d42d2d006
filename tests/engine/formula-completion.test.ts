import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import { callAt, completionsAt } from '../../src/engine/formula-completion.ts';
import { argumentAt, formText, functionForm } from '../../src/engine/function-form.ts';
import { TRADE_FUNCTIONS } from '../../src/engine/trade-functions/all-trade-functions.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import { fromTemplate } from '../../src/notebook/from-template.ts';
import { readTemplate } from '../../src/notebook/read-template.ts';
import { isFault } from '../../shared/value.ts';
import summer from '../../templates/summer-grazing.json' with { type: 'json' };

function notebook(): Notebook {
  const template = readTemplate(summer);
  if (isFault(template)) throw new Error(template.sentence);
  return fromTemplate(template, {
    id: 'n',
    title: 'Test',
    place: '',
    stamp: [1, 0, 'bench'],
    bind: toStored,
  });
}

/** The caret is where `|` stands. */
function offered(marked: string, place: 'column' | 'figure' | 'criterion' = 'column') {
  const caret = marked.indexOf('|');
  return completionsAt(notebook(), marked.replace('|', ''), caret, place, ['lambs', 'old ewes']);
}

describe('completionsAt(notebook, text, caret, place)', () => {
  it('offers own columns before functions for small letters, functions first for capitals', () => {
    const small = offered('ep|').items.map(({ insert }) => insert);
    expect(small.slice(0, 3)).toEqual(['epg', 'epg_low', 'epg_high']);
    expect(small).toContain('EPGLOW(');
    expect(offered('EP|').items[0]?.insert).toBe('EPG(');
  });

  it('puts in a name with its label, unit and help', () => {
    const treat = offered('epg >= treat|').items[0];
    expect(treat).toMatchObject({ kind: 'limit', insert: 'treat_from' });
    expect(treat?.help).toMatch(/^Treat from \(epg\): An animal at this count/);
  });

  it('replaces the whole word the caret is in', () => {
    const { from, to, word } = offered('EPG(eg|gs, factor)');
    expect({ from, to, word }).toEqual({ from: 4, to: 8, word: 'eg' });
  });

  it('offers a column as a list where the formula is a figure', () => {
    expect(offered('HERDMEAN(epg|', 'figure').items[0]?.insert).toBe('herd.epg');
    expect(offered('HERDMEAN(herd.ep|', 'figure').items[0]?.insert).toBe('epg');
  });

  it('offers columns only after herd., previous. and last., brackets or not', () => {
    for (const text of ['herd.|', 'previous.|', 'last.|', 'SUM(herd["lambs"].|']) {
      const kinds = new Set(offered(text).items.map(({ kind }) => kind));
      expect([...kinds], text).toEqual(['column']);
    }
  });

  it('offers groups in the brackets after herd and closes them', () => {
    const { items, from } = offered('AVERAGE(herd["old|');
    expect(items.map(({ insert }) => insert)).toEqual(['"old ewes"].']);
    expect(from).toBe('AVERAGE(herd['.length);
  });

  it('offers nothing inside a text', () => {
    expect(offered('IF(group = "ep|').items).toEqual([]);
  });

  it('never offers the outcome, which no formula may name', () => {
    expect(offered('outc|').items).toEqual([]);
  });
});

describe('callAt(text, caret)', () => {
  const at = (marked: string) => callAt(marked.replace('|', ''), marked.indexOf('|'));

  it('is the innermost function and the argument the caret is in', () => {
    expect(at('EPG(|')).toEqual({ name: 'EPG', argument: 0 });
    expect(at('EPGLOW(EGGS(1, 2), |)')).toEqual({ name: 'EPGLOW', argument: 1 });
    expect(at('EPGLOW(EGGS(1, 2|), 50)')).toEqual({ name: 'EGGS', argument: 1 });
  });

  it('sees past plain brackets, and reads names with a full stop', () => {
    expect(at('stdev.s((1 + 2|')).toEqual({ name: 'STDEV.S', argument: 0 });
  });

  it('is null outside every call, and a comma in a text parts nothing', () => {
    expect(at('epg + 1|')).toBeNull();
    expect(at('EPG(1, 2)|')).toBeNull();
    expect(at('LEFT("a, b"|')).toEqual({ name: 'LEFT', argument: 0 });
  });
});

describe('functionForm(name)', () => {
  it('shows optional arguments in square brackets and what repeats', () => {
    const low = functionForm('epglow');
    expect(low && formText(low)).toBe('EPGLOW(eggs, factor, [level])');
    const counted = functionForm('COUNTED');
    expect(counted && formText(counted)).toBe('COUNTED([count], [part], …)');
  });

  it('takes repeated arguments in turn', () => {
    const counted = functionForm('COUNTED');
    expect(counted && [2, 3, 4].map((index) => argumentAt(counted, index)?.name)).toEqual([
      'count',
      'part',
      'count',
    ]);
    const epg = functionForm('EPG');
    expect(epg && argumentAt(epg, 2)).toBeUndefined();
  });

  it('knows every trade function', () => {
    for (const { name } of TRADE_FUNCTIONS) expect(functionForm(name)?.isTrade, name).toBe(true);
  });
});
