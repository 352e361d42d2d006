/**
 * A spreadsheet runs a cell that begins with one of these as a formula, also behind spaces, line
 * ends and characters that take no room, and in their wide forms.
 */
const runs = /^[\s\p{Cc}\p{Cf}]*[=+\-@＝＋－＠−]/u;
const beginsWithBreak = /^[\t\r\n]/;

const monthName = '(?:jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez)[a-zä]*';

/** What a spreadsheet turns into a number, a date, a time or a truth value when it opens a list. */
const rewritten = [
  /^\s*0\d+$/,
  /^[\s\d]{12,}$/,
  /^[\d.,]+e[+-]?\d+$/i,
  /^\d+[.,]\d*0$/,
  /^\d{1,4}([-/.])\d{1,2}(?:\1\d{1,4})?$/,
  new RegExp(`^\\d{1,4}[ .-]{0,2}${monthName}\\.?(?:[ -]?\\d{2,4})?$`, 'i'),
  new RegExp(`^${monthName}\\.?[ -]?\\d{1,4}$`, 'i'),
  /^\d{1,2}:\d{2}/,
  /^(?:true|false|wahr|falsch|vrai|faux)$/i,
  /^[\d.,]+\s?[%€$£]$|^[€$£]\s?[\d.,]+$/,
  /^\d+[.,]\d{3}(?:[.,]\d{3})*$/,
  /^\d+ \d+\/\d+$/,
];

function isRun(text: string): boolean {
  return runs.test(text) || beginsWithBreak.test(text);
}

function isRewritten(text: string): boolean {
  return rewritten.some((form) => form.test(text));
}

function withoutMarks(text: string): string {
  return text.replace(/^'+/, '');
}

/**
 * Makes a text cell safe to open in a spreadsheet: a `'` in front of what would be run as a formula.
 * Numbers are not texts and never guarded: −100 stays a number. Every guard is taken off again by
 * {@link unguarded}, so that a text comes back as it was, also one that itself begins with `'`.
 */
export function guardedText(text: string): string {
  const core = withoutMarks(text);
  const isMarked = core.length < text.length;
  return isRun(core) || (isMarked && isRewritten(core)) ? `'${text}` : text;
}

/**
 * Makes a tag safe as well: a `'` also in front of one that a spreadsheet would turn into a number,
 * a date or TRUE (`0123`, `982000123456789` to 9.82E+14, `9E5`, `3-4-26`, `1.5.2`).
 */
export function guardedTag(tag: string): string {
  const core = withoutMarks(tag);
  return isRun(core) || isRewritten(core) ? `'${tag}` : tag;
}

/** The cell without its guard. A `'` that guards nothing (`'s-Gravenland`) is part of the text. */
export function unguarded(cell: string): string {
  if (!cell.startsWith("'")) return cell;
  const core = withoutMarks(cell);
  return isRun(core) || isRewritten(core) ? cell.slice(1) : cell;
}
