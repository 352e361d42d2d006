import type { Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { dayBefore, daysOf } from '../notebook/read.ts';
import { parseDayId } from '../text/day-id.ts';
import { nearest } from './nearest.ts';
import { say } from '../text/say.ts';

/**
 * The day that `herd[…]` means: `previous`, or a date with an optional label as people write it. Null
 * where there is no day before; a fault for a day that the notebook does not have.
 */
export function dayNamed(notebook: Notebook, today: DayId, written: string): DayId | null | Fault {
  if (written.toLowerCase() === 'previous') return dayBefore(notebook, today)?.id ?? null;
  const days = daysOf(notebook);
  const name = parseDayId(written);
  if (!isFault(name)) {
    const id = name.label === '' ? name.date : `${name.date}-${name.label}`;
    const day = days.find((known) => known.id === id) ?? days.find((known) => known.id === written);
    if (day) return day.id;
  }
  const near = nearest(
    written,
    days.map((day) => day.id),
  );
  return fault(
    'unknown-day',
    near === null
      ? say('There is no sampling day “{written}” in this notebook.', { written })
      : say('There is no sampling day “{written}” in this notebook. The nearest is {near}.', {
          written,
          near,
        }),
  );
}

/** The days before this one, the latest first. */
export function daysBefore(notebook: Notebook, today: DayId): readonly DayId[] {
  const ids = daysOf(notebook).map((day) => day.id);
  return ids.slice(0, Math.max(0, ids.indexOf(today))).reverse();
}
