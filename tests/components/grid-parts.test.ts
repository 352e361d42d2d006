import { describe, expect, it } from 'vitest';
import { boundEpg } from '../../components/bound-epg.ts';
import { choicesOf } from '../../components/grid-choices.ts';
import { dayWords } from '../../src/text/day-words.ts';
import { figureText } from '../../components/figure-text.ts';
import { heatOf } from '../../components/grid-cell-text.ts';
import { commandOf, type Key } from '../../components/grid-keys.ts';
import { keptOrder, naturalText, type GridRow } from '../../components/grid-rows.ts';
import { offsetToShow, rowsBeyond, rowsDrawn } from '../../components/grid-window.ts';
import type { Column } from '../../shared/notebook.ts';
import { parseReading } from '../../src/text/parse-reading.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';

function key(name: string, held: Partial<Key> = {}): Key {
  return { key: name, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...held };
}

function row(id: string): GridRow {
  return { id, tag: id, name: '', group: '', class: '', isPresent: true };
}

const day = '2026-05-03';

/** One cup counted in two chambers: 2 g in 28 mL, 0.15 mL a grid (common practice, no source). */
function cup(chamber1: string, chamber2: string) {
  const columns = ['chamber1', 'chamber2'].map(
    (k) => ({ id: k, key: k, kind: 'count', order: k }) as const,
  );
  const typed = { chamber1, chamber2 };
  const sets = [
    ...setsOf('days', day, { date: day, grams: 2, fluidMl: 28, fluidIs: 'added', areaMl: 0.15 }),
    ...columns.flatMap(({ id, ...facts }) => setsOf('columns', id, facts)),
    ...columns.map((column) => ({
      path: ['readings', day, 'a', column.id] as const,
      value: parseReading(column, typed[column.key as keyof typeof typed], {
        decimalMark: '.',
        weightUnit: 'kg',
      }),
    })),
  ];
  const made = applyEdit(emptyNotebook('n'), { label: '', source: 'typed', sets }, [1, 0, 'd']);
  return boundEpg(made.notebook, day, 'a', () => null);
}

describe('boundEpg(notebook, day, row, value)', () => {
  // Worked by hand: factor (28 + 2) / (2 × 0.15 × areas), 50 for two areas and 100 for one.
  it('takes >40 as at least 41 eggs over the areas that were looked at', () => {
    expect(cup('>40', '0')).toEqual({ is: 'at least', epg: 41 * 50 });
    expect(cup('>40', '')).toEqual({ is: 'at least', epg: 41 * 100 });
    expect(cup('>40', '30')).toEqual({ is: 'at least', epg: 71 * 50 });
  });

  it('takes <5 as at most 4 eggs, and settles nothing where both kinds meet', () => {
    expect(cup('<5', '1')).toEqual({ is: 'at most', epg: 5 * 50 });
    expect(cup('<5', '>40')).toEqual({ is: 'not settled', epg: null });
  });

  it('gives no number to too many alone, and says nothing of plain counts', () => {
    expect(cup('TNTC', '')).toEqual({ is: 'too many', epg: null });
    expect(cup('3', '4')).toBeNull();
    expect(cup('12?', '')).toBeNull();
  });
});

describe('figureText(value, decimals, mark)', () => {
  it('marks thousands, keeps a true minus, and never shows minus nought', () => {
    expect(figureText(59350, 0, '.')).toBe('59,350');
    expect(figureText(1234567.5, 1, ',')).toBe('1\u202f234\u202f567,5');
    expect(figureText(-100, 0, '.')).toBe('−100');
    expect(figureText(-0.2, 0, '.')).toBe('0');
    expect(figureText(66.6666, undefined, '.')).toBe('66.67');
    expect(figureText(50, undefined, '.')).toBe('50');
  });
});

describe('dayWords(day, form, knownYear)', () => {
  it('says the date from its text alone, with the year where it is another one', () => {
    expect(dayWords({ date: '2026-06-14' }, 'long', '2026')).toBe('14 June');
    expect(dayWords({ date: '2025-05-03', label: 'evening' }, 'short', '2026')).toBe(
      '3 May 2025 evening',
    );
  });
});

describe('heatOf(epg)', () => {
  it('is none at 0, never falls, and is full at 5,000 and over', () => {
    const heats = [0, 50, 500, 1000, 5000, 60000].map(heatOf);
    expect(heats[0]).toBe(0);
    expect([...heats].sort((a, b) => a - b)).toEqual(heats);
    expect(heats.at(-2)).toBeCloseTo(1, 12);
    expect(heats.at(-1)).toBe(1);
  });
});

