import type { Path } from '../shared/edit.ts';
import type { RowId } from '../shared/ref.ts';
import { animalOf, columnOf } from '../src/notebook/read.ts';
import type { CellText } from './grid-cell-text.ts';
import type { GridColumn } from './grid-layout.ts';
import type { GridModel } from './grid-model.ts';
import type { Block, Place } from './grid-place.ts';
import { cellsIn } from './grid-selection.ts';
import { say } from '../src/text/say.ts';

/** Words of the grid itself; drawn with every count, so they are looked up once. */
export const gridWords = { counts: say('Counts'), days: say('Sampling days') } as const;

/** What the grid is called aloud: the counts of a day. */
export function gridName(what: string, day: string): string {
  return say('{what} of {day}', { what, day });
}

/** `12 animals shown.` */
export function shownSentence(n: number): string {
  return say('{n, plural, one {# animal} other {# animals}} shown.', { n });
}

/** `19 counted of 38 present`, below the grid. */
export function countedOf({ counted: { counted, present } }: GridModel): string {
  return say('{counted} counted of {present} present', { counted, present });
}

/** Why a cell does not take typing, and what to do. */
export function whyNotTyped(model: GridModel, { column, day, isOpen }: GridColumn): string {
  const name = column.label ?? column.key;
  if (!isOpen) {
    const at = model.sheet.layout.days.find(({ id }) => id === day)?.name ?? day;
    return say('{day} is not open. Open it by its heading to type in it.', { day: at });
  }
  if (column.kind === 'outcome')
    return say(
      'The outcome follows from your criteria. Change what it rests on, or the criteria in Settings.',
    );
  return say(
    '{name} is worked out from the other columns. Type there, or change its formula above.',
    { name },
  );
}

/** What was typed for a cell that went away before it was kept. */
export function letGoSentence(model: GridModel, { row, column: id }: Place, text: string): string {
  const { notebook } = model.session;
  const column = columnOf(notebook, id);
  return say('"{text}" was typed for {tag}, {column}, and could not be kept there.', {
    text,
    tag: animalOf(notebook, row)?.tag ?? row,
    column: column?.label ?? column?.key ?? id,
  });
}

/** What whole rows, whole columns or all come to once they are selected. */
export function chosenSentence(block: Block): string {
  return say('{n, plural, one {# cell} other {# cells}} chosen.', { n: cellsIn(block) });
}

/** How the rows stand once they are sorted by a column. */
export function sortedSentence(label: string, isDescending: boolean): string {
  return isDescending
    ? say('Sorted by {label}, highest first.', { label })
    : say('Sorted by {label}, lowest first.', { label });
}

export function undoSentence(
  which: 'undo' | 'redo',
  done: { readonly label: string; readonly passedOver: readonly Path[] } | null,
): string {
  if (!done) return which === 'undo' ? say('Nothing to undo.') : say('Nothing to redo.');
  const kept = done.passedOver.length;
  const { label: what } = done;
  const said =
    which === 'undo' ? say('Undone: {what}.', { what }) : say('Done again: {what}.', { what });
  if (kept === 0) return said;
  const left = say(
    '{n, plural, one {# place was} other {# places were}} written since and left alone.',
    { n: kept },
  );
  return `${said} ${left}`;
}

/** How the focused cell is called aloud: animal, column, the day where it is another one, content. */
export function cellName(model: GridModel, row: RowId, column: GridColumn, cell: CellText): string {
  const tag = animalOf(model.session.notebook, row)?.tag ?? row;
  const name = column.column.label ?? column.column.key;
  const day = column.isOpen
    ? []
    : [model.sheet.layout.days.find(({ id }) => id === column.day)?.name ?? column.day];
  const content = cell.spoken ?? (cell.text === '' ? say('empty') : cell.text);
  const note = cell.note === undefined || cell.note === cell.spoken ? [] : [cell.note];
  return [tag, name, ...day, content, ...note].join(', ');
}

/** What to do where there is no row to count in. */
export function nothingToCount({ openDay }: GridModel): string {
  return openDay === null
    ? say('No sampling day yet. Add one to begin counting.')
    : say('No animals yet. Add them under Animals, or import a list with their tags.');
}
