import { describe, expect, it } from 'vitest';
import type { Engine, FigureAnswer } from '../../shared/derived.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault, type Value } from '../../shared/value.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import { TRADE_FUNCTIONS } from '../../src/engine/trade-functions/all-trade-functions.ts';
import { outcomeOf } from '../../src/notebook/outcome.ts';
import { figuresOf } from '../../src/notebook/read.ts';
import {
  columnId,
  edited,
  fields,
  figureLine,
  formulaColumn,
  summerNotebook,
  typing,
  type Parts,
} from '../build-notebook.ts';

/** What goes wrong at the bench and in spreadsheets, told as cases; each must come out right. */

const day = '2026-05-03';
const after = '2026-05-17';

class Bench {
  readonly engine: Engine = createEngine(() => Promise.resolve());

  private constructor(public notebook: Notebook) {}

  static async with(
    counts: Readonly<Record<string, Readonly<Record<string, string>>>>,
    parts: Parts = {},
    treatFrom = 500,
  ): Promise<Bench> {
    const animals = Object.fromEntries(Object.keys(counts).map((id) => [id, {}]));
    const notebook = summerNotebook({
      animals,
      days: { [day]: {}, [after]: {} },
      counts: { [day]: counts },
      ...parts,
    });
    const limit = { path: ['settings', 'default', 'l-treat_from'] as const, value: treatFrom };
    const bench = new Bench(edited(notebook, [limit]).notebook);
    await bench.engine.open(bench.notebook, day);
    return bench;
  }

  async type(row: string, key: string, text: string, on = day): Promise<void> {
    await this.edit([typing(this.notebook, on, row, key, text)]);
  }

  async edit(sets: Parameters<typeof edited>[1]): Promise<void> {
    const { notebook, changes } = edited(this.notebook, sets);
    this.notebook = notebook;
    await this.engine.apply(notebook, changes);
  }

  value(row: string, key: string): Value {
    return this.engine.value(row, columnId(this.notebook, key));
  }

  async figure(formula: string, on = day, group: string | null = null): Promise<FigureAnswer> {
    const stored = toStored(this.notebook, formula);
    const [answer] = await this.engine.figures([{ formula: stored, day: on, group }]);
    return answer as FigureAnswer;
  }

  outcome(row: string): string {
    return outcomeOf(this.notebook, day, this.engine.criteria(row)).kind;
  }

  holds(row: string): readonly string[] {
    return this.engine
      .criteria(row)
      .filter(({ holds }) => holds === true)
      .map(({ criterion }) => criterion);
  }
}

/** The template's criteria, by their ids: eyelid 5, jaw, eyelid 4, thin and 3, too many, epg. */
async function withCriteria(counts: Parameters<typeof Bench.with>[0]): Promise<Bench> {
  const bench = await Bench.with(counts);
  const criteria = bench.notebook.defaults['default']?.criteria?.[0]?.[0];
  await bench.edit([{ path: ['days', day, 'criteria'], value: criteria as never }]);
  return bench;
}

