import { HyperFormula } from 'hyperformula';
import { describe, expect, it } from 'vitest';
import type { Engine } from '../../shared/derived.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault, type Value } from '../../shared/value.ts';
import { withSets } from '../treating/herd.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { ORDINARY_FUNCTIONS } from '../../src/engine/ordinary-functions.ts';
import { TRADE_FUNCTIONS } from '../../src/engine/trade-functions/all-trade-functions.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import {
  columnId,
  edited,
  fields,
  formulaColumn,
  limitLine,
  summerNotebook,
} from '../build-notebook.ts';

/**
 * What we rely on in the calculating engine, each fact once: a new version of it has to pass here before it
 * is taken.
 */

const day = '2026-05-17';

async function opened(notebook: Notebook, on = day): Promise<Engine> {
  const engine = createEngine(() => Promise.resolve());
  await engine.open(notebook, on);
  return engine;
}

const herd = summerNotebook({
  animals: {
    A: { group: 'lambs', species: 'sheep', class: 'lamb', born: '2026-02-17' },
    B: { group: 'ewes', species: 'sheep', class: 'ewe' },
    C: { group: 'lambs', species: 'goat' },
    D: {},
  },
  days: { '2026-05-03': {}, [day]: {} },
  counts: {
    '2026-05-03': { A: { chamber1: '10', chamber2: '10' }, B: { chamber1: '4', chamber2: '6' } },
    [day]: {
      A: { chamber1: '12', chamber2: '15', eyelid: '2', weight: '41.5' },
      B: { chamber1: '0', chamber2: '0', eyelid: '4', note: '0012', weight: '91 lb' },
      C: { eyelid: '3', jaw: 'yes' },
    },
  },
});

async function inRow(formula: string, row = 'A', notebook = herd): Promise<Value> {
  const { notebook: next } = edited(notebook, formulaColumn(notebook, 'tried', formula));
  return (await opened(next)).value(row, 'x-tried');
}

async function figure(formula: string, group: string | null = null): Promise<Value> {
  const engine = await opened(herd);
  const [answer] = await engine.figures([{ formula: toStored(herd, formula), day, group }]);
  return answer?.value ?? null;
}

function sentence(value: Value): string {
  return isFault(value) ? value.sentence : `no fault: ${String(value)}`;
}

