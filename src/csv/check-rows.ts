import { isFault } from '../../shared/value.ts';
import { type DateOrder, readDate } from '../text/date-reading.ts';
import { canonicalTag, likeKey, likeTag } from '../text/tag.ts';
import type { Row, TableFault } from './table.ts';
import { say } from '../text/say.ts';

function at(row: Row, column: number): Pick<TableFault, 'line' | 'lastLine' | 'column'> {
  return { line: row.line, lastLine: row.lastLine, column };
}

/**
 * The tags of a column: a destroyed one refuses its row (its cell only, where another column also
 * names the animal); tags alike but not the same are named once for each pair, and kept apart.
 */
export function checkTags(
  rows: readonly Row[],
  column: number,
  refused: 'row' | 'cell',
): TableFault[] {
  const faults: TableFault[] = [];
  const sound = new Set<string>();
  const seen = new Map<string, Map<string, { typed: string; line: number }>>();
  for (const row of rows) {
    const typed = row.cells[column] ?? '';
    if (sound.has(typed) || typed.trim() === '') continue;
    const tag = canonicalTag(typed);
    if (isFault(tag)) {
      const sentence = say('Line {line}: {sentence}', { line: row.line, sentence: tag.sentence });
      faults.push({ fault: tag.fault, sentence, ...at(row, column), refused });
      continue;
    }
    if (tag.doubt) {
      const sentence = say('Line {line}: {sentence}', {
        line: row.line,
        sentence: tag.doubt.sentence,
      });
      faults.push({ fault: tag.doubt.fault, sentence, ...at(row, column), refused: 'nothing' });
    }
    sound.add(typed);
    const like = likeKey(typed);
    const fellows = seen.get(like) ?? new Map<string, { typed: string; line: number }>();
    if (!fellows.has(tag.key)) {
      const [first] = fellows.values();
      const warning = first ? likeTag(first.typed, typed) : null;
      if (first && warning) {
        const sentence = say('Lines {first} and {second}: {sentence}', {
          first: first.line,
          second: row.line,
          sentence: warning.sentence,
        });
        faults.push({ fault: warning.fault, sentence, ...at(row, column), refused: 'nothing' });
      }
      fellows.set(tag.key, { typed, line: row.line });
      seen.set(like, fellows);
    }
  }
  return faults;
}

/** Rows that name no animal and no cup in any of the columns that could. */
export function checkNamed(rows: readonly Row[], columns: readonly number[]): TableFault[] {
  return rows
    .filter((row) => columns.every((column) => (row.cells[column] ?? '').trim() === ''))
    .map((row) => ({
      fault: 'no-tag',
      sentence: say('Line {line} names no animal. Type its tag, or leave the line out.', {
        line: row.line,
      }),
      line: row.line,
      lastLine: row.lastLine,
      refused: 'row',
      text: row.cells.join(' · '),
    }));
}

/** Cells of a date column that are no date in the order that holds. */
export function checkDates(
  rows: readonly Row[],
  column: number,
  order: DateOrder | 'any',
  refused: 'row' | 'cell',
): TableFault[] {
  const sound = new Set<string>();
  return rows.flatMap((row): TableFault[] => {
    const text = row.cells[column] ?? '';
    if (sound.has(text) || text.trim() === '') return [];
    const read = readDate(text, order);
    if (!isFault(read)) {
      sound.add(text);
      return [];
    }
    const sentence = say('Line {line}: {sentence}', { line: row.line, sentence: read.sentence });
    return [{ fault: read.fault, sentence, ...at(row, column), refused }];
  });
}