describe('a count', () => {
  it('left empty is no epg, in no mean, no share', async () => {
    const bench = await Bench.with({ A: { chamber1: '10', chamber2: '10' }, B: {} });
    expect(bench.value('B', 'epg')).toBeNull();
    expect(await bench.figure('HERDMEAN(herd.epg)')).toEqual({
      value: 1000,
      counted: 1,
      present: 2,
    });
    expect((await bench.figure('SHAREFROM(herd.epg, treat_from)')).value).toBe(1);
  });

  it('of 0 and 0 is 0 epg', async () => {
    const bench = await Bench.with({ A: { chamber1: '0', chamber2: '0' } });
    expect(bench.value('A', 'epg')).toBe(0);
    expect((await bench.figure('HERDMEAN(herd.epg)')).counted).toBe(1);
  });

  it('>40 is over a limit that 41 eggs reach, and in no mean', async () => {
    const bench = await withCriteria({
      A: { chamber1: '>40' },
      B: { chamber1: '1', chamber2: '1' },
    });
    expect(bench.value('A', 'epg')).toBeNull();
    expect(bench.holds('A')).toEqual(['k-6']);
    expect(bench.outcome('A')).toBe('over');
    expect(await bench.figure('HERDMEAN(herd.epg)')).toEqual({
      value: 100,
      counted: 1,
      present: 2,
    });
  });

  it('>40 settles nothing at a limit that 41 eggs do not reach', async () => {
    const bench = await withCriteria({ A: { chamber1: '>40', chamber2: '0' } });
    // 41 eggs in two areas are 2,050 epg.
    await bench.edit([{ path: ['settings', 'default', 'l-treat_from'], value: 2050 }]);
    expect(bench.outcome('A')).toBe('over');
    await bench.edit([{ path: ['settings', 'default', 'l-treat_from'], value: 2051 }]);
    expect(bench.outcome('A')).toBe('not enough known');
  });

  it('<5 settles "below" only where 4 eggs are below', async () => {
    const bench = await withCriteria({ A: { chamber1: '<5', chamber2: '2' } });
    // At most 6 eggs in two areas: 300 epg.
    expect(bench.outcome('A')).toBe('below');
    await bench.edit([{ path: ['settings', 'default', 'l-treat_from'], value: 300 }]);
    expect(bench.outcome('A')).toBe('not enough known');
  });

  it.each(['TNTC', 'too many'])('%s holds the ready criterion, and no other', async (typed) => {
    const bench = await withCriteria({ A: { chamber1: typed } });
    expect(bench.holds('A')).toEqual(['k-5']);
    expect(bench.outcome('A')).toBe('over');
    expect(bench.value('A', 'epg')).toBeNull();
  });

  it.each(['-', 'x', '12?'])('%s is no number: not enough known, in no mean', async (typed) => {
    const bench = await withCriteria({ A: { chamber1: typed, chamber2: '40' } });
    expect(bench.value('A', 'epg')).toBeNull();
    expect(bench.holds('A')).toEqual([]);
    expect(bench.outcome('A')).toBe('not enough known');
    expect((await bench.figure('HERDMEAN(herd.epg)')).counted).toBe(0);
  });

  it('of one chamber beside "too many" in the other never passes for the cup', async () => {
    const bench = await withCriteria({ A: { chamber1: 'TNTC', chamber2: '3' } });
    expect(bench.value('A', 'epg')).toBeNull();
    expect(bench.value('A', 'chamber2')).toBeNull();
    // What was seen in chamber 2 alone is over the limit: 30 eggs at the least in two areas.
    await bench.type('A', 'chamber2', '30');
    expect(bench.holds('A')).toEqual(['k-5', 'k-6']);
  });

  it('whose part of the grid cannot be read is not taken for a whole grid', async () => {
    const bench = await Bench.with({ A: { chamber1: '5', part1: '3/', chamber2: '5' } });
    expect(bench.value('A', 'epg')).toBeNull();
    await bench.type('A', 'part1', '3/6');
    // 10 eggs in 1½ areas: factor 30/(2 × 0.15 × 1.5).
    expect(bench.value('A', 'epg')).toBeCloseTo((10 * 30) / (2 * 0.15 * 1.5), 8);
  });

  it('in whole and half a grid: 20 and 10 agree, 2,000 epg', async () => {
    const bench = await Bench.with({ A: { chamber1: '20', chamber2: '10', part2: '3/6' } });
    expect(bench.value('A', 'factor')).toBeCloseTo(66.6667, 3);
    expect(bench.value('A', 'epg')).toBeCloseTo(2000, 8);
    expect(bench.value('A', 'agree')).toBe(true);
    await bench.edit(
      formulaColumn(bench.notebook, 'gap', 'CHAMBERGAP(chamber1, chamber2, part1, part2)'),
    );
    expect(bench.engine.value('A', 'x-gap')).toBe(1);
  });
});