describe('a formula in a row', () => {
  it('gives a figure where all its inputs are known', async () => {
    expect(await inRow('EPG(eggs, factor)')).toBe(1350);
  });

  it('stays missing where an input is, and so does what rests on it', async () => {
    expect(await inRow('eggs * 2', 'C')).toBeNull();
    expect(await inRow('IF(epg > 0, 1, 0) + 1', 'C')).toBeNull();
  });

  it('takes a count of 0 for a count', async () => {
    expect(await inRow('epg + 1', 'B')).toBe(1);
  });

  it('is missing where it gives an empty text or MISSING()', async () => {
    expect(await inRow('IF(eggs > 0, "", "none")')).toBeNull();
    expect(await inRow('MISSING() + 1')).toBeNull();
  });

  it('lets GIVEN ask about a missing input', async () => {
    expect(await inRow('IF(GIVEN(eggs), eggs, -1)', 'C')).toBe(-1);
    expect(await inRow('IF(GIVEN(eggs), eggs, -1)', 'A')).toBe(27);
    expect(await inRow('IF(ISBLANK(eggs), 1, 2)', 'C')).toBe(1);
  });

  it('lets EGGS and COUNTED decide about missing chambers and parts', async () => {
    const one = summerNotebook({
      animals: { A: {} },
      days: { [day]: {} },
      counts: { [day]: { A: { chamber1: '5' } } },
    });
    expect(await inRow('EGGS(chamber1, chamber2)', 'A', one)).toBe(5);
    expect(await inRow('COUNTED(chamber1, part1, chamber2, part2)', 'A', one)).toBe(1);
    expect(await inRow('EGGS(chamber1, chamber2) * 2', 'C')).toBeNull();
  });

  it('never takes a missing answer within it for 0', async () => {
    expect(await inRow('EGGS(chamber1) + EGGS(nematodirus)')).toBeNull();
    expect(await inRow('SUM(EGGS(nematodirus), 5)')).toBeNull();
  });

  it('passes an error on, and missing wins over it', async () => {
    expect(sentence(await inRow('1 / (eggs - 27)'))).toContain('divides by 0');
    const { notebook } = edited(herd, formulaColumn(herd, 'broken', '1 / (eggs - eggs)'));
    expect(sentence(await inRow('broken + 1', 'A', notebook))).toContain('divides by 0');
    expect(await inRow('broken + 1', 'C', notebook)).toBeNull();
  });

  it('sees ticks as FALSE until seen, weights in kg, facts as text, age in months', async () => {
    expect(await inRow('IF(jaw, 1, 0)', 'A')).toBe(0);
    expect(await inRow('IF(jaw, 1, 0)', 'C')).toBe(1);
    expect(await inRow('weight', 'B')).toBeCloseTo(91 * 0.45359237, 10);
    expect(await inRow('tag & "/" & group & "/" & class & "/" & species')).toBe(
      'A/lambs/lamb/sheep',
    );
    // 17 February to 17 May 2026 are 89 days; a mean month has 30.4375.
    expect(await inRow('age')).toBeCloseTo(89 / 30.4375, 10);
    expect(await inRow('age', 'B')).toBeNull();
  });

  it('reaches the day before, the last count, and dated days', async () => {
    expect(await inRow('previous.epg')).toBe(1000);
    expect(await inRow('last.epg - epg')).toBe(-350);
    expect(await inRow('previous.epg', 'C')).toBeNull();
    expect(await inRow('MAX(herd[2026-05-03].epg)')).toBe(1000);
    expect(await inRow('COUNT(herd[previous].epg)')).toBe(2);
    expect(sentence(await inRow('MAX(herd[2026-05-04].epg)'))).toContain(
      'no sampling day “2026-05-04”',
    );
  });

  it('skips days without a count on the way to the last one', async () => {
    const { notebook } = edited(herd, fields('days', '2026-05-10', { date: '2026-05-10' }));
    expect(await inRow('last.epg', 'A', notebook)).toBe(1000);
    expect(await inRow('previous.epg', 'A', notebook)).toBeNull();
  });
});

