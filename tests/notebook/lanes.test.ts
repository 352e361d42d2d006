import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import { laneParts, partAsked, partColumnOf } from '../../src/notebook/lanes.ts';
import { columnByKey } from '../../src/notebook/read.ts';
import { summerNotebook } from '../build-notebook.ts';
import { withSets } from '../treating/herd.ts';

const DAY = '2026-06-14';

function herd(lanes?: number): Notebook {
  const one = summerNotebook({ animals: { A: {} }, days: { [DAY]: {} } });
  return lanes === undefined
    ? one
    : withSets(one, [{ path: ['days', DAY, 'lanes'], value: lanes }]);
}

function holding(key: string, reading: Reading): Notebook {
  const id = columnByKey(herd(), key)?.id ?? '';
  return withSets(herd(), [{ path: ['readings', DAY, 'A', id], value: reading }]);
}

function asked(notebook: Notebook, key: string): string | undefined {
  const count = columnByKey(notebook, key);
  return count && partAsked(notebook, DAY, 'A', count)?.key;
}

describe('laneParts(notebook, day)', () => {
  it('gives the parts of a grid of six lanes as they are typed', () => {
    expect(laneParts(herd(6), DAY)).toEqual(['1/6', '2/6', '3/6', '4/6', '5/6']);
  });

  it.each([[1], [0], [2.5], [40]])('has none to choose from with %s lanes', (lanes) => {
    expect(laneParts(herd(lanes), DAY)).toEqual([]);
  });
});

describe('partAsked(notebook, day, row, count)', () => {
  it('asks for the part of a grid that held too many eggs, or more than a number, and of that one alone', () => {
    const many = holding('chamber2', { kind: 'too-many', text: 'too many' });
    expect([asked(many, 'chamber1'), asked(many, 'chamber2')]).toEqual([undefined, 'part2']);
    expect(asked(holding('chamber1', { kind: 'over', text: '>300', value: 300 }), 'chamber1')).toBe(
      'part1',
    );
    expect(asked(holding('chamber1', { kind: 'number', text: '7', value: 7 }), 'chamber1')).toBe(
      undefined,
    );
  });

  it('stays where a part is typed, and wherever its column shows', () => {
    const part: Reading = { kind: 'number', text: '2/6', value: 1 / 3 };
    expect(asked(holding('part1', part), 'chamber1')).toBe('part1');
    const id = columnByKey(herd(), 'part1')?.id ?? '';
    const shown = withSets(herd(), [{ path: ['columns', id, 'hidden'], value: false }]);
    expect(asked(shown, 'chamber1')).toBe('part1');
  });
});

describe('partColumnOf(notebook, count)', () => {
  it('pairs a chamber with its part by number, and other counts with none', () => {
    expect(partColumnOf(herd(), { key: 'chamber2' })?.key).toBe('part2');
    expect(partColumnOf(herd(), { key: 'nematodirus' })).toBe(undefined);
  });
});
