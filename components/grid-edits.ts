import type { Edit, SetTo } from '../shared/edit.ts';
import type { Column, Notebook } from '../shared/notebook.ts';
import type { Reading } from '../shared/reading.ts';
import { aboutOf, animalOf, columnByKey, columnOf, readingOf } from '../src/notebook/read.ts';
import { writeNumber } from '../src/text/decimal-text.ts';
import { parseReading, statusInCount, type Typing } from '../src/text/parse-reading.ts';
import { statusLabel } from '../src/text/typed-words.ts';
import { typedShown } from './cell-words.ts';
import type { GridColumn } from './grid-layout.ts';
import type { Block, Place, Sheet } from './grid-place.ts';
import { say } from '../src/text/say.ts';

/** How this notebook's person writes numbers and weights. */
export function typingOf(notebook: Notebook): Typing {
  const { decimalMark = '.', weightUnit = 'kg' } = aboutOf(notebook);
  return { decimalMark, weightUnit };
}

/** What one typed cell comes to: the edit, and the reading it holds (null: cleared). */
export interface TypedEdit {
  readonly edit: Edit;
  readonly reading: Reading | null;
}

export function typedEdit(
  notebook: Notebook,
  place: Place,
  column: Column,
  text: string,
): TypedEdit {
  const status = statusSet(notebook, place, column, text);
  if (status) {
    const label = say('status of {tag}', { tag: tagOf(notebook, place.row) });
    return { edit: { label, source: 'typed', sets: [status] }, reading: null };
  }
  const reading = readingTyped(notebook, place, column, text);
  const label = say('{column} of {tag}', {
    column: column.label ?? column.key,
    tag: tagOf(notebook, place.row),
  });
  return { edit: { label, source: 'typed', sets: [setAt(place, reading)] }, reading };
}

/** A status word typed in the place of a count says it of the cup; the count stays as it is. */
function statusSet(notebook: Notebook, place: Place, column: Column, text: string): SetTo | null {
  const status = column.kind === 'count' ? statusInCount(text) : null;
  const own = status === null ? undefined : columnByKey(notebook, 'status');
  if (status === null || !own) return null;
  return setAt({ ...place, column: own.id }, { kind: 'text', text: status });
}

/** The reading of a text; what stands there already where the text says no more than that. */
function readingTyped(
  notebook: Notebook,
  place: Place,
  column: Column,
  text: string,
): Reading | null {
  const reading = parseReading(column, text, typingOf(notebook));
  const stored = readingOf(notebook, place.day, place.row, place.column);
  const isSame =
    reading?.kind === 'number' &&
    stored?.kind === 'number' &&
    text.trim() === textToEdit(notebook, place);
  return isSame ? stored : reading;
}

/**
 * What the editor begins with and the clipboard takes: the text as typed, which typed again is read as
 * the same; so a number has today's decimal mark, and its unit where that is not today's.
 */
export function textToEdit(notebook: Notebook, place: Place): string {
  const reading = readingOf(notebook, place.day, place.row, place.column);
  if (!reading) return '';
  const column = columnOf(notebook, place.column);
  if (!column) return reading.text;
  return reading.kind === 'number'
    ? numberToEdit(column, reading, typingOf(notebook))
    : typedShown(column, reading);
}

function numberToEdit(
  column: Column,
  { text, value, unit }: Extract<Reading, { kind: 'number' }>,
  typing: Typing,
): string {
  const { decimalMark: mark } = typing;
  const isBare = unit !== undefined && !/[a-z]\s*$/i.test(text);
  const end = isBare && unit !== typing.weightUnit ? ` ${unit}` : '';
  const marked = `${text.replace(mark === ',' ? '.' : ',', mark)}${end}`;
  const written = `${writeNumber(value, mark)}${unit === undefined ? '' : ` ${unit}`}`;
  const isSame = (one: string): boolean => {
    const read = parseReading(column, one, typing);
    return read?.kind === 'number' && read.value === value && read.unit === unit;
  };
  return [marked, written].find(isSame) ?? marked;
}

