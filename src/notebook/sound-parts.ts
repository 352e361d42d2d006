import type { Json } from '../../shared/cell.ts';
import type { Notebook, TableName } from '../../shared/notebook.ts';
import { isDate } from '../text/date.ts';
import { parseDayId } from '../text/day-id.ts';
import { isFault } from '../../shared/value.ts';
import { checkOf, tableNames } from './field-checks.ts';
import { kindOnly, type Check } from './value-checks.ts';
import { say } from '../text/say.ts';

/** Something in a notebook that cannot be what it is meant to be, and where. */
export interface Problem {
  readonly path: readonly string[];
  /** What was expected and what stands there; the place is named apart. */
  readonly sentence: string;
  /** What stands there, to be kept aside. */
  readonly raw: unknown;
  /** The parts are sound, but two of them are one animal. */
  readonly kind?: 'animal-twice';
}

/**
 * A file comes from anywhere and is checked to the letter. What this program kept itself is checked
 * for damage only: a date that is none, if one was ever let through, must not vanish on reopening.
 */
export type Strictness = 'file' | 'kept';

export type Report = (problem: Problem) => void;

type Branch = Readonly<Record<string, unknown>>;

export function isBranch(value: unknown): value is Branch {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** `expected` is a clause: "a number was expected". */
function problem(path: readonly string[], expected: string, raw: unknown): Problem {
  if (raw === undefined)
    return { path, sentence: say('{expected}, and nothing stands there.', { expected }), raw };
  const shown = JSON.stringify(raw);
  const value = shown.length > 60 ? `${shown.slice(0, 57)}…` : shown;
  return { path, sentence: say('{expected}, and {value} stands there.', { expected, value }), raw };
}

/**
 * The parts of a branch that are sound, and every other one reported. A branch without a problem
 * comes back as the very same object.
 */
function soundParts(
  branch: unknown,
  path: readonly string[],
  report: Report,
  isSound: (name: string, part: unknown) => unknown,
): Branch {
  if (!isBranch(branch)) {
    report(problem(path, say('a table of named things was expected'), branch));
    return {};
  }
  let copy: [string, unknown][] | null = null;
  const names = Object.keys(branch);
  for (const [i, name] of names.entries()) {
    const part = branch[name];
    const sound = isSound(name, part);
    if (sound === part && copy === null) continue;
    copy ??= names.slice(0, i).map((before) => [before, branch[before]]);
    if (sound !== undefined) copy.push([name, sound]);
  }
  return copy === null ? branch : Object.fromEntries(copy);
}

/** Names that would be mistaken for something else: every other text is an id. */
function isName(name: string): boolean {
  return name !== '' && name !== '__proto__' && !name.includes('\n');
}

/** Stamps lie between 1970 and the end of the calendar: greater ones could not be followed. */
const lastMs = 8.64e15;

export function isStamp(value: unknown): boolean {
  if (!Array.isArray(value) || value.length !== 3) return false;
  const [ms, counter, device] = value as unknown[];
  const isMs = Number.isSafeInteger(ms) && (ms as number) >= 0 && (ms as number) < lastMs;
  const isCounter = Number.isSafeInteger(counter) && (counter as number) >= 0;
  return isMs && isCounter && typeof device === 'string' && isName(device);
}

/** What is wrong with a cell, if anything. A cleared value is sound everywhere. */
function cellProblem(
  path: readonly string[],
  cell: unknown,
  check: Check | undefined,
): Problem | null {
  if (!Array.isArray(cell) || cell.length === 0)
    return problem(path, say('a list of values with their stamps was expected'), cell);
  for (const entry of cell as unknown[]) {
    if (!Array.isArray(entry) || entry.length !== 2 || !isStamp(entry[1]))
      return problem(
        path,
        say('a value with its stamp (milliseconds, counter, device) was expected'),
        entry,
      );
    const value = entry[0] as Json;
    const expected = value === null ? null : check?.(value);
    if (expected) return problem(path, expected, value);
  }
  return null;
}

function isDayName(name: string): boolean {
  const read = parseDayId(name);
  return !isFault(read) && name.startsWith(read.date);
}

const dayTables: ReadonlySet<string> = new Set(['days', 'bench', 'yard', 'decisions', 'readings']);

/** What is wrong with the name of a record (of a day's readings), as a sentence; null where nothing is. */
function recordNameFault(table: string, name: string, strictness: Strictness): string | null {
  if (!isName(name)) return say('an id without line breaks was expected as the name.');
  if (strictness === 'kept') return null;
  if (dayTables.has(table) && !isDayName(name))
    return say(
      'the name of a sampling day, like 2026-05-03 or 2026-05-03-evening, was expected as the name.',
    );
  if (table === 'settings' && name !== 'default' && !isDayName(name))
    return say('the name of a sampling day or "default" was expected as the name.');
  return null;
}

/** The same of the name of a field (a row, a column). */
function fieldNameFault(table: string, name: string, strictness: Strictness): string | null {
  if (!isName(name)) return say('an id without line breaks was expected as the name.');
  if (strictness === 'file' && table === 'groups' && !isDate(name))
    return say('a day of the calendar, written like 2026-05-03, was expected as the name.');
  return null;
}

function misnamed(path: readonly string[], sentence: string, raw: unknown): Problem {
  return { path, sentence, raw };
}

/** What a cell at a place may hold; undefined where only a later version knows. */
function checkFor(
  table: TableName | 'readings',
  field: string,
  strictness: Strictness,
): Check | undefined {
  const check = checkOf(table, field);
  return check && strictness === 'kept' ? kindOnly(check) : check;
}

function soundField(
  path: readonly [table: TableName | 'readings', ...string[]],
  cell: unknown,
  report: Report,
  strictness: Strictness,
): unknown {
  const [table] = path;
  const field = path[path.length - 1] as string;
  const expected = fieldNameFault(table, field, strictness);
  const found =
    expected === null
      ? cellProblem(path, cell, checkFor(table, field, strictness))
      : misnamed(path, expected, cell);
  if (found === null) return cell;
  report(found);
  return undefined;
}

/** The sound records of one table. */
export function soundTable(
  table: TableName,
  json: unknown,
  report: Report,
  strictness: Strictness = 'file',
): Notebook[TableName] {
  const sound = soundParts(json, [table], report, (id, record) => {
    const expected = recordNameFault(table, id, strictness);
    if (expected !== null) return void report(misnamed([table, id], expected, record));
    return soundParts(record, [table, id], report, (field, cell) =>
      soundField([table, id, field], cell, report, strictness),
    );
  });
  return sound as Notebook[TableName];
}

/** The sound cells of one row of a sampling day. */
export function soundRow(
  day: string,
  row: string,
  cells: unknown,
  report: Report,
  strictness: Strictness = 'file',
): Notebook['readings'][string][string] | undefined {
  const expected = fieldNameFault('readings', row, strictness);
  if (expected !== null) return void report(misnamed(['readings', day, row], expected, cells));
  const sound = soundParts(cells, ['readings', day, row], report, (column, cell) =>
    soundField(['readings', day, row, column], cell, report, strictness),
  );
  return sound as Notebook['readings'][string][string];
}

/** The sound readings of all days. */
export function soundReadings(json: unknown, report: Report): Notebook['readings'] {
  const sound = soundParts(json, ['readings'], report, (day, readings) => {
    const expected = recordNameFault('readings', day, 'file');
    if (expected !== null) return void report(misnamed(['readings', day], expected, readings));
    return soundParts(readings, ['readings', day], report, (row, cells) =>
      soundRow(day, row, cells, report),
    );
  });
  return sound as Notebook['readings'];
}

/** What is wrong with a change that this program kept, if anything: its place or its cell. */
export function keptChangeProblem(path: readonly string[], cell: unknown): Problem | null {
  const [table = '', , field = ''] = path;
  const isReading = table === 'readings';
  if (path.length !== (isReading ? 4 : 3) || !path.every(isName))
    return problem(path, say('a place in the notebook was expected'), path);
  const known = isReading ? table : tableNames.find((name) => name === table);
  return cellProblem(path, cell, known && checkFor(known, field, 'kept'));
}

/** What is known to have been seen; an entry that is none is reported and left out. */
export function soundSeen(json: unknown, report: Report): Notebook['seen'] {
  const sound = soundParts(json, ['seen'], report, (device, seen) => {
    if (Array.isArray(seen) && isStamp([...(seen as unknown[]), device])) return seen as unknown;
    report(problem(['seen', device], say('milliseconds and counter were expected'), seen));
    return undefined;
  });
  return sound as Notebook['seen'];
}
