import type { Animal, Notebook, Treatment } from '../../shared/notebook.ts';
import type { RowId } from '../../shared/ref.ts';
import { fault, type Fault, type Value } from '../../shared/value.ts';
import { groupOn, isPresent, presentAnimals } from '../notebook/present.ts';
import { animalsOf, columnByKey, columnsOf, dayOf, readingOf } from '../notebook/read.ts';
import type { Pair } from '../stats/paired-counts.ts';
import { daysBetween } from '../text/date.ts';
import { treatmentsOfAnimal } from './after-treatment.ts';
import { figureOf } from './figure-of.ts';
import { productName, productOf } from './product.ts';
import { wordList } from './word-list.ts';
import { dateWords } from '../text/date-words.ts';
import { statusLabel } from '../text/typed-words.ts';
import { say } from '../text/say.ts';

/** What the engine says of one row of one of the two days. */
export interface CountRow {
  readonly row: RowId;
  readonly eggs: Value;
  readonly factor: Value;
  readonly epg: Value;
}

/** Two sampling days, and the product given between them. */
export interface CheckDays {
  readonly before: string;
  readonly after: string;
  readonly product: string;
  /** Only animals in this group on the first day. */
  readonly group?: string;
}

/** An animal counted on both days with one treatment between; eggs as seen, factors in epg per egg. */
export interface CheckPair extends Pair {
  readonly animal: string;
  readonly tag: string;
  readonly treatedOn: string;
  /** Days from the treatment to the second sample. */
  readonly days: number;
}

/** An animal that is in no pair, and why. */
export interface LeftOut {
  readonly animal: string;
  readonly tag: string;
  readonly reason: string;
}

export interface CheckPairs {
  readonly pairs: readonly CheckPair[];
  readonly leftOut: readonly LeftOut[];
  /** Animals with one treatment of the product between the days, paired or not. */
  readonly treated: number;
}

/** What is wrong with the choice of days and product; `null` when a check can be made. */
export function checkDaysFault(notebook: Notebook, days: CheckDays): Fault | null {
  const before = dayOf(notebook, days.before);
  const after = dayOf(notebook, days.after);
  if (!before?.date || !after?.date || before.removed === true || after.removed === true)
    return fault('no-day', say('Choose two sampling days of this notebook.'));
  if (after.date < before.date)
    return fault(
      'days-reversed',
      say('The second day ({second}) is before the first ({first}). Change them round.', {
        second: dateWords(after.date),
        first: dateWords(before.date),
      }),
    );
  if (after.date === before.date)
    return fault(
      'same-day',
      say('Both samplings are of {date}. The second one is taken some days after the treatment.', {
        date: dateWords(before.date),
      }),
    );
  if (!productOf(notebook, days.product)?.name)
    return fault('no-product', say('Choose the product that was given between the two days.'));
  return null;
}

/**
 * The pairs of a dewormer check, and everyone else with the reason.
 *
 * A pair is an animal counted on both days that had exactly one logged treatment, of that product, after the
 * first count and before the second. A treatment on the first day counts as after its count (sample first,
 * then treat); one on the second day is no longer between. All pairs of a selectively treated group
 * would show a working drug as failing, because most of them were never treated.
 */
export function checkPairs(
  notebook: Notebook,
  days: CheckDays,
  rowsBefore: readonly CountRow[],
  rowsAfter: readonly CountRow[],
): CheckPairs {
  const first = new Map(rowsBefore.map((row) => [row.row, row]));
  const second = new Map(rowsAfter.map((row) => [row.row, row]));
  const pairs: CheckPair[] = [];
  const leftOut: LeftOut[] = [];
  let treated = 0;
  for (const animal of animalsInCheck(notebook, days)) {
    const treatment = treatmentBetween(notebook, days, animal);
    const out = (reason: string): void => {
      leftOut.push({ animal: animal.id, tag: animal.tag, reason });
    };
    if (typeof treatment !== 'string') treated += 1;
    const x = countOf(notebook, days.before, animal, first.get(animal.id));
    const y = countOf(notebook, days.after, animal, second.get(animal.id));
    if (typeof treatment === 'string') out(treatment);
    else if (typeof x === 'string')
      out(typeof y === 'string' && y !== x ? say('{reason}, {other}', { reason: x, other: y }) : x);
    else if (typeof y === 'string') out(y);
    else
      pairs.push({
        animal: animal.id,
        tag: animal.tag,
        before: x.eggs,
        after: y.eggs,
        factorBefore: x.factor,
        factorAfter: y.factor,
        treatedOn: treatment.date ?? '',
        days: dayCount(treatment.date ?? '', dayOf(notebook, days.after)?.date ?? ''),
      });
  }
  return { pairs, leftOut, treated };
}