describe('a row being typed', () => {
  it('has no epg from one chamber of two until it is left', async () => {
    const bench = await Bench.with({ A: {}, B: { chamber1: '1', chamber2: '1' } });
    await bench.engine.holdBack('A');
    await bench.type('A', 'chamber1', '5');
    expect(bench.value('A', 'epg')).toBeNull();
    expect((await bench.figure('HERDMEAN(herd.epg)')).value).toBe(100);
    const refs = await bench.engine.holdBack('B');
    expect(refs.map(({ column }) => column)).toContain(columnId(bench.notebook, 'epg'));
    expect(bench.value('A', 'epg')).toBe(500);
    expect(bench.value('A', 'factor')).toBe(100);
    expect((await bench.figure('HERDMEAN(herd.epg)')).value).toBe(300);
  });

  it('counts at once when both chambers are in', async () => {
    const bench = await Bench.with({ A: {} });
    await bench.engine.holdBack('A');
    await bench.type('A', 'chamber1', '5');
    await bench.type('A', 'chamber2', '6');
    expect(bench.value('A', 'epg')).toBe(550);
    await bench.engine.holdBack(null);
    expect(bench.value('A', 'epg')).toBe(550);
  });

  it('is worked out once where its count is typed by leaving it', async () => {
    const bench = await Bench.with({ A: {}, B: { chamber1: '2' } });
    await bench.engine.holdBack('A');
    const typed = bench.type('A', 'chamber1', '5');
    const left = bench.engine.holdBack('B');
    await typed;
    expect(bench.value('A', 'epg')).toBe(500);
    expect(bench.value('B', 'epg')).toBeNull();
    expect(await left).toEqual([]);
    await bench.engine.holdBack(null);
    expect(bench.value('B', 'epg')).toBe(200);
  });
});

describe('a status', () => {
  it.each(['not sampled', 'spoiled', 'lost', 'pooled', 'could not count'])(
    '%s keeps the cup out, and leaves the animal in',
    async (status) => {
      const bench = await withCriteria({
        A: { chamber1: '40', chamber2: '40', eyelid: '4', status },
      });
      expect(bench.value('A', 'epg')).toBeNull();
      expect(bench.value('A', 'eyelid')).toBe(4);
      expect(bench.holds('A')).toEqual(['k-3']);
      await bench.type('A', 'status', 'sampled');
      expect(bench.value('A', 'epg')).toBe(4000);
    },
  );

  it('spoiled takes "too many" out as well', async () => {
    const bench = await withCriteria({ A: { chamber1: 'TNTC', status: 'spoiled' } });
    expect(bench.holds('A')).toEqual([]);
  });
});

describe('the outcome', () => {
  it.each([
    [{ eyelid: '2' }, 'not enough known'],
    [{ eyelid: '4' }, 'over'],
    [{}, 'not enough known'],
    [{ eyelid: '2', chamber1: '1', chamber2: '1' }, 'below'],
    [{ chamber1: '5', chamber2: '5' }, 'over'],
    [{ condition: '1.5', eyelid: '3' }, 'over'],
    [{ jaw: 'yes' }, 'over'],
  ])('of %o is %s', async (typed, kind) => {
    const bench = await withCriteria({ A: typed });
    expect(bench.outcome('A')).toBe(kind);
  });

  it('names what could not be judged, by the columns that lack', async () => {
    const bench = await withCriteria({ A: {} });
    const answers = bench.engine.criteria('A');
    expect(answers.map(({ lacking }) => lacking)).toEqual([
      ['eyelid'],
      [],
      ['eyelid'],
      ['condition', 'eyelid'],
      [],
      ['epg'],
    ]);
  });
});

