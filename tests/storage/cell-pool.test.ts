import { describe, expect, it } from 'vitest';
import type { Stamp } from '../../shared/cell.ts';
import type { Reading } from '../../shared/reading.ts';
import { CellPool } from '../../src/storage/cell-pool.ts';

const count = (value: number, text = String(value)): Reading => ({ kind: 'number', text, value });
const stamp = (ms: number): Stamp => [ms, 0, 'd'];

describe('CellPool.share(cell)', () => {
  it('gives one object for equal cells of one edit, and always an equal one', () => {
    const pool = new CellPool();
    const shared = [5, 5, 6, 5, 6].map((value) => pool.share([[count(value), stamp(1)]]));
    expect(shared[3]).toBe(shared[1]);
    expect(shared[4]).toBe(shared[2]);
    expect(shared.map((cell) => cell[0]?.[0])).toEqual([5, 5, 6, 5, 6].map((v) => count(v)));
  });

  it('never takes a cell for another: by value, unit, kind, further parts, stamp or clash', () => {
    const pool = new CellPool();
    const all = [
      [[count(1, '1'), stamp(1)]],
      [[count(1, '1'), stamp(1)]],
      [[{ kind: 'number', text: '1', value: 1, unit: 'kg' }, stamp(1)]],
      [[{ kind: 'number', text: '1', value: 1, unit: 'lb' }, stamp(1)]],
      [[{ kind: 'number', text: '1', value: 0.5 }, stamp(1)]],
      [[{ kind: 'text', text: '1' }, stamp(1)]],
      [[{ kind: 'text', text: '1', later: true } as Reading, stamp(1)]],
      [[count(1, '1'), stamp(2)]],
      [[count(1, '1'), [1, 0, 'e']]],
      [[null, stamp(1)]],
      [
        [count(1, '1'), stamp(1)],
        [count(2, '2'), stamp(1)],
      ],
    ] as const;
    for (let i = 0; i < 3; i += 1) for (const cell of all) expect(pool.share(cell)).toEqual(cell);
  });

  it('goes on sharing an import between cells typed since', () => {
    const pool = new CellPool();
    const imported = (): ReturnType<CellPool['share']> => pool.share([[count(5), stamp(1)]]);
    imported();
    const first = imported();
    for (let ms = 10; ms < 60; ms += 1) pool.share([[count(5), stamp(ms)]]);
    expect(imported()).toBe(first);
  });
});
