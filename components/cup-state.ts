import type { Column, Notebook } from '../shared/notebook.ts';
import type { Reading } from '../shared/reading.ts';
import type { DayId, RowId } from '../shared/ref.ts';
import { partColumnOf } from '../src/notebook/lanes.ts';
import { columnByKey, columnsOf, dayOf, readingOf } from '../src/notebook/read.ts';
import type { DecimalMark } from '../src/text/decimal-text.ts';
import { say } from '../src/text/say.ts';
import { shortNumber } from '../src/treating/short-number.ts';

/** How far a cup's counting has come, in words of the bench. */
export interface CupState {
  /** The status as it is stored, empty for an ordinary cup. */
  readonly status: string;
  /** Counts typed here do not reach any figure. */
  readonly isOut: boolean;
  /** Areas counted of those the day counts: `1 of 2 chambers`; null when all or none. */
  readonly areas: { readonly counted: number; readonly all: number } | null;
  /** Label of the only chamber typed so far, while the others are blank; null otherwise. */
  readonly onlySoFar: string | null;
  /** Anything typed in a count at all. */
  readonly isBegun: boolean;
}

const mainCountsOf = new WeakMap<object, readonly Column[]>();

/** The columns of strongyle-type eggs: counts, without the further egg types. */
export function mainCounts(notebook: Notebook): readonly Column[] {
  const kept = mainCountsOf.get(notebook.columns);
  if (kept) return kept;
  const list = columnsOf(notebook).filter((c) => c.kind === 'count' && c.otherEggs !== true);
  mainCountsOf.set(notebook.columns, list);
  return list;
}

export function statusOf(notebook: Notebook, day: DayId, row: RowId): string {
  const column = columnByKey(notebook, 'status');
  return (column && readingOf(notebook, day, row, column.id)?.text) ?? '';
}

/** The status typed; where none is, a cup with some count is sampled, and one without is not. */
export function statusSeen(notebook: Notebook, day: DayId, row: RowId): string {
  const typed = statusOf(notebook, day, row);
  if (typed !== '') return typed;
  const isBegun = columnsOf(notebook).some(
    ({ id, kind }) => kind === 'count' && readingOf(notebook, day, row, id) !== undefined,
  );
  return isBegun ? 'sampled' : 'not sampled';
}

export function cupState(notebook: Notebook, day: DayId, row: RowId): CupState {
  const counts = mainCounts(notebook);
  const typed = counts.map((column) => readingOf(notebook, day, row, column.id));
  const status = statusOf(notebook, day, row);
  const begun = counts.filter((_, i) => typed[i] !== undefined);
  const read = counts.filter((_, i) => typed[i] !== undefined && typed[i].kind !== 'fault');
  const counted = areasCounted(notebook, day, row);
  const all = Math.max(dayOf(notebook, day)?.areas ?? counts.length, 0);
  const isSome = counted > 0 && counted < all * (1 - 1e-9);
  return {
    status,
    isOut: status !== '' && status !== 'sampled',
    areas: isSome ? { counted, all } : null,
    onlySoFar:
      begun.length === 1 && counts.length > 1 ? (read[0]?.label ?? read[0]?.key ?? null) : null,
    isBegun: begun.length > 0,
  };
}

/** Areas that a number stands in for, each by the part of it that was counted. */
export function areasCounted(notebook: Notebook, day: DayId, row: RowId): number {
  return mainCounts(notebook).reduce(
    (sum, column) =>
      sum +
      (isCounted(readingOf(notebook, day, row, column.id))
        ? partOf(notebook, day, row, column)
        : 0),
    0,
  );
}

function isCounted(reading: Reading | undefined): boolean {
  return reading?.kind === 'number';
}

/** The part of a grid counted: the column `part…` that belongs to `chamber…`, 1 when blank. */
function partOf(notebook: Notebook, day: DayId, row: RowId, count: Column): number {
  const column = partColumnOf(notebook, count);
  const reading = column && readingOf(notebook, day, row, column.id);
  return reading?.kind === 'number' ? reading.value : 1;
}

/** `1 of 2 chambers`, `1.5 of 2 chambers`. */
export function areaWords(
  areas: { readonly counted: number; readonly all: number },
  mark: DecimalMark,
): string {
  return say('{counted} of {all, plural, one {# chamber} other {# chambers}}', {
    counted: shortNumber(areas.counted, 2, mark),
    all: areas.all,
  });
}