describe('before and after', () => {
  async function pairs(
    before: readonly (string | null)[],
    then: readonly (string | null)[],
  ): Promise<Bench> {
    const rows = (counts: readonly (string | null)[]): Record<string, Record<string, string>> =>
      Object.fromEntries(
        counts.map((eggs, i): [string, Record<string, string>] => [
          `s${i}`,
          eggs === null ? {} : { chamber1: eggs, chamber2: '0' },
        ]),
      );
    return Bench.with(rows(before), {
      counts: { [day]: rows(before), [after]: rows(then) },
    });
  }

  const reduction = 'FECR(herd.epg, herd[2026-05-17].epg)';

  it('an animal without a second count is left out with its first', async () => {
    const bench = await pairs(['10', '10'], ['1', null]);
    expect((await bench.figure(reduction)).value).toBeCloseTo(90, 9);
  });

  it('no egg on either day is a pair', async () => {
    const bench = await pairs(['10', '0'], ['1', '0']);
    expect((await bench.figure(reduction)).value).toBeCloseTo(90, 9);
  });

  it('more eggs after is a negative reduction', async () => {
    const bench = await pairs(['1'], ['2']);
    expect((await bench.figure(reduction)).value).toBeCloseTo(-100, 9);
  });

  it('no eggs before is a sentence', async () => {
    const bench = await pairs(['0', '0'], ['0', '2']);
    const { value } = await bench.figure(reduction);
    expect(isFault(value) && value.sentence).toContain('Before-treatment counts are all zero');
  });
});

describe('the herd', () => {
  it('without a count shows a dash in every figure of the template, and no error', async () => {
    const bench = await Bench.with({ A: {}, B: {} });
    const asked = figuresOf(bench.notebook).map(({ formula }) => ({ formula, day, group: null }));
    expect(asked.length).toBeGreaterThan(3);
    for (const answer of await bench.engine.figures(asked))
      expect(answer).toEqual({ value: null, counted: 0, present: 2 });
  });

  it('takes a new animal into every figure at once', async () => {
    const bench = await Bench.with({ A: { chamber1: '10', chamber2: '10' } });
    await bench.edit([
      ...fields('animals', 'new', { tag: 'new', order: '0' }),
      typing(bench.notebook, day, 'new', 'chamber1', '20'),
      typing(bench.notebook, day, 'new', 'chamber2', '20'),
    ]);
    expect(await bench.figure('HERDMEAN(herd.epg)')).toEqual({
      value: 1500,
      counted: 2,
      present: 2,
    });
  });

  it('keeps apart three electronic numbers that differ in the last digit', async () => {
    const bench = await Bench.with(
      { A: { chamber1: '1' }, B: { chamber1: '2' }, C: { chamber1: '4' } },
      {
        animals: {
          A: { tag: '982000123456781' },
          B: { tag: '982000123456782' },
          C: { tag: '982000123456783' },
        },
      },
    );
    await bench.edit(formulaColumn(bench.notebook, 'mine', 'tag & ":" & epg'));
    expect(['A', 'B', 'C'].map((row) => bench.engine.value(row, 'x-mine'))).toEqual([
      '982000123456781:100',
      '982000123456782:200',
      '982000123456783:400',
    ]);
    expect((await bench.figure('COUNTUNIQUE(herd.tag)')).value).toBe(3);
  });

  it.each(['0123', '123', 'a12', '9E5', '1.5.2', '3-4-26', 'TRUE'])('keeps tag %s', async (tag) => {
    const bench = await Bench.with({ A: {} }, { animals: { A: { tag } } });
    await bench.edit(formulaColumn(bench.notebook, 'mine', 'tag'));
    expect(bench.engine.value('A', 'x-mine')).toBe(tag);
  });

  it('of May does not grow by animals that arrive in August', async () => {
    const bench = await Bench.with({ A: { chamber1: '1', chamber2: '1' } });
    await bench.edit(fields('animals', 'late', { tag: 'late', order: 'z', arrived: '2026-08-01' }));
    expect((await bench.figure('HERDMEAN(herd.epg)')).present).toBe(1);
    expect(bench.engine.criteria('late')).toEqual([]);
  });

  it('of 2,000 loses 200 animals without disturbing the rest', async () => {
    const ids = Array.from({ length: 2000 }, (_, i) => `s${i}`);
    const counts = Object.fromEntries(ids.map((id) => [id, { chamber1: '1', chamber2: '1' }]));
    const bench = await Bench.with(counts);
    const gone = ids.filter((_, i) => i % 10 === 3);
    await bench.edit(gone.flatMap((id) => fields('animals', id, { removed: true })));
    expect(await bench.figure('HERDMEAN(herd.epg)')).toEqual({
      value: 100,
      counted: 1800,
      present: 1800,
    });
    expect(bench.value('s3', 'epg')).toBeNull();
    expect(bench.value('s4', 'epg')).toBe(100);
  });

  it('keeps coccidia out of epg', async () => {
    const bench = await Bench.with({ A: { chamber1: '1', chamber2: '1', coccidia: '90' } });
    expect(bench.value('A', 'epg')).toBe(100);
    expect(bench.value('A', 'coccidia_epg')).toBe(4500);
  });

  it('has its limit of May left alone by a limit of August', async () => {
    const bench = await withCriteria({ A: { chamber1: '5', chamber2: '5' } });
    await bench.edit([{ path: ['settings', after, 'l-treat_from'], value: 1000 }]);
    expect(bench.outcome('A')).toBe('over');
  });
});

