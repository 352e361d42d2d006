import type { Column, Notebook } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import type { DayId, RowId } from '../../shared/ref.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { columnOf } from '../notebook/read.ts';
import type { Book } from './book.ts';
import { cellFormula, type Compiled } from './compiled.ts';
import { columnsNamed } from './egg-groups.ts';
import { looseRow, looseText, type LoosePlace } from './loose-formula.ts';
import type { Target } from './names.ts';
import { readingIn, rowSight } from './row-feed.ts';
import { parseStored } from './stored-formula.ts';

/** More eggs than any grid holds: stands for "no upper bound". */
const UNBOUNDED = 1_000_000;

interface Ends {
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * Whether what a person could only bound settles a condition all the same: `>40` means at least 41 eggs,
 * `<5` at most 4, "too many" at least 0. The condition is worked out at both ends; the same answer at both
 * is the answer (conditions on counts run one way), otherwise null.
 */
export function settledByBounds(
  notebook: Notebook,
  book: Book,
  day: DayId,
  row: RowId,
  condition: string,
): boolean | null {
  const slot = book.slotOf(row);
  const bounded = boundedCounts(notebook, book, day, row);
  if (slot === undefined || bounded.size === 0) return null;
  const syntax = parseStored(notebook, condition);
  if (isFault(syntax)) return null;
  const place = { notebook, kinds: book.plan.kinds, layout: book.layout, day };
  const at = (end: keyof Ends): boolean | null => {
    const compiled = looseRow(syntax, place, withEnds(place, row, bounded, end));
    if (isFault(compiled)) return null;
    const value = book.ask(day, looseText(compiled, slot));
    return typeof value === 'boolean' ? value : null;
  };
  const low = at('low');
  return low !== null && low === at('high') ? low : null;
}

/** Counts of the row that are bounded, with their fellows of the same cup, at both ends. */
function boundedCounts(
  notebook: Notebook,
  book: Book,
  day: DayId,
  row: RowId,
): ReadonlyMap<string, Ends> {
  const bounded = new Map<string, Ends>();
  const { readings, isSpoiled } = rowSight(notebook, day, row, book.plan.groups, false);
  if (!readings || isSpoiled) return bounded;
  for (const id of Object.keys(readings)) {
    const reading = readingIn(readings, id);
    if (!reading || columnOf(notebook, id)?.kind !== 'count' || !isBound(reading)) continue;
    const groups = book.plan.groups.filter((group) => group.counts.includes(id));
    const fellows = [...new Set([id, ...groups.flatMap((group) => group.counts)])];
    const parts = groups.flatMap((group) => group.parts);
    const isReadable =
      fellows.every((fellow) => readingIn(readings, fellow)?.kind !== 'fault') &&
      parts.every((part) => (readingIn(readings, part)?.kind ?? 'number') === 'number');
    if (!isReadable) continue;
    for (const fellow of fellows) bounded.set(fellow, endsOf(readingIn(readings, fellow)));
  }
  return bounded;
}

function isBound({ kind }: Reading): boolean {
  return kind === 'over' || kind === 'under' || kind === 'too-many';
}

function endsOf(reading: Reading | undefined): Ends {
  switch (reading?.kind) {
    case 'number':
      return { low: reading.value, high: reading.value };
    case 'over':
      return { low: Math.floor(reading.value) + 1, high: UNBOUNDED };
    case 'under':
      return { low: 0, high: Math.max(0, Math.ceil(reading.value) - 1) };
    case 'too-many':
      return { low: 0, high: UNBOUNDED };
    default:
      return { low: null, high: null };
  }
}

/** Writes one end of the bounds in place of the counts, and out the columns that rest on them. */
function withEnds(
  place: LoosePlace,
  row: RowId,
  bounded: ReadonlyMap<string, Ends>,
  end: keyof Ends,
): (target: Target, day: DayId) => Compiled | Fault | null {
  const { notebook } = place;
  const within = new Set<string>();
  const instead = (target: Target, day: DayId): Compiled | Fault | null => {
    if (target.kind !== 'column' || day !== place.day) return null;
    const { column } = target;
    const ends = bounded.get(column.id);
    if (ends) return literal(ends[end]);
    if (column.kind !== 'formula' || within.has(column.id)) return null;
    const typed = readingIn(notebook.readings[day]?.[row], column.id);
    if ((column.typedOver && typed !== undefined) || !restsOn(notebook, column, bounded))
      return null;
    const syntax = parseStored(notebook, column.formula ?? '');
    if (isFault(syntax)) return syntax;
    within.add(column.id);
    const compiled = looseRow(syntax, place, instead);
    within.delete(column.id);
    return isFault(compiled)
      ? compiled
      : { ...compiled, text: cellFormula(compiled, 'KNOWNWITHIN') };
  };
  return instead;
}

function literal(value: number | null): Compiled {
  const text = value === null ? 'NOTHING()' : String(value);
  return { text, kind: 'number', inputs: [], needs: [], functions: [], lists: [] };
}

function restsOn(
  notebook: Notebook,
  column: Column,
  bounded: ReadonlyMap<string, Ends>,
  seen = new Set<string>(),
): boolean {
  if (bounded.has(column.id)) return true;
  if (column.kind !== 'formula' || seen.has(column.id)) return false;
  seen.add(column.id);
  return columnsNamed(notebook, column).some((named) => restsOn(notebook, named, bounded, seen));
}