function setAt(place: Place, reading: Reading | null): SetTo {
  return {
    path: ['readings', place.day, place.row, place.column],
    value: reading,
  };
}

function tagOf(notebook: Notebook, row: string): string {
  return animalOf(notebook, row)?.tag ?? row;
}

/** What an edit of a block is called: `pasting of 3 cells`, `pasting of K-019` for one. */
function called(
  what: 'clearing' | 'filling down' | 'pasting',
  places: readonly Place[],
  notebook: Notebook,
): string {
  const first = places[0];
  const n = places.length;
  const tag = n === 1 && first ? tagOf(notebook, first.row) : null;
  if (what === 'clearing')
    return tag === null ? say('clearing of {n} cells', { n }) : say('clearing of {tag}', { tag });
  if (what === 'filling down')
    return tag === null
      ? say('filling down of {n} cells', { n })
      : say('filling down of {tag}', { tag });
  return tag === null ? say('pasting of {n} cells', { n }) : say('pasting of {tag}', { tag });
}

/** The typable cells of a block, row by row. */
export function typablePlaces(sheet: Sheet, block: Block): readonly Place[] {
  const places: Place[] = [];
  for (let r = block.rows[0]; r <= block.rows[1]; r += 1) {
    const row = sheet.rows[r];
    for (let c = block.columns[0]; row && c <= block.columns[1]; c += 1) {
      const column = sheet.layout.columns[c];
      if (column?.isTypable)
        places.push({ row: row.id, day: column.day, column: column.column.id });
    }
  }
  return places;
}

/** Clears what is typed in a block; null when nothing is. */
export function clearEdit(notebook: Notebook, sheet: Sheet, block: Block): Edit | null {
  const places = typablePlaces(sheet, block).filter(
    (place) => readingOf(notebook, place.day, place.row, place.column) !== undefined,
  );
  if (places.length === 0) return null;
  const sets = places.map((place) => setAt(place, null));
  return { label: called('clearing', places, notebook), source: 'typed', sets };
}

/**
 * Fills the first row of a block into the rows below it; a single row takes what stands above it.
 * Values are filled as they were typed, blanks too. Null when there is nothing to fill.
 */
export function fillDownEdit(notebook: Notebook, sheet: Sheet, block: Block): Edit | null {
  const isOne = block.rows[0] === block.rows[1];
  const from = isOne ? block.rows[0] - 1 : block.rows[0];
  const source = sheet.rows[from];
  if (!source) return null;
  const below: Block = isOne ? block : { ...block, rows: [block.rows[0] + 1, block.rows[1]] };
  const places = typablePlaces(sheet, below);
  const sets = places.map((place) =>
    setAt(place, readingOf(notebook, place.day, source.id, place.column) ?? null),
  );
  if (sets.length === 0) return null;
  return { label: called('filling down', places, notebook), source: 'fill', sets };
}

/** A pasted block put in, and what could not be: its edit, its faults, cells that are worked out. */
export interface PasteEdit {
  readonly edit: Edit | null;
  readonly block: Block;
  readonly faults: readonly { readonly place: Place; readonly reason: string }[];
  /** Cells passed over because they are worked out. */
  readonly passedOver: number;
  /** Cells passed over because their day is not open. */
  readonly notOpen: number;
  /** Rows and columns of the paste that do not fit under and right of where it starts. */
  readonly rowsTooMany: number;
  readonly columnsTooMany: number;
}

/**
 * Puts a block of texts in, its first cell at the block's first. One text fills the whole block. What
 * cannot be read stays as pasted, as a fault. An edit of up to some thousand cells: one step of undo.
 */