describe('a list', () => {
  it('leaves missing animals out of every summary', async () => {
    expect(await figure('AVERAGE(herd.epg)')).toBe(675);
    expect(await figure('COUNT(herd.epg)')).toBe(2);
    expect(await figure('MIN(herd.epg)')).toBe(0);
    expect(await figure('MEDIAN(herd.epg)')).toBe(675);
    expect(await figure('STDEV(herd.epg)')).toBeCloseTo(Math.hypot(675, 675), 8);
    expect(await figure('PERCENTILE(herd.epg, 1)')).toBe(1350);
    expect(await figure('LARGE(herd.epg, 2)')).toBe(0);
  });

  it('of a group holds that group alone, its missing ones missing', async () => {
    expect(await figure('AVERAGE(herd["lambs"].epg)')).toBe(1350);
    expect(await figure('COUNT(herd["lambs"].eyelid)')).toBe(2);
    expect(await figure('MEDIAN(herd["ewes"].epg)')).toBe(0);
    expect(await figure('COUNT(herd["lambs"][2026-05-03].epg)')).toBe(1);
    expect(await figure('AVERAGE(herd["no such"].epg)')).toBeNull();
  });

  it('tells groups apart by capitals where one is named just so, and else reads any that is alike', async () => {
    const two = withSets(herd, [{ path: ['groups', 'C', '2026-01-01'], value: 'Lambs' }]);
    const count = async (name: string, notebook = two) =>
      (await opened(notebook)).evaluate(toStored(notebook, `COUNT(herd["${name}"].eyelid)`));
    expect(await Promise.all(['lambs', 'Lambs', 'LAMBS'].map((name) => count(name)))).toEqual([
      ...[1, 1, 2],
    ]);
    expect(await count('Lambs', herd)).toBe(2);
  });

  it('in a line of a group means the group, in figures that it names too', async () => {
    expect(await figure('HERDMEAN(herd.epg)', 'lambs')).toBe(1350);
    expect(await figure('mean_epg * 2', 'lambs')).toBe(2700);
    expect(await figure('HERDMEAN(herd["ewes"].epg)', 'lambs')).toBe(0);
  });

  it('is counted without taking a missing one for 0', async () => {
    expect(await figure('COUNTIF(herd.epg, "<>1350")')).toBe(1);
    expect(await figure('COUNTIF(herd.epg, 0)')).toBe(1);
    expect(await figure('COUNTIF(herd.eyelid, ">=3")')).toBe(2);
    expect(await figure('COUNTIF(herd.group, "lambs")')).toBe(2);
    expect(await figure('COUNTIF(herd.jaw, TRUE)')).toBe(1);
    expect(await figure('COUNTIFS(herd.eyelid, ">=3", herd.group, "lambs")')).toBe(1);
    expect(await figure('COUNTBLANK(herd.epg)')).toBe(2);
    expect(await figure('COUNTUNIQUE(herd.eyelid)')).toBe(3);
  });

  it('with nothing in it gives no answer, but a number of 0', async () => {
    expect(await figure('AVERAGE(herd.nematodirus_epg)')).toBeNull();
    expect(await figure('SUM(herd.nematodirus_epg) + 1')).toBeNull();
    expect(await figure('HERDMEAN(herd.nematodirus_epg)')).toBeNull();
    expect(await figure('COUNT(herd.nematodirus_epg)')).toBe(0);
  });

  it('pairs two days animal by animal', async () => {
    // Pairs A (1000, 1350) and B (500, 0): 100 (1 − 1350/1500) = 10.
    expect(await figure('FECR(herd[2026-05-03].epg, herd.epg)')).toBeCloseTo(10, 9);
  });

  it.each([
    'SUM(herd.epg*2)',
    'herd.epg + 1',
    'herd.epg',
    'IF(herd.epg > 1, 1, 2)',
    'ROUND(herd.epg, 0)',
    'AVERAGE({1,2} * 2)',
    'EPG(herd.eggs, 50)',
  ])('stands alone as an argument: %s is refused with a sentence', async (formula) => {
    expect(sentence(await figure(formula))).toContain('stands only as a whole argument');
  });

  it('is written out in braces, blanks missing', async () => {
    expect(await figure('HERDMEAN({1, 2; 3, 6})')).toBe(3);
    expect(await figure('HERDMEAN({4, "", 2,})')).toBe(3);
    expect(await figure('AVERAGE({1, "", 3})')).toBe(2);
  });
});

describe('what looks like something else', () => {
  it.each(['0012', '982000123456789', '1E5', '5%', 'TRUE', '2026-05-03', '=1+1', "'quoted", '+50'])(
    'a note %s stays text',
    async (note) => {
      const path = ['readings', day, 'A', columnId(herd, 'note')] as const;
      const { notebook } = edited(herd, [{ path, value: { kind: 'text', text: note } }]);
      expect(await inRow('note', 'A', notebook)).toBe(note);
      expect(await inRow('LEN(note)', 'A', notebook)).toBe(note.length);
    },
  );

  it('text never counts as a number', async () => {
    expect(sentence(await inRow('tag + 1'))).toContain('needed');
    expect(sentence(await inRow('ROUND(note, 0)', 'B'))).toContain('needed');
    expect(sentence(await inRow('IF(GIVEN(eggs), note, eggs) + 1', 'B'))).toContain(
      '“0012” is text',
    );
    expect(sentence(await inRow('"5" + 1'))).toContain('needed');
    expect(sentence(await inRow('EPG(IF(TRUE, note, 1), 50)', 'B'))).toContain('“0012” is text');
  });

  it('text never compares with a number', async () => {
    expect(sentence(await inRow('note > 500', 'B'))).toContain('compare like with like');
    expect(sentence(await inRow('IF(TRUE, note, 1) > 500', 'B'))).toContain('cannot be compared');
    expect(await inRow('note = "0012"', 'B')).toBe(true);
    expect(await inRow('group = "LAMBS"')).toBe(true);
  });

  it('a tag of digits stays whole', async () => {
    const { notebook } = edited(herd, fields('animals', 'A', { tag: '982000123456789' }));
    expect(await inRow('tag', 'A', notebook)).toBe('982000123456789');
  });
});

