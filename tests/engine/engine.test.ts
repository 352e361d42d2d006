import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { toStored } from '../../src/engine/stored-formula.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { deepFreeze } from '../freeze.ts';
import {
  columnId,
  criterion,
  edited,
  fields,
  figureLine,
  formulaColumn,
  nextStamp,
  summerNotebook,
  typing,
} from '../build-notebook.ts';

const first = '2026-05-03';
const second = '2026-05-17';

const herd = deepFreeze(
  summerNotebook({
    animals: { A: { group: 'lambs' }, B: {} },
    days: { [first]: {}, [second]: {} },
    counts: {
      [first]: { A: { chamber1: '1', chamber2: '1' }, B: { chamber1: '2', chamber2: '2' } },
      [second]: { A: { chamber1: '5', chamber2: '5' } },
    },
  }),
);
const epg = columnId(herd, 'epg');
const mean = toStored(herd, 'HERDMEAN(herd.epg)');
const atOnce = (): Promise<void> => Promise.resolve();

describe('engine.open', () => {
  it('is overtaken by a newer one', async () => {
    const engine = createEngine(atOnce);
    const opening = [engine.open(herd, first), engine.open(herd, second)];
    await Promise.all(opening);
    expect(engine.value('A', epg)).toBe(500);
    expect(engine.value('B', epg)).toBeNull();
  });

  it('goes before an edit made while the day is loading', async () => {
    const engine = createEngine(atOnce);
    const opening = engine.open(herd, first);
    const { notebook, changes } = edited(herd, [typing(herd, first, 'A', 'chamber1', '9')]);
    const refs = await engine.apply(notebook, changes);
    await opening;
    expect(engine.value('A', epg)).toBe(500);
    expect(refs).toContainEqual({ day: first, row: 'A', column: epg });
  });

  it('pauses between slices of rows', async () => {
    const animals = Object.fromEntries(Array.from({ length: 700 }, (_, i) => [`s${i}`, {}]));
    const large = summerNotebook({ animals, days: { [first]: {} } });
    let pauses = 0;
    const engine = createEngine(() => {
      pauses += 1;
      return Promise.resolve();
    });
    await engine.open(large, first);
    expect(pauses).toBeGreaterThan(4);
  });
});

describe('engine.apply', () => {
  it('gives the cells of the open day that came out anew, and no others', async () => {
    const engine = createEngine(atOnce);
    await engine.open(herd, first);
    const { notebook, changes } = edited(herd, [typing(herd, first, 'A', 'eyelid', '4')]);
    const refs = await engine.apply(notebook, changes);
    expect(refs.map(({ row, column }) => [row, column]).sort()).toEqual([
      ['A', columnId(herd, 'eyelid')],
      ['A', columnId(herd, 'outcome')],
    ]);
    expect(refs.every(({ day }) => day === first)).toBe(true);
  });

  it('takes nothing from what no formula sees', async () => {
    const engine = createEngine(atOnce);
    await engine.open(herd, first);
    const { notebook, changes } = edited(herd, fields('columns', epg, { label: 'eggs, per gram' }));
    expect(await engine.apply(notebook, changes)).toEqual([]);
  });

  it('follows a limit into the outcome of each animal it moves', async () => {
    const criteria = [criterion(herd, 'epg >= treat_from')];
    const days = edited(herd, [{ path: ['days', first, 'criteria'], value: criteria as never }]);
    const engine = createEngine(atOnce);
    await engine.open(days.notebook, first);
    expect(engine.criteria('B')[0]?.holds).toBe(false);
    const limit = { path: ['settings', first, 'l-treat_from'] as const, value: 150 };
    const { notebook, changes } = edited(days.notebook, [limit]);
    const refs = await engine.apply(notebook, changes);
    expect(engine.criteria('B')[0]?.holds).toBe(true);
    expect(refs).toEqual([{ day: first, row: 'B', column: columnId(herd, 'outcome') }]);
  });

  it('knows the group of an animal that moves, from its day on', async () => {
    const engine = createEngine(atOnce);
    await engine.open(herd, second);
    const move = { path: ['groups', 'A', second] as const, value: 'ewes' };
    const { notebook, changes } = edited(herd, [move]);
    await engine.apply(notebook, changes);
    const asked = ['AVERAGE(herd["lambs"].epg)', 'AVERAGE(herd["ewes"].epg)'].map((formula) => ({
      formula: toStored(notebook, formula),
      group: null,
    }));
    const on = async (day: string): Promise<unknown[]> =>
      (await engine.figures(asked.map((one) => ({ ...one, day })))).map(({ value }) => value);
    expect(await on(second)).toEqual([null, 500]);
    expect(await on(first)).toEqual([100, null]);
  });

  it('follows a treatment into the days since', async () => {
    const engine = createEngine(atOnce);
    await engine.open(herd, second);
    const { notebook, changes } = edited(herd, [
      ...fields('products', 'p', { name: 'white bottle', afterDays: 14 }),
      ...fields('treatments', 't', { animal: 'A', product: 'p', date: '2026-05-10' }),
    ]);
    await engine.apply(notebook, changes);
    expect(engine.value('A', columnId(herd, 'after_treatment'))).toBe(7);
    expect(engine.value('B', columnId(herd, 'after_treatment'))).toBeNull();
  });
});