describe('commandOf(key, editing)', () => {
  it('lets no key scroll the grid away from a cell being edited', () => {
    for (const way of ['PageUp', 'PageDown'])
      expect(commandOf(key(way), 'opened')).toEqual({ do: 'nothing' });
    for (const editing of ['typed', 'opened'] as const)
      expect(commandOf(key('ArrowDown', { altKey: true }), editing)).toEqual({ do: 'nothing' });
  });

  it('moves with arrows unless the text was opened, where they are the text’s', () => {
    expect(commandOf(key('ArrowLeft'), 'no')).toEqual({ do: 'move', way: 'left', extend: false });
    expect(commandOf(key('ArrowLeft'), 'typed')).toEqual({ do: 'commit', then: 'left' });
    expect(commandOf(key('ArrowLeft'), 'opened')).toBeNull();
    expect(commandOf(key('PageDown'), 'typed')).toEqual({ do: 'commit', then: 'page down' });
  });

  it('leaves Tab to the browser while nothing is typed', () => {
    expect(commandOf(key('Tab'), 'no')).toBeNull();
    expect(commandOf(key('Tab'), 'opened')).toEqual({ do: 'commit', then: 'next' });
    expect(commandOf(key('Tab', { shiftKey: true }), 'typed')).toEqual({
      do: 'commit',
      then: 'previous',
    });
  });

  it('leaves copying, and undo within the text, to the browser', () => {
    expect(commandOf(key('c', { ctrlKey: true }), 'no')).toBeNull();
    expect(commandOf(key('z', { ctrlKey: true }), 'opened')).toBeNull();
    expect(commandOf(key('z', { ctrlKey: true }), 'no')).toEqual({ do: 'undo' });
    expect(commandOf(key('Z', { ctrlKey: true, shiftKey: true }), 'no')).toEqual({ do: 'redo' });
  });
});

describe('choicesOf(column)', () => {
  it('offers the points of a score in its own steps, and a blank', () => {
    const column: Column = { id: 'c', key: 'c', kind: 'score', low: 1, high: 3, step: 0.5 };
    expect(choicesOf(column, ',').map(({ text }) => text)).toEqual([
      ...['1', '1,5', '2', '2,5', '3'],
      '',
    ]);
  });
});

describe('choicesOf(column) of a part of a grid', () => {
  const column: Column = { id: 'p', key: 'part1', kind: 'part' };

  it('offers the lanes of the day in words, and is only typed into where they are not known', () => {
    expect(choicesOf(column, '.', ['1/3', '2/3'])).toEqual([
      { text: '1/3', words: '1 of 3 lanes' },
      { text: '2/3', words: '2 of 3 lanes' },
      { text: '', words: 'the whole grid' },
    ]);
    expect(choicesOf(column)).toEqual([]);
  });
});

describe('naturalText(a, b)', () => {
  it('orders tags by their numbers, and is no number for what only looks like one', () => {
    const tags = ['K-10', 'K-9', '0123', '123', 'K-9a'];
    expect([...tags].sort(naturalText)).toEqual(['0123', '123', 'K-9', 'K-9a', 'K-10']);
  });
});

describe('keptOrder(shown, fresh, all)', () => {
  it('keeps rows where they were shown, drops those gone, and puts new ones behind their neighbour', () => {
    const shown = ['c', 'a', 'b'].map(row);
    const fresh = ['a', 'd', 'c'].map(row);
    const all = ['a', 'c', 'd'].map(row);
    expect(keptOrder(shown, fresh, all).map(({ id }) => id)).toEqual(['c', 'a', 'd']);
  });
});

describe('rowsDrawn(sight, rowHeight, count) and offsetToShow', () => {
  it('draws the rows in sight and some around them, never beyond the ends', () => {
    const sight = { top: 4000, left: 0, height: 600, width: 800 };
    expect(rowsDrawn(sight, 40, 500, rowsBeyond.typed)).toEqual([100, 115]);
    expect(rowsDrawn({ ...sight, top: 4020 }, 40, 500, rowsBeyond.typed)).toEqual([100, 116]);
    expect(rowsDrawn(sight, 40, 500, rowsBeyond.scrolled)).toEqual([94, 121]);
    expect(rowsDrawn({ ...sight, top: 20 }, 40, 500, 1)).toEqual([0, 17]);
    expect(rowsDrawn({ ...sight, height: -90 }, 40, 500, 0)).toEqual([100, 100]);
    expect(rowsDrawn(sight, 40, 3, rowsBeyond.scrolled)).toEqual([3, 3]);
  });

  it('moves least to show a row', () => {
    expect(offsetToShow(0, 600, 40, 40)).toBe(0);
    expect(offsetToShow(0, 600, 600, 40)).toBe(40);
    expect(offsetToShow(400, 600, 120, 40)).toBe(120);
  });
});
