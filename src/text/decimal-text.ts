import { type Fault, fault } from '../../shared/value.ts';
import { say } from './say.ts';

/** How a person writes decimals. The notebook always shows which one holds. */
export type DecimalMark = '.' | ',';

/** How decimals are written where a locale is spoken: `es-ES` has a comma, `es-PE` and `en-GB` a point. */
export function decimalMarkOf(locale: string): DecimalMark {
  const parts = new Intl.NumberFormat(locale).formatToParts(1.5);
  return parts.find(({ type }) => type === 'decimal')?.value === ',' ? ',' : '.';
}

/**
 * Reads a plain decimal number: digits, one decimal mark, a minus sign if need be. Nothing is
 * guessed: `1e3`, `0x1F`, `1,000`, `1 000`, `12?` and the other decimal mark are faults with a
 * sentence. Nothing typed is the fault `empty`, so that a caller can tell missing from wrong.
 *
 * @param mark the decimal mark that holds where the text was typed.
 * @returns the finite number that stands there; never one with digits rounded away.
 */
export function parseNumber(text: string, mark: DecimalMark): number | Fault {
  const trimmed = text.trim();
  if (trimmed === '') return fault('empty', say('Nothing is typed here.'));
  const plain = mark === '.' ? plainWithPoint : plainWithComma;
  if (!plain.test(trimmed)) return fault('not-a-number', reason(trimmed, mark));
  const digits = trimmed.replace(/^[-−]/, '').replace(mark, '.');
  const size = Number(digits);
  if (!Number.isFinite(size) || writeNumber(size, '.') !== shortest(digits)) {
    return fault(
      'too-many-digits',
      say(
        '"{text}" has more digits than a number can keep. If it is a tag, put it in the tag column.',
        { text: trimmed },
      ),
    );
  }
  return /^\d|^[.,]/.test(trimmed) || size === 0 ? size : -size;
}

/** The same number without zeros that say nothing. */
function shortest(digits: string): string {
  const [whole = '', decimals = ''] = digits.split('.');
  const significant = decimals.replace(/0+$/, '');
  const units = whole.replace(/^0+(?=\d)/, '') || '0';
  return significant === '' ? units : `${units}.${significant}`;
}

const plainWithPoint = /^[-−]?(?:\d+(?:\.\d+)?|\.\d+)$/;
const plainWithComma = /^[-−]?(?:\d+(?:,\d+)?|,\d+)$/;

function reason(text: string, mark: DecimalMark): string {
  const other = mark === '.' ? ',' : '.';
  const markName = mark === '.' ? 'point' : 'comma';
  if (/^[-−]?\d{1,3}(?:[.,]\d{3})+$/.test(text) && text.includes(other)) {
    const together = text.replace(/[.,]/g, '');
    return text.split(other).length === 2
      ? say('"{text}" can be read in two ways. Type {together}, or {decimal}.', {
          text,
          together,
          decimal: text.replace(other, mark),
        })
      : say('"{text}" can be read in two ways. Type {together}.', { text, together });
  }
  if (new RegExp(`^[-−]?\\d+\\${other}\\d+$`).test(text)) {
    return say(
      '"{text}" has {mark, select, point {a comma, but the decimal mark here is a point} other {a point, but the decimal mark here is a comma}}. Type {number}.',
      { text, mark: markName, number: text.replace(other, mark) },
    );
  }
  if (/^[-−]?\d+[.,]$/.test(text)) {
    return say(
      '"{text}" ends with its decimal mark. Type {number}, or the digits that are missing.',
      { text, number: text.slice(0, -1) },
    );
  }
  if (/^[-−]?[\d.,]+e[+-]?\d+$/i.test(text)) {
    return say('"{text}" is written with a power of ten. Type the number in plain digits.', {
      text,
    });
  }
  if (/^\+\d/.test(text))
    return say('"{text}" begins with a plus sign. Type {number}.', {
      text,
      number: text.slice(1),
    });
  if (/^\d[\d\s'’.,]*\d$/.test(text)) {
    return say(
      '"{text}" has marks between its digits. Type them together, with {mark, select, point {a point} other {a comma}} only for decimals.',
      { text, mark: markName },
    );
  }
  if (/^[-−]?[\d.,]+\s*\?+$/.test(text)) {
    return say('"{text}" is in doubt. Take the question mark away once you are sure.', { text });
  }
  return say(
    '"{text}" is not a number. Type plain digits, with {mark, select, point {a point} other {a comma}} for decimals.',
    { text, mark: markName },
  );
}

/**
 * Writes a number so that {@link parseNumber} reads the same one: plain digits, never a power of
 * ten, no marks between thousands.
 */
export function writeNumber(value: number, mark: DecimalMark): string {
  if (!Number.isFinite(value)) throw new RangeError(`Only finite numbers are written: ${value}`);
  const [mantissa = '', power] = String(value === 0 ? 0 : value).split('e');
  const plain = power === undefined ? mantissa : withoutPower(mantissa, Number(power));
  return mark === '.' ? plain : plain.replace('.', ',');
}

function withoutPower(mantissa: string, power: number): string {
  const sign = mantissa.startsWith('-') ? '-' : '';
  const [whole = '', decimals = ''] = mantissa.replace('-', '').split('.');
  if (power < 0) return `${sign}0.${'0'.repeat(-power - whole.length)}${whole}${decimals}`;
  return `${sign}${whole}${decimals.padEnd(power, '0')}`;
}
