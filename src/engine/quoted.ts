import { ROW } from './template.ts';

/** What cannot stand between quotation marks in the calculating engine, nor in a template. */
const awkward = new RegExp(`["\\\\%${ROW}]`, 'g');

/** A text as a constant of a formula; one with quotes or backslashes in it goes in a code of its own. */
export function quoted(text: string): string {
  const plain = text.replace(
    awkward,
    (sign) => `%${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
  return plain === text ? `"${text}"` : `PLAINTEXT("${plain}")`;
}

/** The text behind the code of `quoted`. */
export function unquoted(code: string): string {
  return code.replace(/%([0-9a-f]{4})/g, (_, hex: string) =>
    String.fromCharCode(parseInt(hex, 16)),
  );
}