describe('engine.figures', () => {
  it('answers for the open day, for others, and for groups, with n of N', async () => {
    const engine = createEngine(atOnce);
    await engine.open(herd, first);
    const answers = await engine.figures([
      { formula: mean, day: first, group: null },
      { formula: mean, day: second, group: null },
      { formula: mean, day: first, group: 'lambs' },
      { formula: toStored(herd, 'treat_from * 2'), day: first, group: null },
      { formula: toStored(herd, 'AVERAGE(herd[2026-05-17].epg)'), day: first, group: null },
    ]);
    expect(answers).toEqual([
      { value: 150, counted: 2, present: 2 },
      { value: 500, counted: 1, present: 2 },
      { value: 100, counted: 1, present: 1 },
      { value: 1000, counted: null, present: 2 },
      { value: 500, counted: 1, present: 2 },
    ]);
  });

  it('stops when it is told to, with an abort error', async () => {
    const control = new AbortController();
    let hasOpened = false;
    const engine = createEngine(() => {
      if (hasOpened) control.abort();
      return Promise.resolve();
    });
    await engine.open(herd, first);
    hasOpened = true;
    const asked = [first, first, second].map((day) => ({ formula: mean, day, group: null }));
    await expect(engine.figures(asked, control.signal)).rejects.toMatchObject({
      name: 'AbortError',
    });
  });

  it('follow edits of days that are not open, also where readings are changed in place', async () => {
    const engine = createEngine(atOnce);
    await engine.open(herd, first);
    const asked = [{ formula: mean, day: second, group: null }];
    expect((await engine.figures(asked))[0]?.value).toBe(500);
    let notebook: Notebook = structuredClone(herd);
    await engine.open(notebook, first);
    expect((await engine.figures(asked))[0]?.value).toBe(500);
    expect((await engine.dayColumn(notebook, second, epg)).get('A')).toBe(500);
    const edit = {
      label: 'test',
      source: 'typed' as const,
      sets: [typing(notebook, second, 'A', 'chamber1', '15')],
    };
    const next = applyEdit(notebook, edit, nextStamp(), 'days in place');
    notebook = next.notebook;
    await engine.apply(notebook, next.changes);
    expect((await engine.figures(asked))[0]?.value).toBe(1000);
    expect((await engine.dayColumn(notebook, second, epg)).get('A')).toBe(1000);
  });

  it('that name a figure named by a column see the same value', async () => {
    const { notebook } = edited(herd, formulaColumn(herd, 'above', 'epg - mean_epg'));
    const engine = createEngine(atOnce);
    await engine.open(notebook, first);
    expect(engine.value('A', 'x-above')).toBe(-50);
    const next = edited(notebook, [typing(notebook, first, 'B', 'chamber1', '6')]);
    await engine.apply(next.notebook, next.changes);
    expect(engine.value('A', 'x-above')).toBe(100 - 250);
  });
});

describe('engine.dayColumn', () => {
  it('gives one column of any day for the animals present', async () => {
    const { notebook } = edited(herd, fields('animals', 'B', { left: second }));
    const engine = createEngine(atOnce);
    await engine.open(notebook, first);
    expect([...(await engine.dayColumn(notebook, second, epg))]).toEqual([['A', 500]]);
    expect([...(await engine.dayColumn(notebook, first, epg))]).toEqual([
      ['A', 100],
      ['B', 200],
    ]);
  });
});

