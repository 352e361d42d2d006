import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFault } from '../../shared/value.ts';
import { electronicNumber, largestAnimalCode } from '../../src/text/electronic-number.ts';
import { canonicalTag, isDestroyedNumber, likeKey, likeTag, likeTags } from '../../src/text/tag.ts';

const keyOf = (typed: string): string => {
  const tag = canonicalTag(typed);
  if (isFault(tag)) throw new Error(`${typed}: ${tag.sentence}`);
  return tag.key;
};

describe('electronicNumber(typed)', () => {
  // The four forms and their common number: ISO 11784 (3 + 12 digits) and its 64-bit layout.
  it.each([
    '982 000123456789',
    '982000123456789',
    '0982000123456789',
    'A 00000 0 982 000123456789',
    '8000F580075BCD15',
    '982-000123456789',
    '982.000123456789',
    '982 000 123 456 789',
    '982,000,123,456,789',
    '982000123456789.0',
    'A000000982000123456789',
    'A 00000 0 0982 000123456789',
    '1 00000 0 982 000123456789',
    '8000f580075bcd15',
    '0x8000F580075BCD15',
    '8000 F580 075B CD15',
    ' 982\u00a0000123456789 ',
    '="982000123456789"',
  ])('reads %s as 982000123456789', (typed) => {
    expect(electronicNumber(typed)).toBe('982000123456789');
  });

  it.each([
    ['98200012345678', 'one digit short'],
    ['9820001234567890', 'sixteen digits not led by 0'],
    ['000000123456789', 'country 000'],
    ['982274877906944', '12 digits above 2^38 - 1'],
    ['0000F580075BCD15', 'not flagged as an animal'],
    ['8000000000000015', 'hexadecimal with country 0'],
    ['982  000123456789x', 'a letter behind'],
    ['FF-04-117', 'an ear tag'],
    ['', 'nothing'],
  ])('takes %s for no electronic number (%s)', (typed) => {
    expect(electronicNumber(typed)).toBeNull();
  });

  it('accepts the greatest animal code, 2^38 - 1, and no greater', () => {
    expect(largestAnimalCode).toBe(2 ** 38 - 1);
    expect(electronicNumber('982274877906943')).toBe('982274877906943');
    expect(electronicNumber('8000F5BFFFFFFFFF')).toBe('982274877906943');
  });

  it('reads a number in hexadecimal and in digits alike, for every country and animal', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 999 }),
        fc.integer({ min: 0, max: largestAnimalCode }),
        (country, animal) => {
          const bits = (1n << 63n) | (BigInt(country) << 38n) | BigInt(animal);
          const digits = String(country).padStart(3, '0') + String(animal).padStart(12, '0');
          expect(electronicNumber(bits.toString(16))).toBe(digits);
          expect(electronicNumber(`${digits.slice(0, 3)} ${digits.slice(3)}`)).toBe(digits);
        },
      ),
    );
  });
});

describe('canonicalTag(typed)', () => {
  it('keeps what was typed and derives the key', () => {
    expect(canonicalTag('  FF  04 117 ')).toEqual({
      typed: '  FF  04 117 ',
      key: 'FF 04 117',
      electronic: null,
    });
  });

  it.each(['0123', '9E5', '1.5.2', '3-4-26', 'TRUE', '5%', '=1', '1E5', '#12', '12.50'])(
    'leaves %s as it is',
    (typed) => {
      expect(keyOf(typed)).toBe(typed);
    },
  );

  it('tells three electronic numbers with one digit between them apart', () => {
    const keys = ['982000123456781', '982000123456782', '982000123456783'].map(keyOf);
    expect(new Set(keys).size).toBe(3);
  });

  it('keeps a12 and A12, 0123 and 123 as different animals', () => {
    expect(keyOf('a12')).not.toBe(keyOf('A12'));
    expect(keyOf('0123')).not.toBe(keyOf('123'));
  });

  it('sees through characters that take no room', () => {
    expect(keyOf('A1\u200b2\ufeff')).toBe('A12');
    expect(keyOf('Zoe\u0308')).toBe(keyOf('Zo\u00eb'));
  });

  it.each([
    '9.82E+14',
    '9,82E+14',
    '9.82e+14',
    '9E+14',
    '9.82000123456789E14',
    '####',
    '#REF!',
    '#N/A',
  ])('refuses %s, a number destroyed by a spreadsheet', (typed) => {
    expect(isDestroyedNumber(typed)).toBe(true);
    expect(canonicalTag(typed)).toMatchObject({ fault: 'destroyed-tag' });
  });

  it('is a fault for nothing typed', () => {
    expect(canonicalTag(' \u00a0')).toMatchObject({ fault: 'no-tag' });
  });

  it('takes a 15-digit number with an impossible animal code as typed, with a doubt', () => {
    expect(canonicalTag('982999999999999')).toMatchObject({
      key: '982999999999999',
      electronic: null,
      doubt: { fault: 'nearly-electronic' },
    });
  });
});

describe('likeTag(a, b)', () => {
  it.each([
    ['0123', '123', 'leading zeros'],
    ['a12', 'A12', 'capital and small letters'],
    ['FF 12', 'FF12', 'spaces'],
    ['A012', 'A12', 'leading zeros'],
    ['a 012', 'A12', 'zeros, spaces or the way letters are written'],
  ])('warns of %s and %s: %s', (a, b, what) => {
    expect(likeTag(a, b)?.sentence).toContain(`differ only by ${what}`);
    expect(likeTag(b, a)?.fault).toBe('like-tags');
  });

  it('has nothing to say of equal, different, or electronic tags', () => {
    expect(likeTag('A1', ' A1 ')).toBeNull();
    expect(likeTag('10', '100')).toBeNull();
    expect(likeTag('A10', 'A1')).toBeNull();
    expect(likeTag('982 000123456789', '982000123456789')).toBeNull();
  });

  it('keeps the zeros that are not leading', () => {
    expect(likeKey('100')).toBe('100');
    expect(likeKey('0')).toBe('0');
    expect(likeKey('000')).toBe('0');
    expect(likeKey('1.05')).toBe('1.5');
  });
});

describe('likeTags(tags)', () => {
  it('groups tags alike, each once, and leaves out single and equal ones', () => {
    expect(likeTags(['0123', 'A1', '123', '123', 'a1', 'B2', '', '00123'])).toEqual([
      ['0123', '123', '00123'],
      ['A1', 'a1'],
    ]);
  });

  it('says of any two tags in a group what likeTag says', () => {
    const tag = fc.stringMatching(/^[aA0 1]{1,4}$/);
    fc.assert(
      fc.property(tag, tag, (a, b) => {
        expect(likeTags([a, b]).length === 1).toBe(
          a.trim() !== '' && b.trim() !== '' && likeTag(a, b) !== null,
        );
      }),
    );
  });
});
