import { dateReadings } from '../text/date-reading.ts';
import { electronicNumber } from '../text/electronic-number.ts';
import { isDestroyedNumber } from '../text/tag.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import type { Row } from './table.ts';

/** What the cells of one column look like. Shares are of the cells that hold something. */
export interface ColumnValues {
  readonly filled: number;
  readonly distinct: number;
  readonly electronicShare: number;
  readonly dateShare: number;
  readonly timeShare: number;
  readonly numberShare: number;
  readonly hasDecimals: boolean;
  /** Least number, 0 where there is none. */
  readonly least: number;
  /** Every number above 0 is 10 or more and a multiple of 5, as eggs × factor mostly is. */
  readonly isLikeEpg: boolean;
  /** Numbers followed by kg or lb. */
  readonly unitShare: number;
}

const sampleRows = 500;

/** Looks at the first rows of a column. */
export function columnValues(rows: readonly Row[], column: number): ColumnValues {
  const texts = rows
    .slice(0, sampleRows)
    // A quote mark without its fellow does not make a word of a number.
    .map((row) => row.cells[column]?.trim().replace(/^"|"$/g, '') ?? '')
    .filter((text) => text !== '');
  const share = (test: (text: string) => boolean): number =>
    texts.length === 0 ? 0 : texts.filter(test).length / texts.length;
  const numbers = texts.filter(isNumber).map((text) => Number(text.replace(',', '.')));
  const some = numbers.filter((number) => number > 0);
  return {
    filled: texts.length,
    distinct: new Set(texts).size,
    electronicShare: share((text) => electronicNumber(text) !== null || isDestroyedNumber(text)),
    dateShare: share((text) => dateReadings(text).length > 0),
    timeShare: share((text) => /^\d{1,2}:\d{2}(?::\d{2})?\s?(?:[ap]m)?$/i.test(text)),
    numberShare: share((text) => isNumber(text) || /^[<>]\s?\d+$/.test(text)),
    hasDecimals: texts.some((text) => isNumber(text) && /[.,]/.test(text)),
    least: numbers.length === 0 ? 0 : Math.min(...numbers),
    isLikeEpg: some.length > 0 && some.every((number) => number >= 10 && number % 5 === 0),
    unitShare: share((text) => /^\d+(?:[.,]\d+)?\s?(?:kg|kgs|lb|lbs)$/i.test(text)),
  };
}

function isNumber(text: string): boolean {
  return /^[-−]?\d+(?:[.,]\d+)?$/.test(text) && text.length < 15;
}

/** The decimal mark that the numbers of a table use, or `null` where none has decimals. */
export function findDecimalMark(rows: readonly Row[]): DecimalMark | null {
  let points = 0;
  let commas = 0;
  for (const { cells } of rows.slice(0, sampleRows)) {
    for (const cell of cells) {
      const mark = /^\s*[-−]?\d+([.,])\d+(?:\s?(?:kg|kgs|lb|lbs))?\s*$/i.exec(cell)?.[1];
      if (mark === '.') points++;
      if (mark === ',') commas++;
    }
  }
  if (points === 0 && commas === 0) return null;
  return commas > points ? ',' : '.';
}
