import type { Decoded } from './decode.ts';
import type { SplitRow } from './repair-rows.ts';
import type { Row, Separator, TableFault } from './table.ts';
import { say } from '../text/say.ts';

/** A file that is no list of text at all: a workbook, a page, a picture. `null` for any other. */
export function fileFault(bytes: Uint8Array): TableFault | null {
  const kind = kinds.find(({ first }) => first.every((byte, at) => bytes[at] === byte));
  if (!kind) return null;
  return { fault: 'not-a-list', sentence: kind.sentence, line: 1, lastLine: 1, refused: 'file' };
}

const askForCsv = {
  pdf: say('This is a PDF, not a list of text. Ask for the list as CSV.'),
  picture: say('This is a picture, not a list of text. Ask for the list as CSV.'),
};
const kinds = [
  {
    first: [0x50, 0x4b, 3, 4],
    sentence: say(
      'This is a spreadsheet workbook or a packed file, not a list of text. Open it in its own program and save the list as CSV, then choose that file.',
    ),
  },
  {
    first: [0xd0, 0xcf, 0x11, 0xe0],
    sentence: say(
      'This is an old spreadsheet workbook, not a list of text. Open it in its own program and save the list as CSV, then choose that file.',
    ),
  },
  {
    first: [0x1f, 0x8b],
    sentence: say('This is a packed file, not a list of text. Unpack it first.'),
  },
  { first: [0x25, 0x50, 0x44, 0x46], sentence: askForCsv.pdf },
  { first: [0x89, 0x50, 0x4e, 0x47], sentence: askForCsv.picture },
  { first: [0xff, 0xd8, 0xff], sentence: askForCsv.picture },
];

export function mixedEncoding(decoded: Decoded): TableFault[] {
  return decoded.oddLines.map((line) => ({
    fault: 'mixed-encoding',
    sentence: say(
      'Line {line} is written in another encoding (Windows-1252) than the rest (UTF-8). Check its letters with accents.',
      { line },
    ),
    line,
    lastLine: line,
    refused: 'nothing',
  }));
}

export function strayQuotes(row: SplitRow): TableFault[] {
  return row.stray.map(({ column, line }) => ({
    fault: 'stray-quote',
    sentence: say(
      'Line {line} has a quote mark without its fellow. The cell is kept as written: {cell}. Check it and the cells beside it.',
      { line, cell: shortened(row.cells[column] ?? '') },
    ),
    line,
    lastLine: row.lastLine,
    column,
    refused: 'nothing',
  }));
}

export function damagedLetters(row: Row): TableFault[] {
  return row.cells.flatMap((cell, column): TableFault[] =>
    cell.includes('\ufffd')
      ? [
          {
            fault: 'damaged-letters',
            sentence: say(
              'Line {line}: letters in "{cell}" were lost before this file was saved. Type them again, or save the list anew as UTF-8.',
              { line: row.line, cell: shortened(cell) },
            ),
            line: row.line,
            lastLine: row.lastLine,
            column,
            refused: 'nothing',
          },
        ]
      : [],
  );
}

export function extraFields(row: Row, width: number, separator: Separator): TableFault {
  const text = asWritten(row.cells, separator);
  const fields = row.cells.findLastIndex((cell) => cell.trim() !== '') + 1;
  const hasComma = separator === ',' && /\d,\d/.test(text);
  const sentence = say(
    'Line {line} has {fields, plural, one {# field} other {# fields}} where {width, plural, one {# is} other {# are}} expected: {text}. It is left out.',
    { line: row.line, fields, width, text: shortened(text) },
  );
  return {
    fault: 'extra-fields',
    sentence: hasComma
      ? `${sentence} ${say('If a number has a decimal comma, save the list with ; between the fields.')}`
      : sentence,
    line: row.line,
    lastLine: row.lastLine,
    refused: 'row',
    text,
  };
}

export function repeatedHeader(row: Row, headerLine: number, separator: Separator): TableFault {
  return {
    fault: 'repeated-header',
    sentence: say('Line {line} repeats the headings of line {headingLine}. It is left out.', {
      line: row.line,
      headingLine: headerLine,
    }),
    line: row.line,
    lastLine: row.lastLine,
    refused: 'row',
    text: asWritten(row.cells, separator),
  };
}

export function missingFields(row: Row, needed: number): TableFault {
  return {
    fault: 'missing-fields',
    sentence: say(
      'Line {line} has {fields, plural, one {# field} other {# fields}} where {needed} are expected. What is missing is taken as empty; check that nothing has shifted.',
      { line: row.line, fields: row.cells.length, needed },
    ),
    line: row.line,
    lastLine: row.lastLine,
    refused: 'nothing',
  };
}

/**
 * A quoted cell over several lines, one of which would be a row of this very table by itself: most
 * likely a quote mark is missing, and rows stand inside a cell.
 */
export function swallowedLines(row: Row, width: number, separator: Separator): TableFault[] {
  if (row.line === row.lastLine || width < 2) return [];
  const column = row.cells.findIndex((cell) => {
    const lines = cell.split(/\r\n|\n|\r/);
    return lines.slice(1, -1).some((line) => line.split(separator).length === width);
  });
  if (column === -1) return [];
  return [
    {
      fault: 'swallowed-lines',
      sentence: say(
        'A quoted cell runs from line {line} to line {lastLine} and holds what look like rows. If they are rows, mend the quote marks and read the file again.',
        { line: row.line, lastLine: row.lastLine },
      ),
      line: row.line,
      lastLine: row.lastLine,
      column,
      refused: 'nothing',
    },
  ];
}

/** A row as it may stand in such a file: the same cells, quoted where they must be. */
function asWritten(cells: readonly string[], separator: Separator): string {
  return cells
    .map((cell) =>
      !cell.startsWith('"') && (cell.includes(separator) || /[\r\n"]/.test(cell))
        ? `"${cell.replaceAll('"', '""')}"`
        : cell,
    )
    .join(separator);
}

function shortened(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length > 60 ? `${line.slice(0, 57)}…` : line;
}
