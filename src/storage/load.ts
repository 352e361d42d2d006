import { promisifyRequest, type UseStore } from 'idb-keyval';
import type { Seen } from '../../shared/cell.ts';
import type { Change } from '../../shared/edit.ts';
import type { Notebook, RowReadings } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { writeCells } from '../notebook/apply-edit.ts';
import { tableNames } from '../notebook/field-checks.ts';
import { covers, eachCell, madeUp, mergeSeen } from '../notebook/merge-values.ts';
import { languageVersion, newerVersion, notebookVersion } from '../notebook/migrate.ts';
import { soundRow, soundSeen, soundTable, type Problem } from '../notebook/sound-parts.ts';
import { placeName, salvage, type Salvaged } from '../notebook/validate.ts';
import { CellPool } from './cell-pool.ts';
import { readEntry } from './entry.ts';
import { isHead, type Head } from './head.ts';
import { headKey, snapshotKey, under } from './keys.ts';
import { readMark, readPiece } from './snapshot.ts';
import { storageFault } from './storage-fault.ts';
import { say } from '../text/say.ts';

/** Something that was kept and can no longer be read, to be kept aside for download. */
export interface Damage {
  readonly place: string;
  readonly sentence: string;
  readonly raw: unknown;
}

/** A notebook as it was read from the store. */
export interface Loaded {
  readonly notebook: Notebook;
  /** Null where the notebook's line in the list is damaged. */
  readonly head: Head | null;
  /** The number of the last edit, and how many are still in the journal. */
  readonly last: number;
  readonly waiting: readonly Change[];
  readonly edits: number;
  /** It was kept by an older version, and has been brought to the present one. */
  readonly isOld: boolean;
  /** What could not be read this time. */
  readonly damage: readonly Damage[];
}

/** A piece as it was read; of a damaged one, what stands there. */
interface PieceRead {
  readonly name: string;
  readonly piece: ReturnType<typeof readPiece>;
  readonly raw: unknown;
}

interface Read {
  readonly head: unknown;
  readonly mark: unknown;
  readonly tables: readonly PieceRead[];
  readonly days: readonly PieceRead[];
  readonly edits: readonly (readonly [number: number, text: unknown])[];
}

/**
 * Everything of one notebook as it was at one moment, whatever another tab is writing. Each piece is
 * asked for by itself, and read when it comes, so that a large notebook does not stop the page.
 */
function readAll(use: UseStore, id: string): Promise<Read> {
  return use('readonly', async (store) => {
    const pieces = async (kind: 'table' | 'day'): Promise<PieceRead[]> => {
      const keys = await promisifyRequest(store.getAllKeys(under(kind, id)));
      const reading = keys.map(async (key) => {
        const text = await promisifyRequest<unknown>(store.get(key));
        const piece = readPiece(text);
        return { name: third(key), piece, raw: piece === null ? text : null };
      });
      return Promise.all(reading);
    };
    const numbers = promisifyRequest(store.getAllKeys(under('edit', id)));
    const texts = promisifyRequest<unknown[]>(store.getAll(under('edit', id)));
    const [head, mark, tables, days] = await Promise.all([
      promisifyRequest<unknown>(store.get(headKey(id))),
      promisifyRequest<unknown>(store.get(snapshotKey(id))),
      pieces('table'),
      pieces('day'),
    ]);
    const edits = await texts;
    return {
      head,
      mark,
      tables,
      days,
      edits: (await numbers).map((key, i) => [Number(third(key)), edits[i]] as const),
    };
  });
}

/** The name of a table or day, or the number of an edit, in a key. */
function third(key: IDBValidKey): string {
  const part: unknown = Array.isArray(key) ? key[2] : '';
  return typeof part === 'number' || typeof part === 'string' ? `${part}` : '';
}

/** The version that is read, and how older ones are brought to it. */
export interface Reader {
  readonly version: number;
  readonly salvage: (json: unknown) => Salvaged | Fault;
}

/**
 * Reads a notebook: the snapshot, and the edits made since on top of it. What is damaged is left out
 * and listed, down to the single cell; the rest opens. `pause` lets the page breathe between pieces.
 * Faults: `no-notebook`, `newer-version`, and those of the store.
 */
export async function loadNotebook(
  use: UseStore,
  id: string,
  pause: () => Promise<void>,
  reader: Reader = { version: notebookVersion, salvage },
): Promise<Loaded | Fault> {
  const read = await readAll(use, id).catch(storageFault);
  if (isFault(read)) return read;
  const mark = readMark(read.mark);
  if (read.head === undefined && read.mark === undefined && read.tables.length === 0)
    return fault(
      'no-notebook',
      say('That notebook is not on this device. Choose one from the list.'),
    );
  const { version, language } = mark ?? { version: reader.version, language: languageVersion };
  const newer = newerVersion(version, language, reader.version);
  if (newer) return newer;
  const isPresent = version === reader.version;

  const found: Problem[] = [];
  const report = (problem: Problem): void => void found.push(problem);
  if (!mark)
    report({ path: ['snapshot'], sentence: say('cannot be read.'), raw: read.mark ?? null });
  const tables = await tablesFrom(read.tables, isPresent, report, pause);
  const readings = await readingsFrom(read.days, isPresent, report, pause);
  const plain = { format: 'sampling-daybook', version, language, id, seen: {} };
  const snapshot = { ...plain, ...tables, readings } as unknown as Notebook;
  const head = isHead(read.head) ? read.head : null;
  const upTo = mark?.upTo ?? (read.edits[0]?.[0] ?? (head?.last ?? 0) + 1) - 1;
  const seen = mark ? soundSeen(mark.seen, report) : seenIn(snapshot);
  const replayed = replay(read.edits, upTo, seen, report);
  const held = {
    ...writeCells(snapshot, replayed.changes, [], 'days in place'),
    seen: replayed.seen,
  };
  const whole = isPresent ? { notebook: held, problems: [] } : reader.salvage(held);
  if (isFault(whole)) return whole;
  const { notebook } = whole;
  found.push(...whole.problems);
  if (head && head.last > replayed.last) report(missingEdits(replayed.last + 1, head.last));
  return {
    notebook: withStandIns(notebook, found),
    head,
    last: Math.max(replayed.last, head?.last ?? 0),
    waiting: replayed.changes,
    edits: replayed.edits,
    isOld: !isPresent,
    damage: found.map(({ path, sentence, raw }) => ({
      place: placeName(notebook, path),
      sentence,
      raw,
    })),
  };
}

