import { describe, expect, it } from 'vitest';
import type { Stamp } from '../../shared/cell.ts';
import type { Edit, SetTo } from '../../shared/edit.ts';
import type { Notebook } from '../../shared/notebook.ts';
import { applyEdit, cellAt } from '../../src/notebook/apply-edit.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { undoing } from '../../src/notebook/undo.ts';
import { writeCells } from '../../src/notebook/apply-edit.ts';
import { deepFreeze } from '../freeze.ts';

const at = (ms: number): Stamp => [ms, 0, 'bench'];
const edit = (...sets: SetTo[]): Edit => ({ label: 'a test', source: 'typed', sets });
const count = (value: number): SetTo => ({
  path: ['readings', '2026-05-03', 'a1', 'c1'],
  value: { kind: 'number', text: String(value), value },
});

function typed(...counts: number[]): Notebook {
  return counts.reduce(
    (notebook, value, i) => applyEdit(notebook, edit(count(value)), at(i + 1)).notebook,
    deepFreeze(emptyNotebook('n')),
  );
}

describe('applyEdit(notebook, edit, stamp)', () => {
  it('leaves the notebook it was given as it was', () => {
    const before = deepFreeze(typed(3));
    const { notebook } = applyEdit(before, edit(count(4)), at(9));
    expect(cellAt(before, count(3).path)).toEqual([[count(3).value, at(1)]]);
    expect(cellAt(notebook, count(3).path)).toEqual([[count(4).value, at(9)]]);
  });

  it('gives the very same notebook for a value that is there already', () => {
    const before = typed(3);
    const same = applyEdit(before, edit(count(3)), at(9));
    expect(same.notebook).toBe(before);
    expect(same.changes).toEqual([]);
  });

  it('gives the very same notebook for clearing what was never typed', () => {
    const before = typed(3);
    const clear = edit({ path: ['readings', '2026-05-03', 'a2', 'c1'], value: null });
    expect(applyEdit(before, clear, at(9)).notebook).toBe(before);
  });

  it('shares every branch it does not touch', () => {
    const before = applyEdit(
      typed(3),
      edit({ path: ['animals', 'a1', 'tag'], value: '0012' }),
      at(2),
    ).notebook;
    const { notebook } = applyEdit(before, edit(count(4)), at(9));
    expect(notebook.animals).toBe(before.animals);
    expect(notebook.readings).not.toBe(before.readings);
  });

  it('takes the last of several sets of one place as one change', () => {
    const { changes } = applyEdit(emptyNotebook('n'), edit(count(1), count(2)), at(1));
    expect(changes).toHaveLength(1);
    expect(changes[0]?.to).toEqual([[count(2).value, at(1)]]);
  });

  it('remembers the greatest stamp of each device, and never a lesser one', () => {
    const { notebook } = applyEdit(typed(3), edit(count(4)), [7, 2, 'bench']);
    expect(notebook.seen).toEqual({ bench: [7, 2] });
    expect(writeCells(notebook, [], [at(1)]).seen).toEqual({ bench: [7, 2] });
  });

  it('supersedes both values of a clash', () => {
    const clash = [
      [count(5).value, [5, 0, 'yard']],
      [count(4).value, [4, 0, 'bench']],
    ] as const;
    const path = count(0).path;
    const both = writeCells(emptyNotebook('n'), [{ path, from: undefined, to: clash }], []);
    const { notebook } = applyEdit(both, edit(count(5)), at(9));
    expect(cellAt(notebook, path)).toEqual([[count(5).value, at(9)]]);
  });

  it('holds a row called __proto__ like any other', () => {
    const path = ['readings', '2026-05-03', '__proto__', 'c1'] as const;
    const { notebook } = applyEdit(emptyNotebook('n'), edit({ path, value: 1 }), at(1));
    expect(cellAt(notebook, path)).toEqual([[1, at(1)]]);
    expect(cellAt(notebook, ['readings', '2026-05-03', 'toString', 'c1'])).toBeUndefined();
  });

  it('writes rows inside the day where its holder gives the former notebook up', () => {
    const before = typed(3);
    const day = before.readings['2026-05-03'];
    const { notebook } = applyEdit(before, edit(count(4)), at(9), 'days in place');
    expect(notebook.readings['2026-05-03']).toBe(day);
    expect(cellAt(notebook, count(4).path)).toEqual([[count(4).value, at(9)]]);
  });
});

describe('undoing(notebook, transaction, stamp)', () => {
  it('brings the former value back under a new stamp', () => {
    const { notebook, changes } = applyEdit(typed(3), edit(count(4)), at(5));
    const step = { label: '', source: 'typed' as const, stamp: at(5), changes };
    const undone = undoing(notebook, step, at(6));
    expect(undone.passedOver).toEqual([]);
    const back = writeCells(notebook, undone.changes, [at(6)]);
    expect(cellAt(back, count(0).path)).toEqual([[count(3).value, at(6)]]);
  });

  it('leaves alone, and names, what was written since', () => {
    const first = applyEdit(typed(3), edit(count(4)), at(5));
    const later = applyEdit(first.notebook, edit(count(9)), at(7)).notebook;
    const step = { label: '', source: 'typed' as const, stamp: at(5), changes: first.changes };
    const undone = undoing(later, step, at(8));
    expect(undone.changes).toEqual([]);
    expect(undone.passedOver).toEqual([count(0).path]);
  });

  it('clears what was never there before', () => {
    const first = applyEdit(emptyNotebook('n'), edit(count(4)), at(5));
    const step = { label: '', source: 'typed' as const, stamp: at(5), changes: first.changes };
    const { changes } = undoing(first.notebook, step, at(6));
    expect(changes[0]?.to).toEqual([[null, at(6)]]);
  });
});
