import type { Edit, SetTo } from '../../shared/edit.ts';
import type { DayCopy, DayFacts, Notebook, SamplingDay } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { dayId } from '../text/day-id.ts';
import { dayWords } from '../text/day-words.ts';
import { limitWordSets } from './limit-words.ts';
import { dayOf, daysOf, defaultsOf, limitsOf, limitValue } from './read.ts';
import { setsOf } from './record-sets.ts';
import { say } from '../text/say.ts';

/** A day as it is named in a file: its date, and its label where it has one. */
export function dayName(notebook: Notebook, id: string): string {
  const day = dayOf(notebook, id);
  if (!day) return id;
  return day.label ? `${day.date} ${day.label}` : day.date;
}

/** The same in a sentence: the date as it is written where the person lives. */
function dayInWords(notebook: Notebook, id: string): string {
  const day = dayOf(notebook, id);
  return day ? dayWords(day) : id;
}

/**
 * Adds a sampling day with its own copy of the protocol, criteria, looked-for types and limits of its time.
 * A second day on one date needs a label. A day that was removed `isBack` with what it held, under what is
 * typed with it now.
 */
export function addDay(
  notebook: Notebook,
  date: string,
  label: string,
  countedBy?: string,
): { readonly edit: Edit; readonly id: string; readonly isBack: boolean } | Fault {
  const id = dayId(date, label);
  if (isFault(id)) return id;
  const there = dayOf(notebook, id);
  if (there && there.removed !== true && there.date !== undefined)
    return fault(
      'day-there',
      say('{day} is already there. Open it, or give the second sampling a label, like evening.', {
        day: dayInWords(notebook, id),
      }),
    );
  const revived: SetTo[] = [{ path: ['days', id, 'removed'], value: null }];
  const said = { label: label.trim() || undefined, countedBy };
  if (there?.date !== undefined)
    return {
      id,
      isBack: true,
      edit: {
        label: say('bringing back {day}', { day: dayInWords(notebook, id) }),
        source: 'typed',
        sets: [...revived, ...setsOf('days', id, said)],
      },
    };
  const like = dayToCopy(notebook, date);
  const facts = { date, ...said, ...copyOf(notebook, like) };
  const sets = [...revived, ...setsOf('days', id, facts), ...limitCopies(notebook, id, like)];
  return {
    id,
    isBack: false,
    edit: {
      label: say('adding {day}', { day: dayWords({ date, label: label.trim() }) }),
      source: 'typed',
      sets,
    },
  };
}

/**
 * The day whose settings held on a date: none for one after all others, which takes the defaults; else the
 * day before it, or the first of all, so that what was changed later does not reach back.
 */
function dayToCopy(notebook: Notebook, date: string): SamplingDay | null {
  const days = daysOf(notebook);
  if (!days.some((day) => day.date > date)) return null;
  return days.findLast((day) => day.date <= date) ?? days[0] ?? null;
}

/** A day's own copy of how is counted and judged; of the defaults without a day. */
function copyOf(notebook: Notebook, day: SamplingDay | null): Partial<DayFacts> {
  if (!day) {
    const { id: _, ...copy } = defaultsOf(notebook) as Partial<DayCopy> & { id?: string };
    return copy;
  }
  const { id, date, label, countedBy, removed, ...copy } = day;
  return copy;
}

function limitCopies(notebook: Notebook, dayId: string, like: SamplingDay | null): SetTo[] {
  return limitsOf(notebook).flatMap(({ id }) => {
    const value = limitValue(notebook, like?.id ?? 'default', id);
    return value === undefined ? [] : [{ path: ['settings', dayId, id] as const, value }];
  });
}

/** Takes a day off the page; its readings stay and undo, or adding it again, brings it back. */
export function removeDay(notebook: Notebook, id: string): Edit {
  return {
    label: say('removing {day}', { day: dayInWords(notebook, id) }),
    source: 'typed',
    sets: [{ path: ['days', id, 'removed'], value: true }],
  };
}

/** Which days a changed default reaches: this and later ones with the default, every one, only this. */
export type Reach = 'from this day on' | 'every day' | 'only this day';

/** The days that a change made on `dayId` reaches. */
export function daysReached(notebook: Notebook, dayId: string, reach: Reach): readonly string[] {
  const days = daysOf(notebook).map((day) => day.id);
  if (reach === 'every day') return days;
  if (reach === 'only this day') return [dayId];
  return days.slice(Math.max(days.indexOf(dayId), 0));
}

/** The name of a change with the days it reaches. */
export function withReach(what: string, reach: Reach): string {
  if (reach === 'every day') return say('{what}, every day', { what });
  return reach === 'only this day'
    ? say('{what}, only this day', { what })
    : say('{what}, from this day on', { what });
}

/** Changes part of a day's own copy (protocol, criteria), with its reach. */
export function changeDayCopy(
  notebook: Notebook,
  dayId: string,
  facts: Partial<DayCopy>,
  reach: Reach,
): Edit {
  const days = daysReached(notebook, dayId, reach);
  const sets = days.flatMap((id) => setsOf('days', id, facts));
  if (reach !== 'only this day') sets.push(...setsOf('defaults', 'default', facts));
  const what = facts.criteria !== undefined ? say('the criteria') : say('how you count');
  return { label: withReach(what, reach), source: 'typed', sets };
}

/**
 * Changes which further egg types are looked for, with its reach: each day reached keeps the others it
 * has. Where none is ticked or unticked, all days reached get the list as it stands.
 */
export function changeLookedFor(
  notebook: Notebook,
  dayId: string,
  ticked: readonly string[],
  reach: Reach,
): Edit {
  const before = dayOf(notebook, dayId)?.lookedFor ?? defaultsOf(notebook).lookedFor ?? [];
  const added = ticked.filter((id) => !before.includes(id));
  const gone = before.filter((id) => !ticked.includes(id));
  const isAsItIs = added.length === 0 && gone.length === 0;
  const changed = (own: readonly string[] = []): readonly string[] =>
    isAsItIs
      ? ticked
      : [...own.filter((id) => !gone.includes(id)), ...added.filter((id) => !own.includes(id))];
  const sets: SetTo[] = daysReached(notebook, dayId, reach).flatMap((id) =>
    setsOf('days', id, { lookedFor: changed(dayOf(notebook, id)?.lookedFor) }),
  );
  if (reach !== 'only this day')
    sets.push(
      ...setsOf('defaults', 'default', { lookedFor: changed(defaultsOf(notebook).lookedFor) }),
    );
  return { label: withReach(say('the egg types looked for'), reach), source: 'typed', sets };
}

/** Changes a limit's value and who said so, with its reach; it is the person's own from then on. */
export function changeLimit(
  notebook: Notebook,
  dayId: string,
  limitId: string,
  value: number,
  reach: Reach,
  saidBy: string,
): Edit {
  const reached = daysReached(notebook, dayId, reach);
  const isUsual = reach !== 'only this day';
  const sets: SetTo[] = (isUsual ? [...reached, 'default'] : reached).map((day) => ({
    path: ['settings', day, limitId],
    value,
  }));
  sets.push(...limitWordSets(notebook, limitId, { saidBy, confirmed: true }, reached, isUsual));
  const limit = limitsOf(notebook).find(({ id }) => id === limitId);
  return { label: withReach(limit?.label ?? limit?.key ?? '', reach), source: 'typed', sets };
}
