import type { Column, Notebook } from '../shared/notebook.ts';
import type { Reading, WeightUnit } from '../shared/reading.ts';
import type { DayId, RowId } from '../shared/ref.ts';
import { isFault, type Value } from '../shared/value.ts';
import { otherValues } from '../src/notebook/clashes.ts';
import { readingOf } from '../src/notebook/read.ts';
import type { Outcome } from '../src/notebook/outcome.ts';
import { kgPerLb } from '../src/text/parse-reading.ts';
import { boundEpg } from './bound-epg.ts';
import { outcomeWords, tickWords, typedShown } from './cell-words.ts';
import { statusLabel } from '../src/text/typed-words.ts';
import { areaWords, type CupState } from './cup-state.ts';
import { figureText } from './figure-text.ts';
import { percentText } from './sureness-words.ts';
import { say } from '../src/text/say.ts';

/** What stands in a cell, and how it looks. */
export interface CellText {
  readonly text: string;
  readonly look: 'plain' | 'soft' | 'fault' | 'struck' | 'over' | 'open';
  readonly align: 'start' | 'end';
  /** A small second line. */
  readonly note?: string;
  /** The same in fewer words, for a narrow cell. */
  readonly shortNote?: string;
  /** For screen readers, in place of the text. */
  readonly spoken?: string;
  /** Why the cell is as it is: of a fault, a lone chamber, an outcome. */
  readonly reason?: string;
  /** 0 to 1: how dark its shade is. */
  readonly heat?: number;
}

/** What a cell is drawn from; one for each row that is drawn. */
export interface CellSource {
  readonly notebook: Notebook;
  readonly day: DayId;
  readonly row: RowId;
  readonly decimalMark: '.' | ',';
  readonly weightUnit: WeightUnit;
  readonly cup: CupState;
  /** The row is being typed, so that a lone chamber is held back. */
  readonly isTyping: boolean;
  readonly outcome: () => Outcome | null;
  /** The cell as formulas see it. */
  readonly value: (column: Column) => Value;
  readonly valueOfKey: (key: string) => Value;
}

const dash = '–';

/** What is said without a figure in it; looked up once, since every cell drawn may need it. */
const said = {
  typed: say('typed'),
  nothing: say('nothing'),
  empty: say('empty'),
  error: say('error'),
  tooManyReason: say('Too many to count: kept as typed, in no mean.'),
  boundReason: say('A bound, kept as typed: it can settle a criterion but enters no mean.'),
  copiesDiffer: say('two copies differ'),
  notCounted: say('not counted'),
  notSeen: say('not seen'),
  notScored: say('not scored'),
  notWeighed: say('not weighed'),
  notKnown: say('not known'),
  oneChamber: say('It counts as one chamber once you leave the row.'),
  fromBound: say('From a bound typed as a count: it enters no mean.'),
  tooMany: say('too many'),
  tooManyEggs: say('Too many eggs to count: in no mean.'),
  notSettled: say('not settled by the bounds'),
  below: say('below your criteria'),
  belowReason: say('Below your criteria.'),
} as const;

export function cellText(source: CellSource, column: Column): CellText {
  if (column.kind === 'outcome') return outcomeText(source.outcome(), source.cup.isBegun);
  const reading = readingOf(source.notebook, source.day, source.row, column.id);
  const typed = reading && readingText(source, column, reading);
  if (typed) return withClash(source, column, typed);
  // One copy may have cleared what the other typed.
  if (column.kind !== 'formula') return withClash(source, column, blankText(column));
  return derivedText(source, column);
}

function alignOf(column: Column): 'start' | 'end' {
  return column.kind === 'text' || column.kind === 'choice' ? 'start' : 'end';
}

function readingText(source: CellSource, column: Column, reading: Reading): CellText {
  const align = alignOf(column);
  const shade = column.kind === 'formula' ? { note: said.typed } : {};
  switch (reading.kind) {
    case 'fault':
      return { text: reading.text, look: 'fault', align, reason: reading.reason };
    case 'tick':
      return reading.value
        ? { text: tickWords.yes, look: 'plain', align }
        : { text: tickWords.no, look: 'soft', align };
    case 'text':
      return { text: typedShown(column, reading), look: 'plain', align };
    case 'number':
      if (isCount(column) && source.cup.isOut)
        return {
          text: reading.text,
          look: 'struck',
          align,
          reason: say('The cup is {status}, so this count enters no figure.', {
            status: statusLabel(source.cup.status),
          }),
        };
      if (reading.unit && reading.unit !== source.weightUnit)
        return inOtherUnit(source, column, reading.value, reading.unit, reading.text);
      return { text: reading.text, look: 'plain', align, ...shade };
    default:
      return {
        text: typedShown(column, reading),
        look: source.cup.isOut ? 'struck' : 'plain',
        align,
        reason: reading.kind === 'too-many' ? said.tooManyReason : said.boundReason,
      };
  }
}

function isCount(column: Column): boolean {
  return column.kind === 'count' || column.kind === 'part';
}

function inOtherUnit(
  source: CellSource,
  column: Column,
  value: number,
  unit: WeightUnit,
  text: string,
): CellText {
  const shown = unit === 'lb' ? value * kgPerLb : value / kgPerLb;
  return {
    text: figureText(shown, column.decimals ?? 1, source.decimalMark),
    look: 'plain',
    align: 'end',
    reason: say('Typed as {weight} {unit}.', {
      weight: text.replace(/\s*(kgs?|lbs?)$/i, ''),
      unit,
    }),
  };
}

