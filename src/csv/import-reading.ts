import type { Column } from '../../shared/notebook.ts';
import type { Reading, WeightUnit } from '../../shared/reading.ts';
import { isFault } from '../../shared/value.ts';
import { parseNumber, type DecimalMark } from '../text/decimal-text.ts';
import { parseCount, parseReading } from '../text/parse-reading.ts';
import { say } from '../text/say.ts';

/** How numbers are written in the list, and in the notebook that it is read into. */
export interface Marks {
  readonly list: DecimalMark;
  readonly notebook: DecimalMark;
}

/**
 * Reads a cell of a list as what a person would type in that column of the notebook. A number keeps its
 * digits and gets the notebook's decimal mark; whatever cannot be read stays as it is, with a reason.
 */
export function readCell(
  column: Column,
  text: string,
  marks: Marks,
  weightUnit: WeightUnit,
): Reading | null {
  const read = parseReading(column, text, { decimalMark: marks.list, weightUnit });
  if (read?.kind !== 'number' || marks.list === marks.notebook) return read;
  return { ...read, text: read.text.replace(marks.list, marks.notebook) };
}

/**
 * Eggs per gram taken back to the eggs seen. What is no whole number of eggs at that factor stays as
 * typed and is no count.
 */
export function eggsFromEpg(text: string, factor: number, mark: DecimalMark): Reading | null {
  const typed = text.trim();
  if (typed === '') return null;
  const epg = parseNumber(typed, mark);
  if (isFault(epg)) {
    const read = parseCount(typed);
    if (read.kind === 'too-many' || read.kind === 'fault') return read;
    const reason = say('"{typed}" is a bound in eggs per gram, not a count. Kept as reported.', {
      typed,
    });
    return { kind: 'fault', text: typed, reason };
  }
  const eggs = Math.round(epg / factor);
  if (epg < 0 || Math.abs(epg / factor - eggs) > 1e-6) {
    const reason = say(
      '{typed} epg is not a whole number of eggs at a factor of {factor}. Kept as reported.',
      { typed, factor },
    );
    return { kind: 'fault', text: typed, reason };
  }
  return parseCount(String(eggs));
}

/** Why a reading is no plain number, for a list of what to look at; `null` where there is nothing to say. */
export function remarkOf(reading: Reading): string | null {
  switch (reading.kind) {
    case 'fault':
      return reading.reason;
    case 'over':
      return say(
        '"{text}" is kept as at least {eggs, plural, one {# egg} other {# eggs}}; it enters no mean.',
        { text: reading.text, eggs: reading.value + 1 },
      );
    case 'under':
      return say(
        '"{text}" is kept as at most {eggs, plural, one {# egg} other {# eggs}}; it enters no mean.',
        { text: reading.text, eggs: reading.value - 1 },
      );
    case 'too-many':
      return say('"{text}" is kept as too many to count; it enters no mean.', {
        text: reading.text,
      });
    default:
      return null;
  }
}
