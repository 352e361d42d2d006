import type { SetTo } from '../../shared/edit.ts';
import type { Limit, LimitWord, Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { dayOf, daysOf, limitsOf } from './read.ts';
import { setsOf } from './record-sets.ts';

/** Who said so, and whether the person has made the limit theirs. */
export type Word = Omit<LimitWord, 'id'>;

/** Who said so of a limit as it holds on a day: the day's own word, else the limit's. */
export function limitWordOn(notebook: Notebook, day: DayId, limit: Limit): Word {
  return ownWord(notebook, day, limit.id) ?? wordOf(limit);
}

function wordOf({ saidBy, confirmed }: Limit): Word {
  return { saidBy: saidBy ?? '', confirmed: confirmed === true };
}

function ownWord(notebook: Notebook, day: DayId, limitId: string): Word | undefined {
  const own = dayOf(notebook, day)?.limitWords?.find(({ id }) => id === limitId);
  return own && { saidBy: own.saidBy ?? '', confirmed: own.confirmed === true };
}

/**
 * Sets for who said so of a limit on the days reached. Days that are not reached keep the word they
 * have: nobody is made to have said what held before, or what holds on other days.
 *
 * @param reached the days on which the limit's value changes.
 * @param isUsual whether the word is also that of days still to come.
 */
export function limitWordSets(
  notebook: Notebook,
  limitId: string,
  word: Word,
  reached: readonly DayId[],
  isUsual: boolean,
): readonly SetTo[] {
  const limit = limitsOf(notebook).find(({ id }) => id === limitId);
  const sets: SetTo[] = isUsual
    ? [
        { path: ['limits', limitId, 'saidBy'], value: word.saidBy ?? '' },
        { path: ['limits', limitId, 'confirmed'], value: word.confirmed === true },
      ]
    : [];
  for (const { id: day } of daysOf(notebook)) {
    const isReached = reached.includes(day);
    const wanted = isReached ? word : limit && limitWordOn(notebook, day, limit);
    const usual = isUsual ? word : limit && wordOf(limit);
    const own = wanted && isSame(wanted, usual) ? undefined : wanted;
    if (isSame(own, ownWord(notebook, day, limitId))) continue;
    const others = (dayOf(notebook, day)?.limitWords ?? []).filter(({ id }) => id !== limitId);
    const words = own ? [...others, { id: limitId, ...own }] : others;
    sets.push(...setsOf('days', day, { limitWords: words }));
  }
  return sets;
}

function isSame(a: Word | undefined, b: Word | undefined): boolean {
  return a?.saidBy === b?.saidBy && a?.confirmed === b?.confirmed;
}