describe('numbers at a limit', () => {
  it('500 and 500.0000000000001 are the same', async () => {
    expect(await inRow('0.1 + 0.2 = 0.3')).toBe(true);
    expect(await inRow('500.0000000000001 > 500')).toBe(false);
    expect(await inRow('500 * (1 - 0.00000000001) >= 500')).toBe(true);
    expect(await inRow('499.9 >= 500')).toBe(false);
    expect(await inRow('1 / 3 * 3 = 1')).toBe(true);
  });

  it('figures come out without a hair: 45 mL ÷ (3 g × 0.3 mL), 10 eggs', async () => {
    expect(await inRow('EPG(10, EGGFACTOR(3, 42, 0.15, 2))')).toBe(500);
    expect(await inRow('EPG(10, EGGFACTOR(3, 42, 0.15, 2)) > 500')).toBe(false);
    expect(await inRow('EPG(15, EGGFACTOR(1.5, 28.5, 0.15, 2))')).toBe(1000);
  });

  it('reckons as spreadsheets do: powers from the left, a sign before a power', async () => {
    expect(await inRow('2 ^ 3 ^ 2')).toBe(64);
    expect(await inRow('-2 ^ 2')).toBe(4);
    expect(await inRow('2 + 3 * 4 - 6 / 3')).toBe(12);
    expect(await inRow('50%')).toBe(0.5);
    expect(await inRow('1 + 2 & "x"')).toBe('3x');
  });
});

describe('a loop', () => {
  it('is named, and leaves everything else alone', async () => {
    let { notebook } = edited(herd, formulaColumn(herd, 'one', 'epg'));
    ({ notebook } = edited(notebook, formulaColumn(notebook, 'two', 'one + 1')));
    ({ notebook } = edited(notebook, formulaColumn(notebook, 'one', 'two + 1')));
    const engine = await opened(notebook);
    const said =
      'These formulas lead round in a circle: “one” → “two” → “one”. Change one of them.';
    expect(sentence(engine.value('A', 'x-one'))).toBe(said);
    expect(sentence(engine.value('C', 'x-two'))).toBe(said);
    expect(engine.value('A', columnId(notebook, 'epg'))).toBe(1350);
    expect(engine.criteria('B').find(({ holds }) => holds)?.criterion).toBe('k-3');
  });

  it('of a column that names itself is found, a running total is none', async () => {
    expect(sentence(await inRow('tried + 1'))).toBe(
      'The formula of “tried” names itself. Take “tried” out of it.',
    );
    expect(sentence(await inRow('SUM(herd.tried)'))).toContain('names itself');
    const { notebook } = edited(
      herd,
      formulaColumn(herd, 'total', 'IF(GIVEN(previous.total), previous.total, 0) + epg'),
    );
    // 1000 on 3 May and 1350 on 17 May.
    expect((await opened(notebook)).value('A', 'x-total')).toBe(2350);
  });

  it('through figures and other days is found too', async () => {
    const { notebook } = edited(herd, formulaColumn(herd, 'tried', 'SUM(herd[2026-05-17].tried)'));
    expect(sentence((await opened(notebook, '2026-05-03')).value('A', 'x-tried'))).toContain(
      '“tried”',
    );
    const engine = await opened(notebook, '2026-05-03');
    expect(engine.value('A', columnId(notebook, 'epg'))).toBe(1000);
  });
});