export function pasteEdit(
  notebook: Notebook,
  sheet: Sheet,
  into: Block,
  texts: readonly (readonly string[])[],
): PasteEdit {
  const height = texts.length;
  const width = Math.max(0, ...texts.map((row) => row.length));
  const isOne = height === 1 && width === 1;
  const [rows, columns] = isOne
    ? [into.rows[1] - into.rows[0] + 1, into.columns[1] - into.columns[0] + 1]
    : [height, width];
  const lastRow = Math.min(sheet.rows.length, into.rows[0] + rows) - 1;
  const lastColumn = Math.min(sheet.layout.columns.length, into.columns[0] + columns) - 1;
  const block: Block = { rows: [into.rows[0], lastRow], columns: [into.columns[0], lastColumn] };
  const sets: SetTo[] = [];
  const places: Place[] = [];
  const faults: { place: Place; reason: string }[] = [];
  let passedOver = 0;
  let notOpen = 0;
  for (let r = block.rows[0]; r <= lastRow; r += 1) {
    const row = sheet.rows[r];
    const line = texts[isOne ? 0 : r - block.rows[0]];
    const text = (c: number): string | undefined => line?.[isOne ? 0 : c - block.columns[0]];
    const pastedOver = sheet.layout.columns.slice(block.columns[0], lastColumn + 1);
    const words = statusesIn(pastedOver, (at) => text(block.columns[0] + at) ?? '');
    let status = words.own;
    for (let c = block.columns[0]; row && line && c <= lastColumn; c += 1) {
      const column = sheet.layout.columns[c];
      const pasted = text(c);
      if (!column || pasted === undefined) continue;
      if (!column.isTypable) {
        if (pasted.trim() === '') continue;
        if (column.isOpen) passedOver += 1;
        else notOpen += 1;
        continue;
      }
      const place = { row: row.id, day: column.day, column: column.column.id };
      // Empty in its own column, the status is what the row says in the place of a count.
      const isOwn = column.column.key === 'status';
      if (isOwn && pasted.trim() === '' && words.inCounts !== null) continue;
      const said = statusSet(notebook, place, column.column, pasted);
      if (said && (status === null || status === statusInCount(pasted))) {
        // Said once of its cup, in whichever cells of the row it stands.
        if (status === null) {
          places.push(place);
          sets.push(said);
        }
        status = statusInCount(pasted);
        continue;
      }
      // A dash is how an empty count is shown and copied by others; it is no fault to paste one back.
      const isEmpty = column.column.kind !== 'text' && isEmptyMark(pasted);
      const reading =
        said && status !== null
          ? twoStatuses(pasted, status)
          : readingTyped(notebook, place, column.column, isEmpty ? '' : pasted);
      if (reading?.kind === 'fault') faults.push({ place, reason: reading.reason });
      places.push(place);
      sets.push(setAt(place, reading));
    }
  }
  return {
    edit:
      sets.length === 0
        ? null
        : { label: called('pasting', places, notebook), source: 'paste', sets },
    block,
    faults,
    passedOver,
    notOpen,
    rowsTooMany: isOne ? 0 : height - (lastRow - block.rows[0] + 1),
    columnsTooMany: isOne ? 0 : width - (lastColumn - block.columns[0] + 1),
  };
}

/** What a pasted row says of its cup, in the status's own column and in the place of counts; null where nothing. */
function statusesIn(
  columns: readonly GridColumn[],
  text: (at: number) => string,
): { readonly own: string | null; readonly inCounts: string | null } {
  let own: string | null = null;
  let inCounts: string | null = null;
  for (const [at, { column, isTypable }] of columns.entries()) {
    if (!isTypable) continue;
    if (column.key === 'status') own = (statusInCount(text(at)) ?? text(at).trim()) || null;
    else if (column.kind === 'count') inCounts ??= statusInCount(text(at));
  }
  return { own, inCounts };
}

function twoStatuses(text: string, status: string): Reading {
  const reason = say(
    '"{text}" stands in the place of a count, and the same cup is called "{status}". Keep one of them as its status.',
    { text, status: statusLabel(status) },
  );
  return { kind: 'fault', text: text.trim(), reason };
}

function isEmptyMark(text: string): boolean {
  return text.trim() === '–';
}