describe('a protocol', () => {
  it('made up to a volume is that volume less the dung of this very sample', async () => {
    const bench = await Bench.with({ A: { chamber1: '10', chamber2: '0' } });
    await bench.edit(
      fields('days', day, { grams: 3, fluidMl: 45, fluidIs: 'made up to', areaMl: 0.15, areas: 2 }),
    );
    expect(bench.value('A', 'fluid')).toBe(42);
    expect(bench.value('A', 'epg')).toBe(500);
    await bench.type('A', 'grams', '1.5');
    expect(bench.value('A', 'fluid')).toBe(43.5);
    expect(bench.value('A', 'epg')).toBe(1000);
  });

  it('is outranked by a factor typed for a concentrated method', async () => {
    const bench = await Bench.with({ A: { chamber1: '10', chamber2: '0', factor: '20' } });
    expect(bench.value('A', 'epg')).toBe(200);
    await bench.type('A', 'factor', '');
    expect(bench.value('A', 'epg')).toBe(500);
  });
});

describe('a figure that refers to itself', () => {
  it('is named; data and other figures stay', async () => {
    const bench = await Bench.with({ A: { chamber1: '1', chamber2: '1' } });
    await bench.edit(figureLine(bench.notebook, 'odd', 'mean_epg'));
    await bench.edit(figureLine(bench.notebook, 'odd', 'odd + 1'));
    const { value } = await bench.figure('odd');
    expect(isFault(value) && value.sentence).toContain('“odd”');
    expect((await bench.figure('mean_epg')).value).toBe(100);
    expect(bench.engine.check('odd + 1', 'figure', 'odd')?.fault).toBe('loop');
  });
});

describe('a trade function given nonsense', () => {
  const nonsense = ['-1', '0', '1e300', '""', '"abc"', 'TRUE', '{}', '{"a",1}', '{1,2}', '1/0', ''];

  it.each(TRADE_FUNCTIONS.map(({ name, params }) => [name, params.length] as const))(
    '%s answers with a value or a sentence, and the engine goes on',
    (name, params) => {
      const engine = createEngine();
      const good = '{3,1,4,1,5,9,2,6}';
      for (const first of nonsense) {
        for (const second of [...nonsense, good, '1']) {
          const args = [first, second, ...Array<string>(Math.max(0, params - 2)).fill('0.5')];
          const value = engine.evaluate(`${name}(${args.slice(0, params).join(',')})`);
          if (isFault(value)) expect(value.sentence).toMatch(/^[^#]+[.?]$/);
          else if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        }
      }
      expect(engine.evaluate('EPG(27, 50)')).toBe(1350);
    },
  );
});
