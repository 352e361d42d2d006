import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { repairRows } from '../../src/csv/repair-rows.ts';
import { splitRows, splitSound } from '../../src/csv/split-rows.ts';

const cells = (text: string, separator = ','): (readonly string[])[] =>
  splitRows(text, separator).map((row) => row.cells);
const strays = (text: string, separator = ','): number[] =>
  splitRows(text, separator).flatMap((row) => row.stray.map(({ line }) => line));

describe('splitRows(text, separator)', () => {
  it('reads any line end, also mixed, and hides none in a cell', () => {
    expect(cells('tag,n\nA1,5\r\nA2,6\rA3,7')).toEqual([
      ['tag', 'n'],
      ['A1', '5'],
      ['A2', '6'],
      ['A3', '7'],
    ]);
    expect(cells('a\r\rb')).toEqual([['a'], [''], ['b']]);
    expect(cells('a\n\rb\r')).toEqual([['a'], [''], ['b']]);
  });

  it('numbers lines as an editor does, through quoted line ends of every kind', () => {
    const rows = splitRows('a,"x\ny\r\nz\rw"\nb,c\n\nd,"e\n"\nf', ',');
    expect(rows.map(({ line, lastLine }) => [line, lastLine])).toEqual([
      [1, 4],
      [5, 5],
      [6, 6],
      [7, 8],
      [9, 9],
    ]);
    expect(rows[0]?.cells[1]).toBe('x\ny\r\nz\rw');
  });

  it('keeps the rows below a quote that does not pair', () => {
    expect(cells('tag,note\nA1,"big" ewe\nA2,ok\nA3,ok\n')).toEqual([
      ['tag', 'note'],
      ['A1', '"big" ewe'],
      ['A2', 'ok'],
      ['A3', 'ok'],
    ]);
    expect(strays('tag,note\nA1,"big" ewe\nA2,ok\nA3,ok\n')).toEqual([2]);
    expect(cells('A1\t"5\nA2\t6\n', '\t')).toEqual([
      ['A1', '"5'],
      ['A2', '6'],
    ]);
    expect(strays('A1\t"5\nA2\t6\n', '\t')).toEqual([1]);
  });

  it('marks every stray cell at its own line and reads on behind it', () => {
    const text = 'A1,"big ewe\nA2,ok\nA3,"she said "no" today",x\nA4,"fine, really"\nA5,"';
    expect(cells(text)).toEqual([
      ['A1', '"big ewe'],
      ['A2', 'ok'],
      ['A3', '"she said "no" today"', 'x'],
      ['A4', 'fine, really'],
      ['A5', '"'],
    ]);
    expect(strays(text)).toEqual([1, 3, 5]);
  });

  it('gives the line of the cell, not of its row, for a stray quote behind a quoted line end', () => {
    expect(strays('"a\nb","c" d\ne')).toEqual([2]);
  });

  it('takes quotes with spaces around them for quotes, and inch marks for text', () => {
    expect(cells('A1, "big, ewe" ,5\nA2,5" pipe,6')).toEqual([
      ['A1', 'big, ewe', '5'],
      ['A2', '5" pipe', '6'],
    ]);
    expect(strays('A2,5" pipe,6')).toEqual([]);
  });

  it('keeps blank lines as rows and gives none for an empty text', () => {
    expect(cells('a\n\n,\nb\n')).toEqual([['a'], [''], ['', ''], ['b']]);
    expect(cells('')).toEqual([]);
  });

  it('agrees with papaparse on everything papaparse writes', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', '1', '"', ',', ';', ' ', 'é', '\n') });
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1 }),
        (rows) => {
          const text = Papa.unparse(rows, { newline: '\n' });
          expect(cells(text)).toEqual(rows);
          expect(repairRows(text, ',').map((row) => row.cells)).toEqual(rows);
        },
      ),
    );
  });

  it('gives the same through either reader wherever papaparse finds all in order', () => {
    const text = fc.string({
      unit: fc.constantFrom('a', 'b', '"', ',', ' ', '\r\n', '\n'),
      maxLength: 24,
    });
    let sound = 0;
    fc.assert(
      fc.property(text, (any) => {
        const read = splitSound(any, ',');
        if (read === null) return;
        sound++;
        expect(repairRows(any, ',')).toEqual(read);
      }),
      { numRuns: 3000 },
    );
    expect(sound).toBeGreaterThan(300);
  });

  it('takes time in proportion to the file, whatever its quotes', () => {
    // Steps, not seconds: how often the reader asks for a character.
    const steps = (size: number, row: string): number => {
      let asked = 0;
      const text = row.repeat(size);
      const counting = Object.assign(Object(text) as string, {
        charCodeAt: (at: number) => {
          asked++;
          return text.charCodeAt(at);
        },
      });
      repairRows(counting, ',');
      return asked;
    };
    for (const row of ['A1,"5\n', 'A1,"""\n', 'A1,"" x\n', '"A","b\nc"\n', 'A,"""",\n"x""\n']) {
      expect(steps(2000, row) / steps(200, row)).toBeLessThan(11);
    }
  });
});
