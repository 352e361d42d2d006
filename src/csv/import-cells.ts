import type { Notebook } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ColumnId, DayId } from '../../shared/ref.ts';
import { aboutOf, columnByKey, markOf } from '../notebook/read.ts';
import { statusInCount } from '../text/parse-reading.ts';
import { eggsFromEpg, type Marks, readCell } from './import-reading.ts';
import { factorOf } from '../notebook/day-factor.ts';
import { factorColumn, factorText, type Target } from './import-targets.ts';
import type { OwnFile } from './own-file.ts';
import type { Row } from './table.ts';

/** A target that takes readings. */
export type Into = Target & { readonly to: 'readings' };

/** Turns cells of a list into readings of the notebook. */
export class ImportCells {
  private readonly marks: Marks;
  private readonly ownMarks: Marks;

  constructor(
    private readonly notebook: Notebook,
    private readonly own: OwnFile | null,
    listMark: '.' | ',',
  ) {
    const mark = markOf(notebook);
    this.marks = { list: listMark, notebook: mark };
    this.ownMarks = { list: mark, notebook: mark };
  }

  /** The readings of one cell: mostly one; a count of all areas brings its factor with it. */
  read(
    target: Into,
    row: Row,
    column: number,
    day: DayId,
  ): readonly (readonly [ColumnId, Reading])[] {
    const text = row.cells[column] ?? '';
    if (target.as !== 'typed') {
      const status = statusInCount(text);
      const into = columnByKey(this.notebook, 'status');
      const value = status !== null && into ? readCell(into, status, this.ownMarks, 'kg') : null;
      if (value && into) return [[into.id, value]];
    }
    const value = this.valueOf(target, text, row, column);
    if (value === null) return [];
    const factor = this.factorFor(target, value, day);
    const into = factor === null ? undefined : factorColumn(this.notebook);
    const typed =
      factor !== null && into
        ? readCell(into, factorText(factor, this.ownMarks.notebook), this.ownMarks, 'kg')
        : null;
    return into && typed
      ? [
          [target.column.id, value],
          [into.id, typed],
        ]
      : [[target.column.id, value]];
  }

  private valueOf(target: Into, text: string, row: Row, column: number): Reading | null {
    if (target.as === 'back') return eggsFromEpg(text, target.factor ?? 1, this.marks.list);
    const unit = this.own?.units.get(column);
    const usual = aboutOf(this.notebook).weightUnit ?? 'kg';
    const said = unit === undefined ? target.unit : row.cells[unit] === 'lb' ? 'lb' : 'kg';
    const unread = this.own === null ? '' : (row.cells[this.own.unread] ?? '');
    const isUnread = unread !== '' && unread.split(' ').includes(target.column.key);
    return readCell(target.column, text, isUnread ? this.ownMarks : this.marks, said ?? usual);
  }

  /** The notebook would take a count of all areas together for one of the first area alone. */
  private factorFor(target: Into, value: Reading, day: DayId): number | null {
    if (target.as === 'back') return value.kind === 'number' ? (target.factor ?? null) : null;
    if (target.as !== 'count' || target.allAreas !== true) return null;
    return value.kind === 'fault' || value.kind === 'too-many'
      ? null
      : factorOf(this.notebook, day);
  }
}
