import { isFault } from '../shared/value.ts';
import { readBlock, writeBlock } from '../src/csv/block.ts';
import { markOf, readingOf } from '../src/notebook/read.ts';
import { writeNumber } from '../src/text/decimal-text.ts';
import { pasteEdit, textToEdit, type PasteEdit } from './grid-edits.ts';
import type { GridModel } from './grid-model.ts';
import type { Block } from './grid-place.ts';
import { say } from '../src/text/say.ts';

/**
 * A block as tab-separated text: what was typed so that it reads back as the same, figures with all
 * their digits and without marks between thousands, so that another program reads the same numbers.
 */
export function blockText(model: GridModel, block: Block): string {
  const { rows, layout } = model.sheet;
  const lines: string[][] = [];
  for (let r = block.rows[0]; r <= block.rows[1]; r += 1) {
    const row = rows[r];
    if (!row) continue;
    const columns = layout.columns.slice(block.columns[0], block.columns[1] + 1);
    lines.push(columns.map((_, i) => plainText(model, row.id, block.columns[0] + i)));
  }
  return writeBlock(lines);
}

function plainText(model: GridModel, row: string, at: number): string {
  const column = model.sheet.layout.columns[at];
  if (!column) return '';
  const { notebook } = model.session;
  const { day, column: facts } = column;
  if (readingOf(notebook, day, row, facts.id))
    return textToEdit(notebook, { day, row, column: facts.id });
  if (facts.kind === 'outcome') return model.cell(model.source(row), column).text;
  if (facts.kind !== 'formula') return '';
  const value = model.value(row, column);
  if (typeof value === 'number') return writeNumber(value, markOf(notebook));
  if (value === null || isFault(value)) return '';
  return typeof value === 'boolean' ? (value ? 'yes' : 'no') : value;
}

/** What a text from the clipboard would do, put in with its first cell at the block's first. */
export function pasteOf(model: GridModel, into: Block, text: string): PasteEdit {
  const { rows } = readBlock(text);
  const texts = rows.map((row) => row.cells);
  return pasteEdit(model.session.notebook, model.sheet, into, texts);
}

/** Whether a paste reaches over the edge, so that a person has to say what is meant. */
export function isTooLarge(paste: PasteEdit): boolean {
  return paste.rowsTooMany > 0 || paste.columnsTooMany > 0;
}

export function tooLargeSentence(paste: PasteEdit): string {
  const { rowsTooMany: rows, columnsTooMany: columns } = paste;
  if (columns <= 0)
    return say(
      'What you copied has {rows, plural, one {# more row} other {# more rows}} than are left below. Nothing has been put in yet.',
      { rows },
    );
  if (rows <= 0)
    return say(
      'What you copied has {columns, plural, one {# more column} other {# more columns}} than are left to the right. Nothing has been put in yet.',
      { columns },
    );
  return say(
    'What you copied has {rows, plural, one {# more row} other {# more rows}} than are left below and {columns, plural, one {# more column} other {# more columns}} than are left to the right. Nothing has been put in yet.',
    { rows, columns },
  );
}

export function pasteSentence(paste: PasteEdit): string {
  const count = paste.edit?.sets.length ?? 0;
  const parts = [
    say('Pasted {n, plural, one {# cell} other {# cells}}, one step to undo.', { n: count }),
  ];
  const fault = paste.faults[0];
  if (fault)
    parts.push(
      paste.faults.length === 1
        ? fault.reason
        : say('{n} of them cannot be read and are marked. The first: {reason}', {
            n: paste.faults.length,
            reason: fault.reason,
          }),
    );
  if (paste.passedOver > 0)
    parts.push(
      say('{n} stood over columns that are worked out and were left out.', {
        n: paste.passedOver,
      }),
    );
  if (paste.notOpen > 0)
    parts.push(
      say('{n} stood over a day that is not open and were left out.', { n: paste.notOpen }),
    );
  return parts.join(' ');
}