describe('a limit', () => {
  it('without a value is a sentence, not a 0', async () => {
    const { notebook } = edited(herd, limitLine('dose_from', null));
    expect(sentence(await inRow('epg >= dose_from', 'A', notebook))).toBe(
      '“dose_from” has no value yet: set it in Limits.',
    );
  });

  it("of a day outranks the default, and does not touch another day's", async () => {
    const own = { path: ['settings', day, 'l-treat_from'] as const, value: 1350 };
    const { notebook } = edited(herd, [own]);
    expect(await inRow('treat_from', 'A', notebook)).toBe(1350);
    expect(await inRow('previous.treat_from', 'A', notebook)).toBe(
      await inRow('treat_from', 'A', herd),
    );
  });
});

describe('a formula as people may write it', () => {
  const value = (formula: string): Value => createEngine().evaluate(formula);

  it('may hold quotes, backslashes and line ends in a text', () => {
    expect(value('"say ""hi"" \\ 50%" & "\nend"')).toBe('say "hi" \\ 50%\nend');
  });

  it('gives no answer where IF has no else', () => {
    expect(value('IF(1 > 2, 5)')).toBeNull();
    expect(value('IF(2 > 1, 5)')).toBe(5);
  });

  it('says that there are too few figures, not that something divides by 0', () => {
    expect(sentence(value('STDEV({1})'))).toContain('too few known figures');
    expect(sentence(value('LARGE({1, 2}, 5)'))).toContain('too few known figures');
    expect(sentence(value('AVERAGE({1 / 0, 2})'))).toContain('divides by 0');
  });

  it('leaves blanks out of COUNTA', () => {
    expect(value('COUNTA({"a", 1, ""})')).toBe(2);
  });

  it.each([
    `1${'+1'.repeat(99)}`,
    `1${'+1'.repeat(5000)}`,
    `${'('.repeat(5000)}1`,
    `${'-'.repeat(5000)}1`,
    `1${'%'.repeat(5000)}`,
    `${'ABS('.repeat(90)}1${')'.repeat(90)}`,
    `${'('.repeat(50)}1${'+1'.repeat(60)}${')+1'.repeat(50)}`,
  ])('may be far too long, and is then refused with a sentence: %.20s…', (formula) => {
    const answer = value(formula);
    expect(typeof answer === 'number' || isFault(answer)).toBe(true);
    if (isFault(answer)) expect(answer.sentence).toMatch(/too long|needs|does not fit/);
  });
});

describe('the functions', () => {
  it('ordinary ones are known to the calculating engine', () => {
    const known = new Set(HyperFormula.getRegisteredFunctionNames('enGB'));
    const names = [
      ...ORDINARY_FUNCTIONS.map((row) => row.engineName),
      ...TRADE_FUNCTIONS.map((t) => t.name),
    ];
    expect(names.filter((name) => !known.has(name))).toEqual([]);
  });

  it.each([
    ['AVERAGEIFS(herd.epg)', 'AVERAGEIFS', 'AVERAGE'],
    ['RANK(epg)', 'RANK', ''],
    ['LET(1)', 'LET', 'LEFT'],
    ['EPGS(1, 2)', 'EPGS', 'EPG'],
    ['HERDMEANS(herd.epg)', 'HERDMEANS', 'HERDMEAN'],
  ])('unknown ones are quoted with the nearest known: %s', (formula, name, near) => {
    const engine = createEngine();
    const fault = engine.check(formula, 'column');
    expect(fault?.sentence).toContain(`“${name}” is not a known function`);
    expect(fault?.sentence).toMatch(new RegExp(`The nearest known function is ${near}`));
  });

  it.each([
    'RAND()',
    'NOW()',
    'TODAY()',
    'INDIRECT("A1")',
    'OFFSET(epg, 1, 1)',
    'ROW()',
    'VLOOKUP(1)',
  ])('that change or point by themselves are refused: %s', (formula) => {
    expect(createEngine().check(formula, 'column')?.fault).toBe('refused-function');
  });

  it.each(['A1 + 1', 'AVERAGE(A1:B2)', 'Sheet1!A1', '$A$1'])(
    'know no cell addresses: %s',
    (formula) => {
      expect(createEngine().check(formula, 'column')?.sentence).toMatch(/address/);
    },
  );
});