describe('engine.evaluate', () => {
  it('works formulas out for the herd or for one animal', async () => {
    const engine = createEngine(atOnce);
    await engine.open(herd, first);
    expect(engine.evaluate('epg * 2', 'B')).toBe(400);
    expect(engine.evaluate('= HERDMEAN(herd.epg)')).toBe(150);
    expect(engine.evaluate('HERDMEAN(herd[2026-05-17].epg)')).toBe(500);
    expect(isFault(engine.evaluate('epg * 2'))).toBe(true);
    expect(isFault(engine.evaluate('epg', 'nobody'))).toBe(true);
  });
});

describe('engine.check', () => {
  it('accepts what can stand and says what is wrong with the rest', async () => {
    const engine = createEngine(atOnce);
    await engine.open(herd, first);
    expect(engine.check('epg / 2', 'column', 'half')).toBeNull();
    expect(engine.check('HERDMEAN(herd.epg)', 'figure', 'mean_epg')).toBeNull();
    expect(engine.check('epg >= 4', 'criterion')).toBeNull();
    expect(engine.check('epg + 4', 'criterion')?.sentence).toContain('TRUE or FALSE');
    expect(engine.check('epg', 'figure')?.sentence).toContain('herd.epg');
    expect(engine.check('factor * epg', 'column', 'eggs')?.fault).toBe('loop');
    expect(engine.check('eggs2 + 1', 'column')?.sentence).toContain(
      'The nearest known name is “eggs”',
    );
    expect(engine.check('outcome = "over"', 'column')?.sentence).toContain('treatment criteria');
    expect(engine.check('SUM(herd.treat_from)', 'column')?.sentence).toContain('without “herd.”');
    expect(engine.check('mean_epg + 1', 'figure', 'mean_epg')?.fault).toBe('loop');
  });
});

describe('engine.explain', () => {
  it('shows the formula, the same with values, its inputs and functions', async () => {
    const engine = createEngine(atOnce);
    await engine.open(herd, second);
    expect(engine.explain('A', epg)).toEqual({
      formula: 'EPG(eggs, factor)',
      withValues: 'EPG(10, 50)',
      value: 500,
      inputs: [
        { key: 'eggs', value: 10 },
        { key: 'factor', value: 50 },
      ],
      functions: ['EPG'],
    });
    expect(engine.explain('B', epg)?.withValues).toBe('EPG(missing, missing)');
    expect(engine.explain('A', columnId(herd, 'chamber1'))).toBeNull();
    const { notebook } = edited(herd, formulaColumn(herd, 'more', 'epg - previous.epg & "epg"'));
    await engine.open(notebook, second);
    expect(engine.explain('A', 'x-more')?.withValues).toBe('500 - 100 & "epg"');
  });
});

describe('a criterion', () => {
  it('is asked of the species and classes it is for, and of animals not known to be others', async () => {
    const { notebook } = edited(herd, [
      ...fields('animals', 'A', { species: 'goat', class: 'kid' }),
      {
        path: ['days', first, 'criteria'],
        value: [
          criterion(herd, 'epg > 0', { id: 'sheep', species: 'sheep' }),
          criterion(herd, 'epg > 0', { id: 'kids', classes: ['kid'] }),
          criterion(herd, 'nosuch > 0', { id: 'wrong' }),
        ] as never,
      },
    ]);
    const engine = createEngine(atOnce);
    await engine.open(notebook, first);
    expect(engine.criteria('A').map((answer) => answer.criterion)).toEqual(['kids', 'wrong']);
    expect(engine.criteria('B').map((answer) => answer.criterion)).toEqual([
      'sheep',
      'kids',
      'wrong',
    ]);
    expect(engine.criteria('A')[1]).toMatchObject({
      holds: null,
      fault: { fault: 'unknown-name' },
    });
  });
});

describe('figures of a notebook', () => {
  it('that name one another are written out, each in its own day and group', async () => {
    const { notebook } = edited(herd, figureLine(herd, 'twice', 'mean_epg * 2'));
    const again = edited(notebook, figureLine(notebook, 'fall', 'previous.mean_epg - mean_epg'));
    const engine = createEngine(atOnce);
    await engine.open(again.notebook, second);
    const asked = (key: string, group: string | null) => ({
      formula: toStored(again.notebook, key),
      day: second,
      group,
    });
    const answers = await engine.figures([
      asked('twice', null),
      asked('fall', null),
      asked('fall', 'lambs'),
    ]);
    expect(answers.map(({ value }) => value)).toEqual([1000, 150 - 500, 100 - 500]);
  });
});
