import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTable } from '../../src/csv/read-table.ts';
import type { Table } from '../../src/csv/table.ts';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const cells = (table: Table): (readonly string[])[] => table.rows.map((row) => row.cells);
const kinds = (table: Table): string[] => table.faults.map(({ fault, line }) => `${fault} ${line}`);

describe('readTable(bytes): lists as they are met', () => {
  it('reads a list with a byte order mark; tags stay as written', () => {
    const table = readTable(utf8('\ufefftag,name,2026-03-01\n0123,Willow,4\n123,Fern,\n'));
    expect(table.headers).toEqual(['tag', 'name', '2026-03-01']);
    expect(cells(table)).toEqual([
      ['0123', 'Willow', '4'],
      ['123', 'Fern', ''],
    ]);
    expect(table.faults).toEqual([]);
    expect(table.encoding).toBe('utf-8');
  });

  it('finds the semicolon although the numbers have decimal commas', () => {
    const table = readTable(utf8('tag;kg\n982 000123456781;41,5\n982 000123456782;38,0\n'));
    expect(table.separator).toBe(';');
    expect(cells(table)).toEqual([
      ['982 000123456781', '41,5'],
      ['982 000123456782', '38,0'],
    ]);
    const withBlankLines = readTable(utf8('\n\n\ntag;kg\n\n\n\nA1;41,5\n\n\n\n'));
    expect(withBlankLines.separator).toBe(';');
    expect(withBlankLines.rows).toEqual([{ line: 8, lastLine: 8, cells: ['A1', '41,5'] }]);
  });

  it('refuses a row with more fields than the header, at its line, with its text', () => {
    const table = readTable(utf8('tag,kg\nA1,41,5\nA2,38\n'));
    expect(cells(table)).toEqual([['A2', '38']]);
    expect(table.faults).toMatchObject([
      { fault: 'extra-fields', line: 2, refused: 'row', text: 'A1,41,5' },
    ]);
    expect(table.faults[0]?.sentence).toContain('Line 2 has 3 fields where 2 are expected');
    expect(table.faults[0]?.sentence).toContain('decimal comma');
    const only = readTable(utf8('tag,kg\nA1,41,5\n'));
    expect([only.headers, only.rows, kinds(only)]).toEqual([['tag', 'kg'], [], ['extra-fields 2']]);
  });

  it('reads mixed line ends and hides no carriage return', () => {
    const table = readTable(utf8('tag,n\nA1,5\r\nA2,6\rA3,7'));
    expect(table.rows.map((row) => row.cells[1])).toEqual(['5', '6', '7']);
    expect(table.rows.map((row) => row.line)).toEqual([2, 3, 4]);
  });

  it('flags a stray quote at its line and keeps the animals below', () => {
    const table = readTable(utf8('tag,note\nA1,"big" ewe\nA2,ok\nA3,ok\n'));
    expect(cells(table)).toEqual([
      ['A1', '"big" ewe'],
      ['A2', 'ok'],
      ['A3', 'ok'],
    ]);
    expect(table.faults).toMatchObject([
      { fault: 'stray-quote', line: 2, column: 1, refused: 'nothing' },
    ]);
  });

  it('reads Windows-1252 and says so', () => {
    const table = readTable(
      Uint8Array.from('tag;name\n7;Zo\xeb\n8;\x80 5\n', (letter) => letter.charCodeAt(0)),
    );
    expect(table.encoding).toBe('windows-1252');
    expect(cells(table)).toEqual([
      ['7', 'Zoë'],
      ['8', '€ 5'],
    ]);
  });

  it('finds the header below a title, and keeps the title', () => {
    const table = readTable(utf8('Herd list 2026\n\ntag,count\nA1,5\n'));
    expect(table.header).toEqual({ line: 3, lastLine: 3, cells: ['tag', 'count'] });
    expect(table.preamble).toEqual([{ line: 1, lastLine: 1, cells: ['Herd list 2026'] }]);
    expect(table.rows).toEqual([{ line: 4, lastLine: 4, cells: ['A1', '5'] }]);
    expect(table.faults).toEqual([]);
  });

  it('finds the header below lines with names and dates', () => {
    const table = readTable(
      utf8('Flock,Hill Farm\nDate,2026-03-01\nCounted by,Jo\n\nEar tag,FEC\nA1,50\nA2,0\n'),
    );
    expect(table.header?.line).toBe(5);
    expect(table.preamble.map((row) => row.line)).toEqual([1, 2, 3]);
    expect(table.rows).toHaveLength(2);
  });

  it('takes no row for the header because of words that also stand in cells', () => {
    const ticks = readTable(utf8('tag,jaw,class\nA1,no,ewe\nA2,no,ewe\nA3,n,name\n'));
    expect(ticks.header?.line).toBe(1);
    const bare = readTable(utf8('A1,n,ewe\nA2,n,ewe\n'));
    expect([bare.header, bare.rows.length]).toEqual([null, 2]);
    const remark = readTable(utf8('tag,x\n982000123456781,tag date count note\nA2,name\n'));
    expect(remark.header?.line).toBe(1);
  });

  it('follows a sep= line and counts it as a line', () => {
    const table = readTable(utf8('sep=;\ntag;n\nA;5\n'));
    expect(table.separator).toBe(';');
    expect(table.rows).toEqual([{ line: 3, lastLine: 3, cells: ['A', '5'] }]);
    expect(table.preamble.map((row) => row.line)).toEqual([1]);
    expect(readTable(utf8('sep=^\r\ntag^n\r\nA^5')).rows[0]?.cells).toEqual(['A', '5']);
  });

  it('makes no ghost animals of blank rows at the end', () => {
    const table = readTable(utf8('tag,n\nA1,5\n\n,\n , \n"",""\n'));
    expect(cells(table)).toEqual([['A1', '5']]);
    expect(table.faults).toEqual([]);
  });

  it('keeps headings as a list: __proto__, equal and blank ones', () => {
    const table = readTable(utf8('tag,__proto__,count,count,\nA1,x,1,2,y\n'));
    expect(table.headers).toEqual(['tag', '__proto__', 'count', 'count', '']);
    expect(cells(table)).toEqual([['A1', 'x', '1', '2', 'y']]);
  });

  it('takes further separators at the end of a row for nothing, not for fields', () => {
    const table = readTable(utf8('tag,n\nA1,5,,,\nA2,6, \n'));
    expect(cells(table)).toEqual([
      ['A1', '5'],
      ['A2', '6'],
    ]);
    expect(table.faults).toEqual([]);
  });

  it('fills up a short row and names it', () => {
    const table = readTable(utf8('tag,name,n\nA1,Fern,5\nA2\n'));
    expect(cells(table)).toEqual([
      ['A1', 'Fern', '5'],
      ['A2', '', ''],
    ]);
    expect(kinds(table)).toEqual(['missing-fields 3']);
  });

  it('leaves out headings repeated in the middle of a file put together, and says so', () => {
    const table = readTable(utf8('tag,n\nA1,5\ntag,n\nA2,6\n'));
    expect(cells(table)).toEqual([
      ['A1', '5'],
      ['A2', '6'],
    ]);
    expect(table.faults).toMatchObject([{ fault: 'repeated-header', line: 3, refused: 'row' }]);
  });

  it('names a quoted cell that holds rows, but not a note over two lines', () => {
    const swallowed = readTable(utf8('tag,n,note\nA1,5,"lame\nA2,6,ok\nA3,7,old"\nA4,8,ok\n'));
    expect(kinds(swallowed)).toEqual(['swallowed-lines 2']);
    expect(swallowed.rows.map((row) => [row.line, row.lastLine])).toEqual([
      [2, 4],
      [5, 5],
    ]);
    const note = readTable(utf8('tag,n,note\nA1,5,"lame, left\nsee vet, soon\nor later"\n'));
    expect(note.faults).toEqual([]);
    expect(note.rows[0]?.cells[2]).toBe('lame, left\nsee vet, soon\nor later');
  });

  it('keeps counts as they were typed: a reason is for the notebook to find', () => {
    const table = readTable(utf8('tag,n\nA,0\nB,\nC,TNTC\nD,>40\nE,12?\nF,12\n'));
    expect(table.rows.map((row) => row.cells[1])).toEqual(['0', '', 'TNTC', '>40', '12?', '12']);
  });

  it('says of damaged letters where they are', () => {
    const table = readTable(utf8('tag,name\nA1,Zo\ufffd\n'));
    expect(table.faults).toMatchObject([{ fault: 'damaged-letters', line: 2, column: 1 }]);
  });

  it.each([
    [[0x50, 0x4b, 3, 4], 'workbook'],
    [[0x25, 0x50, 0x44, 0x46, 0x2d], 'PDF'],
    [[0xff, 0xd8, 0xff, 0xe0], 'picture'],
  ])('refuses %j: no list of text (%s)', (bytes, word) => {
    const table = readTable(Uint8Array.from([...bytes, 65, 44, 10, 66]));
    expect(table.faults).toMatchObject([{ fault: 'not-a-list', refused: 'file' }]);
    expect(table.faults[0]?.sentence).toContain(word);
    expect(table.rows).toEqual([]);
  });

  it('reads an empty file as an empty table', () => {
    expect(readTable(utf8(''))).toMatchObject({ headers: [], header: null, rows: [], faults: [] });
    expect(readTable(utf8('\ufeff\r\n \r\n'))).toMatchObject({ rows: [], faults: [] });
  });
});

