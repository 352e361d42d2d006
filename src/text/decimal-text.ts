import { type Fault, fault } from '../../shared/value.ts';
import { say } from './say.ts';

/** How a person writes decimals. The notebook always shows which one holds. */
export type DecimalMark = '.' | ',';

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
        '"{trimmed}" has more digits than a number can keep. If it is a tag, put it in the tag column.',
        { trimmed },
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
  const markWord = mark === '.' ? say('a point') : say('a comma');
  const otherWord = mark === '.' ? say('a comma') : say('a point');
  if (/^[-−]?\d{1,3}(?:[.,]\d{3})+$/.test(text) && text.includes(other)) {
    const together = text.replace(/[.,]/g, '');
    const decimal =
      text.split(other).length === 2
        ? say(', or {replace}', { replace: text.replace(other, mark) })
        : '';
    return say('"{text}" can be read in two ways. Type {together}{decimal}.', {
      text,
      together,
      decimal,
    });
  }
  if (new RegExp(`^[-−]?\\d+\\${other}\\d+$`).test(text)) {
    return say(
      '"{text}" has {otherWord}, but the decimal mark here is {markWord}. Type {replace}.',
      { text, otherWord, markWord, replace: text.replace(other, mark) },
    );
  }
  if (/^[-−]?\d+[.,]$/.test(text)) {
    return say(
      '"{text}" ends with its decimal mark. Type {slice}, or the digits that are missing.',
      { text, slice: text.slice(0, -1) },
    );
  }
  if (/^[-−]?[\d.,]+e[+-]?\d+$/i.test(text)) {
    return say('"{text}" is written with a power of ten. Type the number in plain digits.', {
      text,
    });
  }
  if (/^\+\d/.test(text))
    return say('"{text}" begins with a plus sign. Type {slice}.', { text, slice: text.slice(1) });
  if (/^\d[\d\s'’.,]*\d$/.test(text)) {
    return say(
      '"{text}" has marks between its digits. Type them together, with {markWord} only for decimals.',
      { text, markWord },
    );
  }
  if (/^[-−]?[\d.,]+\s*\?+$/.test(text)) {
    return say('"{text}" is in doubt. Take the question mark away once you are sure.', { text });
  }
  return say('"{text}" is not a number. Type plain digits, with {markWord} for decimals.', {
    text,
    markWord,
  });
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
