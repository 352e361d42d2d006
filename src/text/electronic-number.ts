/** The 12-digit part of an electronic number is 38 bits wide: at most 2^38 − 1 (ISO 11784). */
export const largestAnimalCode = 274_877_906_943;

/** Marks that people, readers and spreadsheets put between the digits of a long number. */
const betweenDigits = /[\s.,'’_-]/g;

/**
 * The one 15-digit form of an electronic animal number, or `null` where the text is none.
 *
 * ISO 11784 gives a transponder 64 bits: 1 says that it is an animal's, 14 are for retagging and
 * kept free, 1 says whether a data block follows, 10 are the country or maker (three digits), 38 the
 * animal (twelve digits). Readers print these forms, all read here as `982000123456789`:
 *
 * - `982000123456789`, `982 000123456789`, `982-000123456789`, `982 000 123 456 789`
 * - `0982000123456789`: the country in four digits
 * - `A 00000 0 982 000123456789` or `1 00000 0 982…`: the flags written out
 * - `8000F580075BCD15`: the 64 bits in hexadecimal
 * - `982000123456789.0`: as written by programs that took it for a number with decimals
 *
 * @see ISO 11784:1996 and ISO 11785:1996, radio frequency identification of animals: code structure
 *   (the widths of the fields are given from memory).
 */
export function electronicNumber(typed: string): string | null {
  const text = typed.trim().replace(/^=?"(.*)"$/, '$1');
  return fromDigits(text) ?? fromHexadecimal(text);
}

function fromDigits(text: string): string | null {
  const digits = text.replace(/^(\d{15})[.,]0{1,2}$/, '$1');
  if (!isGrouped(digits)) return null;
  const bare = digits.replace(betweenDigits, '').toUpperCase();
  const parts = /^(?:[A1]\d{5}[01])?0?(\d{3})(\d{12})$/.exec(bare);
  const [, country, animal] = parts ?? [];
  if (country === undefined || animal === undefined) return null;
  return isCountry(Number(country)) && Number(animal) <= largestAnimalCode
    ? country + animal
    : null;
}

/** Begins with a digit or the animal flag, and no two marks stand side by side. */
function isGrouped(text: string): boolean {
  return /^(?:A\s?)?\d+(?:[\s.,'’_-]\d+)*$/i.test(text.replace(/\s+/g, ' '));
}

function fromHexadecimal(text: string): string | null {
  const bare = text.replace(/^0x/i, '').replace(/[\s-]/g, '');
  if (!/^[89A-F][0-9A-F]{15}$/i.test(bare)) return null;
  // Sixteen plain digits are taken for hexadecimal only when the free bits are 0, as readers send.
  if (/^\d+$/.test(bare) && !/^800[01]/.test(bare)) return null;
  const bits = BigInt(`0x${bare}`);
  const country = Number((bits >> 38n) & 0x3ffn);
  const animal = bits & BigInt(largestAnimalCode);
  if (!isCountry(country)) return null;
  return String(country).padStart(3, '0') + String(animal).padStart(12, '0');
}

/** 1–899 are countries (ISO 3166), 900–998 makers and the shared code, 999 is for trials. */
function isCountry(code: number): boolean {
  return code >= 1 && code <= 999;
}
