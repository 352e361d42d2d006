import type { Column } from '../shared/notebook.ts';
import type { Stamp } from '../shared/cell.ts';
import type { Reading } from '../shared/reading.ts';
import { isFault, type Value } from '../shared/value.ts';
import { animalOf, columnByKey, columnOf, dayOf, markOf, readingOf } from '../src/notebook/read.ts';
import { toShown } from '../src/engine/stored-formula.ts';
import type { Session } from '../src/session/session.ts';
import { areaWords, cupState, mainCounts, statusOf } from './cup-state.ts';
import { dayWords } from '../src/text/day-words.ts';
import { figureText } from './figure-text.ts';
import type { Place } from './grid-place.ts';
import { say } from '../src/text/say.ts';
import { typedShown } from './cell-words.ts';
import { statusLabel } from '../src/text/typed-words.ts';

/** What the line above the counts says of the cell that has the focus. */
export interface BarWords {
  readonly tag: string;
  /** `19 July · epg` */
  readonly at: string;
  /** The formula of a worked-out column in current names; null for typed ones. */
  readonly formula: string | null;
  /** What was typed, exactly; null when nothing is or the column is worked out. */
  readonly typed: string | null;
  /** Where the figure comes from, or when it was typed, piece by piece. */
  readonly why: readonly string[];
  /** Something is wrong with the cell: why, and what to do. */
  readonly fault: string | null;
}

/**
 * @param time writes a moment in the person's own way and zone; handed in, since only the screen
 *   knows them.
 */
export function barWords(
  session: Session,
  place: Place,
  time: (ms: number) => string,
): BarWords | null {
  const { notebook } = session;
  const column = columnOf(notebook, place.column);
  const animal = animalOf(notebook, place.row);
  const day = dayOf(notebook, place.day);
  if (!column || !animal || !day) return null;
  const year = session.openDay?.slice(0, 4);
  const at = `${dayWords(day, 'long', year)} · ${column.label ?? column.key}`;
  const reading = readingOf(notebook, place.day, place.row, place.column);
  const formula = column.kind === 'formula' ? toShown(notebook, column.formula ?? '') : null;
  const isOpen = place.day === session.openDay;
  const base = {
    tag: animal.tag,
    at,
    formula,
    typed: reading ? typedShown(column, reading) : null,
  };
  if (reading) {
    const stamp = notebook.readings[place.day]?.[place.row]?.[place.column]?.[0]?.[1];
    const fault = reading.kind === 'fault' ? reading.reason : null;
    return {
      ...base,
      why: [...typedWhen(stamp, day.countedBy, time), ...scoreWords(column, reading)],
      fault,
    };
  }
  if (column.kind === 'outcome') return { ...base, why: [say('from your criteria')], fault: null };
  if (formula === null) return { ...base, why: column.help ? [column.help] : [], fault: null };
  if (!isOpen)
    return { ...base, why: [say('open that day to see where it comes from')], fault: null };
  const value = session.engine.value(place.row, place.column);
  if (isFault(value)) return { ...base, why: [], fault: value.sentence };
  const why = column.key === 'epg' ? epgWhy(session, place, value) : sumWhy(session, place, column);
  return { ...base, why, fault: null };
}

function typedWhen(
  stamp: Stamp | undefined,
  countedBy: string | undefined,
  time: (ms: number) => string,
): readonly string[] {
  // Moments before 2000 are those of templates and the demo, which no one typed.
  const when =
    stamp && stamp[0] > 946_684_800_000 ? [say('typed {time}', { time: time(stamp[0]) })] : [];
  return countedBy ? [...when, say('counted by {person}', { person: countedBy })] : when;
}

function scoreWords(column: Column, reading: Reading): readonly string[] {
  if (column.kind !== 'score' || !column.words || reading.kind !== 'number') return [];
  const at = Math.round((reading.value - (column.low ?? 1)) / (column.step ?? 1));
  const word = column.words[at];
  return word === undefined ? [] : [word];
}

/** `31 eggs × 50 = 1,550`, limits, chambers, and what was weighed and poured. */
function epgWhy(session: Session, place: Place, value: Value): readonly string[] {
  const { notebook } = session;
  const mark = markOf(notebook);
  const number = (key: string): number | null => {
    const column = columnByKey(notebook, key);
    const known = column ? session.engine.value(place.row, column.id) : null;
    return typeof known === 'number' ? known : null;
  };
  const show = (n: number, decimals?: number): string => figureText(n, decimals, mark);
  const cup = cupState(notebook, place.day, place.row);
  const status = statusOf(notebook, place.day, place.row);
  if (cup.isOut)
    return [say('{status}: counts of this cup enter no figure', { status: statusLabel(status) })];
  if (typeof value !== 'number') {
    if (cup.onlySoFar !== null && session.typingRow === place.row)
      return [
        say('{chamber} only so far: it counts once you leave the row', {
          chamber: cup.onlySoFar,
        }),
      ];
    return [cup.isBegun ? say('no epg from what stands here') : say('not counted yet')];
  }
  const parts: string[] = [];
  const [eggs, factor] = [number('eggs'), number('factor')];
  if (eggs !== null && factor !== null)
    parts.push(
      say('{eggs} {n, plural, one {egg} other {eggs}} × {factor} = {epg}', {
        eggs: show(eggs),
        n: eggs,
        factor: show(factor),
        epg: show(value, 0),
      }),
    );
  const [low, high] = [number('epg_low'), number('epg_high')];
  if (eggs === 0 && factor !== null)
    // One-sided 95 % limit for no egg seen: −ln(0.05) = 3.0 eggs (exact Poisson, Garwood 1936).
    parts.push(
      say('no egg seen: probably under {figure} epg, not free of worms', {
        figure: show(3 * factor, 0),
      }),
    );
  else if (low !== null && high !== null)
    parts.push(say('95 % limits {low} to {high}', { low: show(low, 0), high: show(high, 0) }));
  const all = mainCounts(notebook).length;
  if (cup.areas) parts.push(areaWords(cup.areas, mark));
  else if (all > 0) parts.push(areaWords({ counted: all, all }, mark));
  const [grams, fluid] = [number('grams'), number('fluid')];
  if (grams !== null && fluid !== null)
    parts.push(say('{grams} g in {fluid} mL', { grams: show(grams), fluid: show(fluid) }));
  return parts;
}

/** Any other formula: the same with the values used, and what it gives. */
function sumWhy(session: Session, place: Place, column: Column): readonly string[] {
  const explained = session.engine.explain(place.row, place.column);
  if (!explained) return [];
  const mark = markOf(session.notebook);
  const { value } = explained;
  if (value === null || value === '') {
    const missing = explained.inputs.filter((input) => input.value === null).map(({ key }) => key);
    return [
      missing.length > 0
        ? say('no answer: {missing} missing', { missing: missing.join(', ') })
        : say('no answer'),
    ];
  }
  const shown =
    typeof value === 'number'
      ? figureText(value, column.decimals, mark)
      : isFault(value)
        ? value.sentence
        : String(value);
  return [`${explained.withValues} = ${shown}`];
}
