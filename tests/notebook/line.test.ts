import { describe, expect, it } from 'vitest';
import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { addAnimals } from '../../src/notebook/edit-animals.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { lineOf, putBehind } from '../../src/notebook/line.ts';

const day = '2026-05-03';

function five(): Notebook {
  let n = 0;
  const tags = ['A', 'B', 'C', 'D', 'E'].map((tag) => ({ tag }));
  const edit = addAnimals(emptyNotebook('n'), tags, () => `id-${tags[n++]?.tag ?? ''}`, day);
  if (isFault(edit)) throw new Error(edit.sentence);
  return applyEdit(emptyNotebook('n'), edit, [1, 0, 'bench']).notebook;
}

let ms = 1;
function moved(notebook: Notebook, kind: 'bench' | 'yard', row: string, behind: string | null) {
  ms += 1;
  const edit = putBehind(notebook, day, kind, row, behind);
  return applyEdit(notebook, edit, [ms, 0, 'bench']).notebook;
}

const tags = (notebook: Notebook, kind: 'bench' | 'yard') =>
  lineOf(notebook, day, kind)
    .map((animal) => animal.tag)
    .join('');

describe('lineOf(notebook, day, kind)', () => {
  it('is the notebook’s own order until someone moves an animal', () => {
    expect(tags(five(), 'bench')).toBe('ABCDE');
  });

  it('keeps bench and yard apart, and other days as they were', () => {
    const notebook = moved(five(), 'yard', 'id-E', 'id-A');
    expect(tags(notebook, 'yard')).toBe('AEBCD');
    expect(tags(notebook, 'bench')).toBe('ABCDE');
    expect(lineOf(notebook, '2026-06-01', 'yard').map((a) => a.tag)).toEqual([...'ABCDE']);
  });

  it('takes animals as they come through the race, one behind the other', () => {
    let notebook = moved(five(), 'yard', 'id-D', null);
    notebook = moved(notebook, 'yard', 'id-B', 'id-D');
    notebook = moved(notebook, 'yard', 'id-E', 'id-B');
    notebook = moved(notebook, 'yard', 'id-A', 'id-C');
    expect(tags(notebook, 'yard')).toBe('DBECA');
  });
});
