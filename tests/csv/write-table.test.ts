import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { readBlock, writeBlock } from '../../src/csv/block.ts';
import { fileName } from '../../src/csv/file-name.ts';
import { guardedTag, guardedText, unguarded } from '../../src/csv/guard.ts';
import { readTable } from '../../src/csv/read-table.ts';
import { type WriteCell, type WriteStyle, writeTable } from '../../src/csv/write-table.ts';
import { parseNumber } from '../../src/text/decimal-text.ts';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const readBack = (text: string): (readonly string[])[] =>
  readTable(utf8(text), { headerLine: 1 }).rows.map((row) => row.cells);

describe('writeTable(rows, options)', () => {
  it('writes UTF-8 with its mark, CRLF, quotes where needed', () => {
    const text = writeTable(
      [
        ['tag', 'note'],
        [{ tag: 'A1' }, 'big, "old"'],
      ],
      { style: 'comma' },
    );
    expect([...utf8(text).slice(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    expect(text).toBe('\ufefftag,note\r\nA1,"big, ""old"""\r\n');
  });

  it('guards texts, leaves a reduction of -100 a number, and reads back equal', () => {
    const text = writeTable(
      [
        ['name', 'note', 'reduction'],
        ['@Nell', '=1+1\nsee vet', -100],
      ],
      { style: 'comma' },
    );
    expect(text).toContain(`'@Nell,"'=1+1\nsee vet",-100\r\n`);
    expect(readBack(text)).toEqual([['@Nell', '=1+1\nsee vet', '-100']]);
  });

  it('writes ; with decimal commas, found again by itself', () => {
    const rows: WriteCell[][] = [
      ['tag', 'kg', 'note'],
      [{ tag: 'A1' }, 41.5, 'big; old, lame'],
      [{ tag: 'A2' }, null, ''],
      [{ tag: 'A3' }, 0, '1,5'],
    ];
    const text = writeTable(rows, { style: 'semicolon' });
    expect(text).toBe('\ufefftag;kg;note\r\nA1;41,5;"big; old, lame"\r\nA2;;\r\nA3;0;1,5\r\n');
    const table = readTable(utf8(text));
    expect(table.separator).toBe(';');
    expect(table.rows[0]?.cells).toEqual(['A1', '41,5', 'big; old, lame']);
    expect(table.faults).toEqual([]);
  });

  it('keeps every column where the first animal has nothing', () => {
    const text = writeTable(
      [
        ['tag', 'count', 'epg'],
        [{ tag: 'A1' }, null, null],
        [{ tag: 'A2' }, 4, 200],
      ],
      { style: 'comma' },
    );
    expect(readBack(text)).toEqual([
      ['A1', '', ''],
      ['A2', '4', '200'],
    ]);
  });

  it.each([
    '982000123456789',
    '982 000123456789',
    '0123',
    '9E5',
    '3-4-26',
    '1.5.2',
    'TRUE',
    '1.50',
  ])('writes the tag %s so that a spreadsheet leaves it alone, and reads it back', (tag) => {
    const text = writeTable([['tag'], [{ tag }]], { style: 'comma' });
    expect(text).toBe(`\ufefftag\r\n'${tag}\r\n`);
    expect(readBack(text)).toEqual([[tag]]);
  });

  it.each(['A1', '123', 'FF-04-117', 'K 7', 'ewe 12', 'LAMB12'])(
    'writes the tag %s as it is',
    (tag) => {
      expect(writeTable([['tag'], [{ tag }]], { style: 'comma' })).toBe(`\ufefftag\r\n${tag}\r\n`);
    },
  );

  it('writes plain tags for a database, still guarded against formulas', () => {
    const rows: WriteCell[][] = [['tag'], [{ tag: '0123' }], [{ tag: '=1' }]];
    const text = writeTable(rows, { style: 'comma', tags: 'plain' });
    expect(text).toBe(`\ufefftag\r\n0123\r\n'=1\r\n`);
    expect(readBack(text)).toEqual([['0123'], ['=1']]);
  });

  it('does not let a heading name a separator', () => {
    const text = writeTable(
      [
        ['sep=;', 'n'],
        ['a', 'b'],
      ],
      { style: 'comma' },
    );
    expect(readTable(utf8(text), { headerLine: 1 })).toMatchObject({
      separator: ',',
      headers: ['sep=;', 'n'],
    });
  });

  const anyText = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 8 }),
    fc
      .array(
        fc.constantFrom(
          "'",
          '=',
          '-',
          '+',
          '@',
          '"',
          ',',
          ';',
          '\n',
          '\r',
          '\t',
          ' ',
          '0',
          '12',
          'E',
          'a',
        ),
        { maxLength: 6 },
      )
      .map((parts) => parts.join('')),
  );
  const anyCell = fc.oneof(
    anyText,
    anyText.map((tag) => ({ tag })),
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.constant(null),
  );

  it('reads back equal: texts to the letter, numbers to the last bit, 2,000 random tables', () => {
    const table = fc.integer({ min: 1, max: 4 }).chain((width) =>
      fc.array(fc.array(anyCell, { minLength: width, maxLength: width }), {
        minLength: 1,
        maxLength: 5,
      }),
    );
    fc.assert(
      fc.property(
        table,
        fc.constantFrom<WriteStyle>('comma', 'semicolon'),
        fc.constantFrom('guarded', 'plain'),
        (rows, style, tags) => {
          const header = rows[0]?.map((_, at) => `h${at}`) ?? [];
          const separator = style === 'comma' ? ',' : ';';
          const text = writeTable([header, ...rows], { style, tags: tags });
          const read = readTable(utf8(text), { headerLine: 1, separator });
          const written = (cell: WriteCell): string | null =>
            cell === null
              ? ''
              : typeof cell === 'object'
                ? cell.tag
                : typeof cell === 'string'
                  ? cell
                  : null;
          const wanted = rows.filter((row) => row.some((cell) => written(cell)?.trim() !== ''));
          expect(read.rows.length).toBe(wanted.length);
          wanted.forEach((row, at) => {
            row.forEach((cell, column) => {
              const back = read.rows[at]?.cells[column] ?? 'missing';
              if (typeof cell !== 'number') return expect(back).toBe(written(cell));
              const value = parseNumber(back, style === 'comma' ? '.' : ',');
              expect(isFault(value) ? value.sentence : value).toBe(cell === 0 ? 0 : cell);
            });
          });
          expect(read.faults.filter((fault) => fault.refused !== 'nothing')).toEqual([]);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

describe('guardedText(text)', () => {
  it.each([
    '=1',
    '+50',
    '-x',
    '@a',
    '\t=1',
    '\r=1',
    '\n=1',
    '  =1',
    ' \n @a',
    '\u200b=1',
    '\u0000=1',
    '＝1',
    '\u00a0-5',
    '\tx',
    '\rx',
    '\nx',
  ])('guards %j', (text) => {
    expect(guardedText(text)).toBe(`'${text}`);
  });

  it.each(['a=1', '5-4', "'s-Gravenland", 'ok', '', '0123', 'x@y'])('leaves %j alone', (text) => {
    expect(guardedText(text)).toBe(text);
    expect(unguarded(text)).toBe(text);
  });

  it('lets no guarded cell begin with anything that would be run, and comes off exactly', () => {
    const text = fc.string({
      unit: fc.constantFrom("'", '=', '-', ' ', '\n', '0', '1', 'a', '\u200b'),
    });
    fc.assert(
      fc.property(text, (any) => {
        for (const guarded of [guardedText(any), guardedTag(any)]) {
          expect(guarded).not.toMatch(/^[\s\u200b]*[=-]/);
          expect(unguarded(guarded)).toBe(any);
        }
      }),
      { numRuns: 3000 },
    );
  });
});

describe('readBlock(text), writeBlock(rows)', () => {
  it('reads two rows of a block with a quote that does not pair, the first flagged', () => {
    const block = readBlock('A1\t"5\nA2\t6\n');
    expect(block.rows.map((row) => row.cells)).toEqual([
      ['A1', '"5'],
      ['A2', '6'],
    ]);
    expect(block.faults).toMatchObject([{ fault: 'stray-quote', line: 1, column: 1 }]);
  });

  it('reads what spreadsheets put on the clipboard: CRLF, quoted line ends, uneven rows', () => {
    const block = readBlock('A1\t"see\nvet"\r\nA2\r\n\r\nA3\t6\tx\r\n');
    expect(block.width).toBe(3);
    expect(block.rows.map((row) => row.cells)).toEqual([
      ['A1', 'see\nvet', ''],
      ['A2', '', ''],
      ['', '', ''],
      ['A3', '6', 'x'],
    ]);
    expect(block.faults).toEqual([]);
    expect(readBlock('').rows).toEqual([]);
  });

  it('keeps a comma inside a cell: only tabs part cells', () => {
    expect(readBlock('41,5').rows[0]?.cells).toEqual(['41,5']);
  });

  it('gives back the cells that were copied, whatever they hold', () => {
    const unit = fc.constantFrom(
      "'",
      '=',
      '"',
      '\t',
      '\n',
      '\r',
      ' ',
      ',',
      '0',
      'a',
      '\0',
      '\ufeff',
      '🐑',
    );
    const rows = fc
      .integer({ min: 1, max: 3 })
      .chain((width) =>
        fc.array(
          fc.array(fc.string({ unit, maxLength: 5 }), { minLength: width, maxLength: width }),
          { minLength: 1, maxLength: 4 },
        ),
      );
    fc.assert(
      fc.property(rows, (cells) => {
        const block = readBlock(writeBlock(cells));
        expect(block.rows.map((row) => row.cells)).toEqual(cells);
        expect(block.faults).toEqual([]);
      }),
      { numRuns: 3000 },
    );
  });
});

describe('fileName(place, day, kind)', () => {
  it('says farm, day and kind', () => {
    expect(fileName('Hill Farm', '2026-05-03 evening', 'for the vet')).toBe(
      'Hill Farm 2026-05-03 evening for the vet.csv',
    );
  });

  it('holds no mark that a system refuses, and is never empty', () => {
    expect(fileName('A/B: "C" <d>\n|?*', '2026-05-03', 'tidy')).toBe('A B C d 2026-05-03 tidy.csv');
    expect(fileName('..', '', '')).toBe('sampling day.csv');
    expect(fileName('x'.repeat(500), '2026-05-03', 'notebook', 'json').length).toBeLessThan(100);
  });
});