describe('readTable(bytes): files of readers and scales, without headings', () => {
  it('takes a file of bare electronic tags for rows', () => {
    const table = readTable(utf8('982 000123456781\r\n982 000123456782\r\n982 000123456783\r\n'));
    expect(table.header).toBeNull();
    expect(cells(table)).toEqual([
      ['982 000123456781'],
      ['982 000123456782'],
      ['982 000123456783'],
    ]);
  });

  it.each([
    ['982000123456781,41.5,2026-03-01 10:22:31\n982000123456782,38.0,2026-03-01 10:23:02\n', 3],
    ['982000123456781;41,5\n982000123456782;38,0\n', 2],
    ['A1\t5\nA2\t6\n', 2],
    ['A1,Willow\nA2,Fern\n', 2],
    ['8000F580075BCD15\n8000F580075BCD16\n', 1],
    ['982000123456781', 1],
    ['A1,5', 2],
    ['9.82E+14\n9.82E+14\n', 1],
  ])('takes %j for rows from the first line on', (text, width) => {
    const table = readTable(utf8(text));
    expect(table.header).toBeNull();
    expect(table.rows[0]?.line).toBe(1);
    expect(table.headers).toEqual(Array(width).fill(''));
  });

  it('fills up rows of unequal length and refuses none', () => {
    const table = readTable(utf8('982000123456781\n982000123456782,41.5\n982000123456783,38,x\n'));
    expect(cells(table)).toEqual([
      ['982000123456781', '', ''],
      ['982000123456782', '41.5', ''],
      ['982000123456783', '38', 'x'],
    ]);
    expect(table.faults).toEqual([]);
  });

  it('lets the person say where the header is, or that there is none', () => {
    const text = 'animal,eggs\nA1,5\n';
    expect(readTable(text, { headerLine: 'none' }).rows).toHaveLength(2);
    expect(readTable('x,y\nq,r\nA1,5\n', { headerLine: 2 })).toMatchObject({
      headers: ['q', 'r'],
      preamble: [{ line: 1 }],
      rows: [{ line: 3 }],
    });
    expect(readTable('a;b,c\n1;2,3\n', { separator: ',' }).headers).toEqual(['a;b', 'c']);
  });
});