/** Everyone present on either day, of the group asked for. */
function animalsInCheck(notebook: Notebook, days: CheckDays): readonly Animal[] {
  const here = new Set(
    [days.before, days.after].flatMap((day) => presentAnimals(notebook, day).map(({ id }) => id)),
  );
  const date = dayOf(notebook, days.before)?.date ?? '';
  return animalsOf(notebook).filter(
    ({ id }) =>
      here.has(id) && (days.group === undefined || groupOn(notebook, id, date) === days.group),
  );
}

/** The treatments of an animal after the first count and before the second. */
export function treatmentsBetween(
  notebook: Notebook,
  days: Pick<CheckDays, 'before' | 'after'>,
  animalId: string,
): readonly Treatment[] {
  const from = dayOf(notebook, days.before)?.date ?? '';
  const to = dayOf(notebook, days.after)?.date ?? '';
  return treatmentsOfAnimal(notebook, animalId).filter(
    ({ date }) => date !== undefined && date >= from && date < to,
  );
}

/** The one treatment that makes a pair, or why there is none. */
function treatmentBetween(notebook: Notebook, days: CheckDays, animal: Animal): Treatment | string {
  const between = treatmentsBetween(notebook, days, animal.id);
  const [only] = between;
  const name = productName(notebook, days.product);
  if (!only) {
    const after = dayOf(notebook, days.after)?.date;
    const isLate = treatmentsOfAnimal(notebook, animal.id).some(({ date }) => date === after);
    return isLate
      ? say('treated only on the second day')
      : say('not treated between the two counts');
  }
  const others = between.filter(({ product }) => product !== days.product);
  if (others.length === 0)
    return between.length === 1
      ? only
      : say('treated {n} times between the two counts', { n: between.length });
  const names = wordList([...new Set(others.map(({ product }) => productName(notebook, product)))]);
  return others.length === between.length
    ? say('treated with {names}, not with {name}', { names, name })
    : say('treated with {names} as well as {name}', { names, name });
}

interface Count {
  readonly eggs: number;
  readonly factor: number;
}

/** Eggs and factor of one animal on one day, or why there are none. */
export function countOf(
  notebook: Notebook,
  dayId: string,
  animal: Animal,
  row: CountRow | undefined,
): Count | string {
  const date = dayOf(notebook, dayId)?.date ?? dayId;
  const eggs = figureOf(row?.eggs);
  const factor = figureOf(row?.factor);
  const isCounted = figureOf(row?.epg) !== null && eggs !== null && eggs >= 0;
  if (!isCounted || !Number.isInteger(eggs)) {
    if (!isPresent(notebook, dayId, animal))
      return say('not here on {date}', { date: dateWords(date) });
    return say('{why} on {date}', {
      why: whyNotCounted(notebook, dayId, animal.id),
      date: dateWords(date),
    });
  }
  return factor !== null && factor > 0
    ? { eggs, factor }
    : say('no multiplication factor on {date}', { date: dateWords(date) });
}

/** Too many to count, spoiled, in doubt, not counted: in the language spoken, a word of one's own as typed. */
function whyNotCounted(notebook: Notebook, dayId: string, animalId: string): string {
  const status = columnByKey(notebook, 'status');
  const state = status && readingOf(notebook, dayId, animalId, status.id)?.text;
  if (state && state !== 'sampled') return statusLabel(state);
  const kinds = columnsOf(notebook)
    .filter(({ kind, otherEggs }) => kind === 'count' && otherEggs !== true)
    .map(({ id }) => readingOf(notebook, dayId, animalId, id)?.kind);
  if (kinds.includes('too-many') || kinds.includes('over')) return say('too many eggs to count');
  if (kinds.includes('under')) return say('only an upper bound');
  return kinds.includes('fault') ? say('a count that cannot be read') : say('not counted');
}

function dayCount(from: string, to: string): number {
  const days = daysBetween(from, to);
  return typeof days === 'number' ? days : NaN;
}