type Report = (problem: Problem) => void;

/** What a notebook must have seen, by the stamps of what it holds. */
function seenIn(notebook: Notebook): Seen {
  let seen: Seen = {};
  eachCell(notebook, (_path, cell) => {
    for (const [, [ms, counter, device]] of cell)
      if (!covers(seen, [ms, counter, device])) seen = mergeSeen(seen, { [device]: [ms, counter] });
  });
  return seen;
}

async function tablesFrom(
  pieces: readonly PieceRead[],
  isPresent: boolean,
  report: Report,
  pause: () => Promise<void>,
): Promise<Record<string, unknown>> {
  const tables = new Map<string, Record<string, unknown>>();
  const others = new Map<string, unknown>();
  for (const name of tableNames) tables.set(name, {});
  for (const { name, piece, raw } of pieces) {
    if (piece === null) report({ path: [name], sentence: say('a part cannot be read.'), raw });
    else if ('whole' in piece) others.set(name, piece.whole);
    else {
      const records: Record<string, unknown> = Object.fromEntries(piece.records);
      const known = isPresent ? tableNames.find((table) => table === name) : undefined;
      const sound = known ? soundTable(known, records, report, 'kept') : records;
      tables.set(name, Object.assign(tables.get(name) ?? {}, sound));
    }
    await pause();
  }
  return Object.fromEntries([...tables, ...others]);
}

async function readingsFrom(
  pieces: readonly PieceRead[],
  isPresent: boolean,
  report: Report,
  pause: () => Promise<void>,
): Promise<Record<string, Record<string, unknown>>> {
  const days: Record<string, Record<string, unknown>> = {};
  const pool = new CellPool();
  for (const { name: day, piece, raw } of pieces) {
    const rows = (days[day] ??= {});
    if (piece === null || 'whole' in piece) {
      report({ path: ['readings', day], sentence: say('a part cannot be read.'), raw });
      continue;
    }
    for (const [row, cells] of piece.records) {
      const sound = isPresent ? soundRow(day, row, cells, report, 'kept') : cells;
      if (sound === undefined) continue;
      rows[row] = sound;
      if (isPresent) shareCells(sound, pool);
    }
    await pause();
  }
  return days;
}

/** Shares the cells of a row that was just read, and that nothing else holds yet. */
function shareCells(row: unknown, pool: CellPool): void {
  const cells = row as Record<string, RowReadings[string]>;
  for (const column of Object.keys(cells)) {
    const cell = cells[column];
    if (cell) cells[column] = pool.share(cell);
  }
}

/**
 * The edits after the snapshot, in order. From the first damaged or missing one on, nothing more is
 * taken for seen: what it held may come back from another copy, and must not look superseded.
 */
function replay(
  edits: Read['edits'],
  upTo: number,
  seenBefore: Seen,
  report: Report,
): {
  readonly changes: Change[];
  readonly seen: Seen;
  readonly last: number;
  readonly edits: number;
} {
  const changes: Change[] = [];
  let seen = seenBefore;
  let last = upTo;
  let isBroken = false;
  let count = 0;
  for (const [number, text] of edits) {
    if (!(number > upTo)) continue;
    if (number > last + 1) {
      report(missingEdits(last + 1, number - 1));
      isBroken = true;
    }
    last = number;
    count += 1;
    const entry = readEntry(text);
    if (entry === null) {
      report({ path: ['edit', String(number)], sentence: say('cannot be read.'), raw: text });
      isBroken = true;
      continue;
    }
    changes.push(...entry.changes);
    for (const raw of entry.damaged)
      report({ path: ['edit', String(number)], sentence: say('a part cannot be read.'), raw });
    isBroken ||= entry.damaged.length > 0;
    if (!isBroken) seen = mergeSeen(seen, entry.seen);
  }
  return { changes, seen, last, edits: count };
}

function missingEdits(from: number, to: number): Problem {
  return {
    path: ['edit', String(from)],
    sentence:
      from === to
        ? say('edit {first} of this notebook did not reach the store.', { first: from })
        : say('edits {first} to {last} of this notebook did not reach the store.', {
            first: from,
            last: to,
          }),
    raw: null,
  };
}

/**
 * Where the list of animals was damaged, rows of readings may have lost theirs: each gets an animal
 * in its place, made up until a file brings back the true one.
 */
function withStandIns(notebook: Notebook, found: readonly Problem[]): Notebook {
  if (!found.some(({ path }) => path[0] === 'animals')) return notebook;
  const lost = new Set<string>();
  for (const day of Object.values(notebook.readings))
    for (const row of Object.keys(day))
      if (!notebook.animals[row]?.tag && !Object.hasOwn(notebook.cups, row)) lost.add(row);
  const animals = { ...notebook.animals };
  for (const [i, id] of [...lost].entries())
    animals[id] = { ...animals[id], tag: [[say('lost tag {number}', { number: i + 1 }), madeUp]] };
  return { ...notebook, animals };
}
