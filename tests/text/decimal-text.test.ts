import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { decimalMarkOf, parseNumber, writeNumber } from '../../src/text/decimal-text.ts';

const sentence = (text: string, mark: '.' | ','): string => {
  const value = parseNumber(text, mark);
  return isFault(value) ? value.sentence : `read as ${value}`;
};

describe('parseNumber(text, mark)', () => {
  it.each([
    ['0', '.', 0],
    ['12', '.', 12],
    [' 41.5 ', '.', 41.5],
    ['41,5', ',', 41.5],
    ['-100', '.', -100],
    ['\u2212100', '.', -100],
    ['007', '.', 7],
    ['.5', '.', 0.5],
    ['-,5', ',', -0.5],
    ['1.000', '.', 1],
    ['-0', '.', 0],
    ['0.30000000000000004', '.', 0.30000000000000004],
  ] as const)('reads %s with mark %s as %d', (text, mark, value) => {
    expect(parseNumber(text, mark)).toBe(value);
  });

  it.each([
    '1e3',
    '1E+3',
    '0x1F',
    '1,000',
    '1 000',
    "1'000",
    '1,5',
    '12?',
    '+5',
    '5.',
    '--5',
    '5-',
    '5%',
    '$5',
    '5 kg',
    'Infinity',
    'NaN',
    '\uff11\uff12',
    '\ud83d\udc11',
    '5\ufe0f\u20e3',
    '1.2.3',
    'TRUE',
    '1_000',
    '٣',
  ])('refuses %s with a decimal point', (text) => {
    expect(parseNumber(text, '.')).toMatchObject({ fault: 'not-a-number' });
  });

  it.each(['1.000', '41.5', '1.000,5', '1e3', ','])('refuses %s with a decimal comma', (text) => {
    expect(parseNumber(text, ',')).toMatchObject({ fault: 'not-a-number' });
  });

  it('tells nothing typed from something wrong', () => {
    expect(parseNumber(' \u00a0', '.')).toMatchObject({ fault: 'empty' });
  });

  it('refuses digits that a number cannot keep, and says where they belong', () => {
    expect(parseNumber('98200012345678123', '.')).toMatchObject({ fault: 'too-many-digits' });
    expect(parseNumber('0.1234567890123456789', '.')).toMatchObject({ fault: 'too-many-digits' });
    expect(parseNumber('9'.repeat(400), '.')).toMatchObject({ fault: 'too-many-digits' });
  });

  it('says what to type instead', () => {
    expect(sentence('41,5', '.')).toContain('Type 41.5');
    expect(sentence('41.5', ',')).toContain('Type 41,5');
    expect(sentence('1,000', '.')).toContain('Type 1000, or 1.000');
    expect(sentence('12,000,000', '.')).toMatch(/two ways.*Type 12000000\.$/);
    expect(sentence('12?', '.')).toContain('question mark');
    expect(sentence('1e3', '.')).toContain('plain digits');
    expect(sentence('+5', '.')).toContain('Type 5.');
    expect(sentence('5.', '.')).toContain('Type 5,');
  });

  it('never throws, and gives a finite number or a sentence for any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.constantFrom('.', ','), (text, mark) => {
        const value = parseNumber(text, mark);
        expect(isFault(value) ? value.sentence.length > 10 : Number.isFinite(value)).toBe(true);
      }),
    );
  });
});

describe('writeNumber(value, mark)', () => {
  it.each([
    [1e21, '.', '1000000000000000000000'],
    [1.5e-7, '.', '0.00000015'],
    [-2.25e-8, ',', '-0,0000000225'],
    [-0, '.', '0'],
    [41.5, ',', '41,5'],
  ] as const)('writes %d with mark %s as %s', (value, mark, text) => {
    expect(writeNumber(value, mark)).toBe(text);
  });

  it('writes any finite number so that parseNumber reads it back', () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.constantFrom<'.' | ','>('.', ','),
        (value, mark) => {
          expect(parseNumber(writeNumber(value, mark), mark)).toBe(value === 0 ? 0 : value);
        },
      ),
    );
  });

  it('throws for what is no finite number, since nothing such is ever exported', () => {
    expect(() => writeNumber(NaN, '.')).toThrow('NaN');
  });
});

describe('decimalMarkOf(locale)', () => {
  // Unicode CLDR, numbers/symbols: Spain and Germany a comma; Peru, Mexico, Britain and America a point.
  it.each([
    ['es-ES', ','],
    ['de-DE', ','],
    ['es-PE', '.'],
    ['es-MX', '.'],
    ['en-GB', '.'],
    ['en-US', '.'],
  ])('%s: %s', (locale, mark) => {
    expect(decimalMarkOf(locale)).toBe(mark);
  });
});