function withClash(source: CellSource, column: Column, text: CellText): CellText {
  const others = otherValues(source.notebook.readings[source.day]?.[source.row]?.[column.id]);
  if (others.length === 0) return text;
  const words = others
    .map((other) => (other === null ? said.nothing : typedShown(column, other)))
    .join(', ');
  return {
    ...text,
    note: said.copiesDiffer,
    reason: say(
      'Another copy of this notebook has {words} here. Type the right one to settle it.',
      { words },
    ),
  };
}

function blankText(column: Column): CellText {
  const align = alignOf(column);
  if (column.kind === 'count') return { text: dash, look: 'soft', align, spoken: said.notCounted };
  if (column.kind === 'tick') return { text: '', look: 'soft', align, spoken: said.notSeen };
  if (column.kind === 'score') return { text: dash, look: 'soft', align, spoken: said.notScored };
  if (column.kind === 'weight') return { text: dash, look: 'soft', align, spoken: said.notWeighed };
  return { text: '', look: 'soft', align, spoken: said.empty };
}

function derivedText(source: CellSource, column: Column): CellText {
  const value = source.value(column);
  if (column.key === 'epg') {
    if (source.cup.isOut) {
      const status = statusLabel(source.cup.status);
      return { text: dash, look: 'soft', align: 'end', spoken: status, note: status };
    }
    if (source.isTyping && source.cup.onlySoFar !== null) {
      const note = say('{chamber} only so far', { chamber: source.cup.onlySoFar });
      return {
        text: dash,
        look: 'soft',
        align: 'end',
        note,
        spoken: note,
        reason: said.oneChamber,
      };
    }
    const bound = boundText(source);
    if (bound) return bound;
  }
  const text = valueText(value, column, source.decimalMark);
  if (column.key === 'epg' && source.cup.areas && typeof value === 'number') {
    const { counted, all } = source.cup.areas;
    const chambers = areaWords(source.cup.areas, source.decimalMark);
    const reason = say('From {chambers}, so less sure than a full count.', { chambers });
    const noted = { ...text, note: chambers, reason };
    if (Number.isInteger(counted)) return noted;
    const share = percentText(counted / all, source.decimalMark);
    return { ...noted, shortNote: say('{share} counted', { share }) };
  }
  return text;
}

/** A derived value by itself: for the open day's figures and for those of other days. */
export function valueText(value: Value, column: Column, mark: '.' | ','): CellText {
  if (value === null || value === '')
    return { text: dash, look: 'soft', align: 'end', spoken: missingWords(column) };
  if (isFault(value))
    return { text: '!', look: 'fault', align: 'end', spoken: said.error, reason: value.sentence };
  if (typeof value === 'boolean')
    return { text: value ? tickWords.yes : tickWords.no, look: 'plain', align: 'end' };
  if (typeof value === 'string') return { text: value, look: 'plain', align: 'start' };
  return {
    text: figureText(value, column.decimals ?? usualDecimals(column), mark),
    look: 'plain',
    align: 'end',
    ...(isShaded(column) ? { heat: heatOf(value) } : {}),
  };
}

function missingWords(column: Column): string {
  return isShaded(column) ? said.notCounted : said.notKnown;
}

function isShaded(column: Column): boolean {
  return column.shaded ?? column.key === 'epg';
}

function usualDecimals(column: Column): number | undefined {
  return isShaded(column) || column.key.startsWith('epg') ? 0 : undefined;
}

/**
 * Shade of a figure, 0 to 1: by its logarithm, since counts run from tens to tens of thousands. None
 * at 0, half way at 500, full from 5,000 on.
 */
export function heatOf(value: number): number {
  if (value <= 0) return 0;
  return Math.min(1, Math.log10(1 + value / 55) / Math.log10(1 + 5000 / 55));
}

function boundText(source: CellSource): CellText | null {
  const bound = boundEpg(source.notebook, source.day, source.row, source.valueOfKey);
  if (!bound) return null;
  const plain = { look: 'plain', align: 'end' } as const;
  const reason = said.fromBound;
  if (bound.is === 'too many')
    return { ...plain, text: said.tooMany, reason: said.tooManyEggs, heat: 1 };
  if (bound.is === 'not settled' || bound.epg === null)
    return { ...plain, text: dash, look: 'soft', spoken: said.notSettled, reason };
  const figure = figureText(bound.epg, 0, source.decimalMark);
  const heat = bound.is === 'at least' ? { heat: heatOf(bound.epg) } : {};
  const text =
    bound.is === 'at least'
      ? say('at least {figure}', { figure })
      : say('at most {figure}', { figure });
  return { ...plain, text, reason, ...heat };
}

/** The outcome in words: a frame only where a person has to look. */
export function outcomeText(outcome: Outcome | null, isBegun: boolean): CellText {
  if (!outcome) return { text: '', look: 'soft', align: 'start' };
  if (outcome.kind === 'over') {
    const reasons = outcome.reasons.join(', ');
    return {
      text: reasons,
      look: 'over',
      align: 'start',
      spoken: say('over your criteria: {reasons}', { reasons }),
      reason: say('Over your criteria: {reasons}.', { reasons }),
    };
  }
  if (outcome.kind === 'not enough known') {
    const lacking = outcome.lacking.map((what) => say('no {what}', { what })).join(', ');
    return {
      text: outcomeWords['not enough known'],
      look: isBegun ? 'open' : 'soft',
      align: 'start',
      spoken:
        lacking === ''
          ? outcomeWords['not enough known']
          : say('not enough known: {lacking}', { lacking }),
      reason:
        lacking === ''
          ? say('Not enough known.')
          : say('Not enough known: {lacking}.', { lacking }),
    };
  }
  const unlooked = outcome.notLooked.join(', ');
  return {
    text: outcomeWords.below,
    look: 'soft',
    align: 'start',
    spoken: said.below,
    reason:
      unlooked === ''
        ? said.belowReason
        : say('Below your criteria; not looked at: {unlooked}.', { unlooked }),
  };
}
