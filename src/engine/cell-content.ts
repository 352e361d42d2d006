import { Template } from './template.ts';

/**
 * What is put into a cell of the calculating engine: nothing, a number, TRUE or FALSE, text that is marked as
 * text (so that `0012` and `1E5` stay as they are), or a formula.
 */
export type CellContent = null | number | boolean | MarkedText | Template;

/** Text with the apostrophe in front that keeps the calculating engine from guessing at it. */
export type MarkedText = `'${string}`;

export function markedText(text: string): MarkedText | null {
  return text === '' ? null : `'${text}`;
}

/** A finite number, or nothing. */
export function finiteNumber(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}

/** As the calculating engine takes it. */
export function rawContent(content: CellContent, slot: number): null | number | boolean | string {
  return content instanceof Template ? content.at(slot) : content;
}
