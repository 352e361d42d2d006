import type { Value } from '../shared/value.ts';
import { isFault } from '../shared/value.ts';
import { toShown } from '../src/engine/stored-formula.ts';
import { createEngine } from '../src/engine/engine.ts';
import { METHOD_CAUTIONS, methodLines } from '../src/csv/export-method.ts';
import type { WriteCell } from '../src/csv/write-table.ts';
import { aboutOf, blocksOf, columnByKey, daysOf, markOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { writeNumber } from '../src/text/decimal-text.ts';
import { say } from '../src/text/say.ts';
import { checkChoice, productsBetween } from '../src/treating/check-choice.ts';
import { reductionChecks, type ReductionCheck } from '../src/treating/reduction-check.ts';
import { checkCounts } from './check-rows.ts';
import { figureTable, type FigureTable } from './figure-table.ts';
import { dayList, type DayList } from './treatment-list.ts';
import { ruleOf } from './verdict-rule.ts';

/** What the report for the vet is made of. */
export interface ReportData {
  readonly table: FigureTable | null;
  readonly list: DayList | null;
  readonly checks: readonly ReductionCheck[];
  /** What was done and how, in two columns. */
  readonly method: readonly (readonly [what: string, says: string])[];
  readonly cautions: readonly string[];
}

export async function reportData(session: Session, signal: AbortSignal): Promise<ReportData> {
  const { notebook, openDay } = session;
  const table = await figureTable(session, signal);
  const list = await dayList(session, signal);
  const checks = await checksOf(session, signal);
  const mark = markOf(notebook);
  const number = (value: number): string => writeNumber(value, mark);
  const lines = await methodLines(
    notebook,
    createEngine(),
    openDay === null ? [] : [openDay],
    { say, mark, number },
    (formula) => toShown(notebook, formula),
  );
  const { title = '', place = '' } = aboutOf(notebook);
  const about: [string, string][] = [
    [say('notebook'), title],
    [say('place'), place],
  ];
  const method = lines.map(([, what, says]): [string, string] => [what, cellWords(says, number)]);
  return { table, list, checks, method: [...about, ...method], cautions: METHOD_CAUTIONS };
}

function cellWords(cell: WriteCell, number: (value: number) => string): string {
  if (cell === null) return '–';
  if (typeof cell === 'number') return number(cell);
  return typeof cell === 'string' ? cell : cell.tag;
}

/** The dewormer check of the page's own block, or of the newest treatment where nothing was chosen. */
async function checksOf(session: Session, signal: AbortSignal): Promise<readonly ReductionCheck[]> {
  const { notebook } = session;
  const choices = blocksOf(notebook).find(({ kind }) => kind === 'reduction check')?.choices ?? {};
  const start = checkChoice(notebook);
  const before = choices['before'] ?? start?.before;
  const after = choices['after'] ?? start?.after;
  if (before === undefined || after === undefined) return [];
  const products =
    choices['products']?.split(/[\s,]+/).filter((id) => id !== '') ??
    productsBetween(notebook, before, after);
  const counts = await checkCounts(session, before, after, signal);
  if (counts === null || products.length === 0) return [];
  const group = choices['group'] ? { group: choices['group'] } : {};
  const rows = { rowsBefore: counts.before, rowsAfter: counts.after, others: counts.others };
  const asked = { before, after, ...group, ...rows, rule: ruleOf(choices) };
  return reductionChecks(notebook, asked, products).flatMap((check) =>
    isFault(check) ? [] : [check],
  );
}

/** Every day's epg, for the whole grid on paper. */
export async function seasonEpg(
  session: Session,
  signal: AbortSignal,
): Promise<ReadonlyMap<string, ReadonlyMap<string, Value>>> {
  const { notebook, engine } = session;
  const epg = columnByKey(notebook, 'epg');
  const byDay = new Map<string, ReadonlyMap<string, Value>>();
  if (!epg) return byDay;
  for (const { id } of daysOf(notebook)) {
    signal.throwIfAborted();
    byDay.set(id, await engine.dayColumn(notebook, id, epg.id));
  }
  return byDay;
}
