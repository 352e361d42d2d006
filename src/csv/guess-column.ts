import { isFault } from '../../shared/value.ts';
import { dayId } from '../text/day-id.ts';
import type { ColumnValues } from './column-values.ts';
import { headingDate, type HeadingDate } from './heading-date.ts';
import { type HeadingMeaning, headingMeaning, headingUnit, plainHeading } from './heading-words.ts';
import type { HeadingDay, KnownColumn, Role } from './role.ts';
import { say } from '../text/say.ts';

/** A first guess, from one heading and its values alone. `rank` 0 is the surest heading for it. */
export interface Guess {
  readonly role: Role;
  readonly sure: boolean;
  readonly rank: number;
}

/** Guesses a column by its heading; by its values where the heading says nothing. */
export function guessColumn(
  heading: string,
  values: ColumnValues,
  known: readonly KnownColumn[],
): Guess {
  const text = heading.trim();
  const byName = knownColumn(text, known);
  const meaning = headingMeaning(text);
  if (byName && !['weight', 'note', 'count', 'epg'].includes(meaning?.meaning ?? '')) {
    return { role: columnRole(byName, null), sure: true, rank: 0 };
  }
  if (meaning) return byMeaning(text, meaning.meaning, meaning.rank, null);
  const dated = headingDate(text);
  if (dated) return byDate(dated, values, known);
  if (headingUnit(text) !== null && values.numberShare > 0.5) {
    return { role: { role: 'weight', unit: headingUnit(text), day: null }, sure: false, rank: 5 };
  }
  return byValues(text, values);
}

function knownColumn(text: string, known: readonly KnownColumn[]): KnownColumn | undefined {
  const lower = text.normalize('NFC').toLowerCase();
  return (
    known.find((column) => column.key === lower) ??
    known.find((column) => plainHeading(column.label ?? '') === plainHeading(text) && text !== '')
  );
}

function columnRole(column: KnownColumn, day: HeadingDay | null): Role {
  return column.derived
    ? { role: 'ignored', why: say('the notebook works this out itself') }
    : { role: 'column', key: column.key, day };
}

function byMeaning(
  heading: string,
  meaning: HeadingMeaning,
  rank: number,
  day: HeadingDay | null,
): Guess {
  switch (meaning) {
    case 'weight':
      return { role: { role: 'weight', unit: headingUnit(heading), day }, sure: true, rank };
    case 'count':
    case 'epg':
      return { role: { role: meaning, day }, sure: true, rank };
    case 'date':
    case 'born':
      return { role: { role: meaning, order: null }, sure: true, rank };
    default:
      return { role: { role: meaning }, sure: true, rank };
  }
}

function byDate(dated: HeadingDate, values: ColumnValues, known: readonly KnownColumn[]): Guess {
  const bare = headingDay(dated, '');
  const { rest } = dated;
  if (rest !== '') {
    const column = knownColumn(rest, known);
    const meaning = headingMeaning(rest)?.meaning;
    if (meaning === 'weight' || meaning === 'count' || meaning === 'epg') {
      return byMeaning(rest, meaning, 0, bare);
    }
    if (column) return { role: columnRole(column, bare), sure: true, rank: 0 };
  }
  const day = rest === '' ? bare : headingDay(dated, rest);
  if (day.day === null && dated.readings.length === 1) {
    return {
      role: { role: 'ignored', why: say('"{rest}" cannot name a sampling', { rest }) },
      sure: false,
      rank: 9,
    };
  }
  if (values.hasDecimals && !values.isLikeEpg) {
    return { role: { role: 'weight', unit: null, day }, sure: false, rank: 0 };
  }
  return { role: { role: values.isLikeEpg ? 'epg' : 'count', day }, sure: false, rank: 0 };
}

function headingDay({ readings }: HeadingDate, label: string): HeadingDay {
  const [first] = readings;
  const id = first && readings.length === 1 ? dayId(first.date, label) : null;
  return { readings, label, day: id === null || isFault(id) ? null : id };
}

function byValues(heading: string, values: ColumnValues): Guess {
  const guess = (role: Role): Guess => ({ role, sure: false, rank: 6 });
  if (values.filled === 0) {
    return { role: { role: 'ignored', why: say('the column is empty') }, sure: true, rank: 9 };
  }
  if (values.electronicShare > 0.8) return guess({ role: 'electronic' });
  if (values.dateShare > 0.8) return guess({ role: 'date', order: null });
  if (values.timeShare > 0.8) return guess({ role: 'time' });
  if (values.unitShare > 0.5) return guess({ role: 'weight', unit: null, day: null });
  if (heading !== '') {
    return {
      role: { role: 'ignored', why: say('the heading is not known') },
      sure: false,
      rank: 9,
    };
  }
  // Files without headings come from readers and scales; a day's counts hardly ever start at 10.
  if (values.numberShare > 0.5 && (values.hasDecimals || values.least >= 10)) {
    return guess({ role: 'weight', unit: null, day: null });
  }
  if (values.numberShare > 0.5) return guess({ role: 'count', day: null });
  return { role: { role: 'ignored', why: say('there is no heading') }, sure: false, rank: 9 };
}