describe('readTable(any bytes)', () => {
  /** Letters and digits: all of a text but what a table may be made of or drop as empty. */
  const solid = (text: string, separator: string): string =>
    [...text.replace(/[\s"']/gu, '')]
      .filter((letter) => letter !== separator)
      .sort()
      .join('');

  /**
   * Nothing is lost: every character other than white space, quotes and separators stands in exactly
   * one of header, preamble, rows and refused rows; and so does every line that holds one.
   */
  function expectNothingLost(table: Table, text: string): void {
    const refused = table.faults.filter((fault) => fault.refused === 'row');
    const kept = [...(table.header ? [table.header] : []), ...table.preamble, ...table.rows];
    const found = [
      ...kept.flatMap((row) => row.cells),
      ...refused.map((fault) => fault.text ?? ''),
    ];
    expect(solid(found.join(''), table.separator)).toBe(solid(text, table.separator));

    const times = new Map<number, number>();
    for (const { line, lastLine } of [...kept, ...refused]) {
      for (let at = line; at <= lastLine; at++) times.set(at, (times.get(at) ?? 0) + 1);
    }
    text.split(/\r\n|\n|\r/).forEach((line, at) => {
      if (solid(line, table.separator) !== '') expect(times.get(at + 1)).toBe(1);
    });
    for (const row of table.rows) expect(row.cells).toHaveLength(table.headers.length);
    for (const fault of table.faults) expect(fault.sentence).toMatch(/^[A-Z].*[.?]$/s);
  }

  const scrap = fc.constantFrom(
    ...[
      'tag',
      'count',
      'A1',
      'é',
      '"',
      '""',
      ',',
      ';',
      '\t',
      '|',
      '\n',
      '\r\n',
      '\r',
      ' ',
      "'",
      '=',
    ],
    ...['41,5', '>40', '982000123456789', '2026-03-01', 'sep=;\n', '__proto__', '"a\nb"', '🐑'],
  );

  it('never throws and loses nothing of 5,000 random texts', () => {
    fc.assert(
      fc.property(fc.array(scrap, { maxLength: 40 }), (scraps) => {
        const text = scraps.join('');
        expectNothingLost(readTable(utf8(text)), text);
      }),
      { numRuns: 5000 },
    );
  });

  it('never throws and loses nothing of 5,000 random files, whatever the bytes', () => {
    const binary = fc.array(
      fc.oneof(
        scrap.map((text) => [...utf8(text)]),
        fc.uint8Array({ maxLength: 6 }).map((some) => [...some]),
      ),
      {
        maxLength: 25,
      },
    );
    fc.assert(
      fc.property(binary, (parts) => {
        const bytes = Uint8Array.from(parts.flat());
        const table = readTable(bytes);
        if (table.faults.some((fault) => fault.refused === 'file')) return;
        // The text that the file turned out to be, from the same bytes by the runtime's decoder.
        if (table.encoding === 'utf-8') {
          expectNothingLost(table, new TextDecoder('utf-8', { fatal: true }).decode(bytes));
        }
        if (table.encoding === 'windows-1252' || table.encoding === 'mixed') {
          const ascii = String.fromCharCode(...bytes).replace(/[^!-~\s]/g, '');
          const found = [table.header, ...table.preamble, ...table.rows]
            .flatMap((row) => row?.cells ?? [])
            .concat(
              table.faults.map((fault) => (fault.refused === 'row' ? (fault.text ?? '') : '')),
            );
          expect(solid(found.join('').replace(/[^!-~]/g, ''), table.separator)).toBe(
            solid(ascii, table.separator),
          );
        }
      }),
      { numRuns: 5000 },
    );
  });

  it('reads 100,000 rows in one pass, sound or with a stray quote', () => {
    const lines = Array.from({ length: 100_000 }, (_, at) => `A${at},Fern ${at},${at % 40}`);
    const sound = readTable(`tag,name,count\n${lines.join('\n')}\n`);
    expect(sound.rows).toHaveLength(100_000);
    lines[70_000] = 'A70000,"big" ewe,3';
    const damaged = readTable(`tag,name,count\r\n${lines.join('\r\n')}\r\n`);
    expect(damaged.rows).toHaveLength(100_000);
    expect(damaged.rows[70_000]).toMatchObject({
      line: 70_002,
      cells: ['A70000', '"big" ewe', '3'],
    });
    expect(kinds(damaged)).toEqual(['stray-quote 70002']);
  });
});
