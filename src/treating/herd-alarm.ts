import type { Notebook } from '../../shared/notebook.ts';
import { signColumn, markOf, readingOf } from '../notebook/read.ts';
import { presentAnimals } from '../notebook/present.ts';
import { atLeast } from '../stats/at-least.ts';
import { limitByKey } from './limit-by-key.ts';
import { shortNumber } from './short-number.ts';
import { say } from '../text/say.ts';

/** Where no limit is set: 10 % of the animals scored (from memory, check with your vet). */
export const PALE_ALARM_PERCENT = 10;

/** From this eyelid colour score on an animal is pale. */
export const PALE_FROM = 4;

/** How many of the animals scored are pale, and whether that rings the alarm. */
export interface HerdAlarm {
  readonly rings: boolean;
  readonly pale: number;
  readonly scored: number;
  readonly present: number;
  readonly limitPercent: number;
  /** What to do, with n of N; empty while the alarm does not ring. */
  readonly sentence: string;
}

/**
 * The herd alarm: at the limit or more of the animals *scored* at eyelid colour 4 or 5. Animals not scored
 * are in neither number. Nobody scored: no alarm, which is not "all well".
 */
export function herdAlarm(notebook: Notebook, dayId: string): HerdAlarm {
  const present = presentAnimals(notebook, dayId);
  const scores = present.flatMap(({ id }) => eyelidOf(notebook, dayId, id) ?? []);
  const pale = scores.filter((score) => score >= PALE_FROM).length;
  const limitPercent = limitByKey(notebook, dayId, 'pale_alarm') ?? PALE_ALARM_PERCENT;
  const rings = pale > 0 && atLeast((100 * pale) / scores.length, limitPercent);
  return {
    rings,
    pale,
    scored: scores.length,
    present: present.length,
    limitPercent,
    sentence: rings
      ? say(
          'Ring your vet today: {pale} of {n} scored are at eyelid colour 4 or 5 ({percent} %; your limit is {limit} %).',
          {
            pale,
            n: scores.length,
            percent: shortNumber((100 * pale) / scores.length, 0),
            limit: shortNumber(limitPercent, 2, markOf(notebook)),
          },
        )
      : '',
  };
}

/** The eyelid colour score typed for an animal on a day; `null` when it was not scored. */
export function eyelidOf(notebook: Notebook, dayId: string, animalId: string): number | null {
  return scoreOf(notebook, dayId, animalId, 'eyelid');
}

/** A score by its column's key; `null` where there is no such column or nothing that could be read. */
export function scoreOf(
  notebook: Notebook,
  dayId: string,
  animalId: string,
  key: string,
): number | null {
  const column = signColumn(notebook, key);
  const reading = column && readingOf(notebook, dayId, animalId, column.id);
  return reading?.kind === 'number' ? reading.value : null;
}
