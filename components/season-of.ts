import type { Notebook } from '../shared/notebook.ts';
import type { Value } from '../shared/value.ts';
import { animalsOf, columnByKey, daysOf } from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import {
  rankedLines,
  seasonLine,
  type EpgByDay,
  type SeasonLine,
} from '../src/treating/season-line.ts';
import { dayMeans, seasonMeans, type SeasonGroup } from '../src/treating/season-means.ts';
import { breather } from './breather.ts';

/** What the sampling days so far come to. */
export interface Season {
  readonly groups: readonly SeasonGroup[];
  readonly all: SeasonGroup;
  /** Highest mean first. */
  readonly ranking: readonly SeasonLine[];
}

/** The epg column of every day, one day after the other; null without days or without epg. */
export async function seasonOf(session: Session, signal: AbortSignal): Promise<Season | null> {
  const { notebook, engine } = session;
  const epg = columnByKey(notebook, 'epg');
  const days = daysOf(notebook);
  if (!epg || days.length === 0) return null;
  const epgs = new Map<string, ReadonlyMap<string, Value>>();
  const breath = breather(signal);
  for (const day of days) {
    epgs.set(day.id, await engine.dayColumn(notebook, day.id, epg.id));
    signal.throwIfAborted();
    dayMeans(notebook, day, epgs);
    await breath.take();
  }
  const groups = seasonMeans(notebook, epgs);
  const all = groups.at(-1);
  return all ? { groups, all, ranking: await rankingOf(session, epgs, signal) } : null;
}

interface Lines {
  readonly from: readonly unknown[];
  readonly byAnimal: Map<string, { readonly epg: Value | undefined; readonly line: SeasonLine }>;
}

const linesOf = new WeakMap<Session, Lines>();

/** Only animals whose epg of the open day is another than before are looked at anew. */
async function rankingOf(
  session: Session,
  epgs: EpgByDay,
  signal: AbortSignal,
): Promise<readonly SeasonLine[]> {
  const { notebook, openDay } = session;
  const from = restsOn(notebook, openDay, epgs);
  let lines = linesOf.get(session);
  if (lines?.from.length !== from.length || !lines.from.every((part, i) => part === from[i])) {
    lines = { from, byAnimal: new Map() };
    linesOf.set(session, lines);
  }
  const { byAnimal } = lines;
  const open = epgs.get(openDay ?? '');
  const breath = breather(signal);
  const found: SeasonLine[] = [];
  for (const { id, arrived, left } of animalsOf(notebook)) {
    if (breath.isDue) await breath.take();
    const epg = open?.get(id);
    const known = byAnimal.get(id);
    // One outside its dates is here by what was typed, which the epg alone does not tell.
    const isSame = known?.epg === epg && arrived === undefined && left === undefined;
    const line = isSame && known ? known.line : seasonLine(notebook, id, epgs);
    byAnimal.set(id, { epg, line });
    found.push(line);
  }
  await breath.take();
  return rankedLines(found);
}

/** All that a line rests on beside the open day's epg: tables, and the epgs of the other days. */
function restsOn(notebook: Notebook, openDay: string | null, epgs: EpgByDay): readonly unknown[] {
  const { animals, days, treatments, products, limits, settings, columns } = notebook;
  const others = [...epgs].flatMap(([day, column]) => (day === openDay ? [day] : [day, column]));
  return [animals, days, treatments, products, limits, settings, columns, ...others];
}
