import type { Json } from '../../shared/cell.ts';
import type { Edit, SetTo } from '../../shared/edit.ts';
import type { Criterion, Notebook } from '../../shared/notebook.ts';
import { fault, type Fault } from '../../shared/value.ts';
import { daysReached, withReach, type Reach } from '../notebook/edit-days.ts';
import { dayOf, defaultsOf } from '../notebook/read.ts';
import { say } from '../text/say.ts';

/** What is wrong with a criterion apart from its formula, which the engine checks; `null` when it can stand. */
export function criterionFault(criterion: Criterion): Fault | null {
  if (criterion.reason.trim() === '')
    return fault(
      'no-reason',
      say('Give the criterion a reason in words; it is what the list will say.'),
    );
  if (criterion.ready === undefined && criterion.condition.trim() === '')
    return fault('no-condition', say('Give the criterion a condition, like eyelid >= 4.'));
  if (!Number.isFinite(criterion.danger))
    return fault(
      'bad-danger',
      say('The place in the list is a number: the greater, the higher up.'),
    );
  if (criterion.classes?.length === 0)
    return fault('no-class', say('Choose the classes it applies to, or all of them.'));
  return null;
}

/**
 * Adds a criterion, or puts the one of the same id in its place, on each day reached and, unless it is for one day
 * only, in what new days copy. Each day keeps its other criteria as they are, so that days that differ go on
 * differing. The condition is already a stored formula.
 */
export function putCriterion(
  notebook: Notebook,
  dayId: string,
  criterion: Criterion,
  reach: Reach,
): Edit | Fault {
  const wrong = criterionFault(criterion);
  if (wrong) return wrong;
  const put = (list: readonly Criterion[]): readonly Criterion[] =>
    list.some(({ id }) => id === criterion.id)
      ? list.map((one) => (one.id === criterion.id ? criterion : one))
      : [...list, criterion];
  return criteriaEdit(
    notebook,
    dayId,
    reach,
    say('the criterion "{reason}"', { reason: criterion.reason }),
    put,
  );
}

/** Takes a criterion off each day reached. */
export function dropCriterion(notebook: Notebook, dayId: string, id: string, reach: Reach): Edit {
  const reason = dayOf(notebook, dayId)?.criteria?.find((one) => one.id === id)?.reason ?? id;
  return criteriaEdit(
    notebook,
    dayId,
    reach,
    say('removing the criterion "{reason}"', { reason }),
    (list) => list.filter((one) => one.id !== id),
  );
}

/** Marks a template's example as set by a person, with who said so. */
export function confirmCriterion(
  notebook: Notebook,
  dayId: string,
  id: string,
  saidBy: string,
  reach: Reach,
): Edit {
  return criteriaEdit(notebook, dayId, reach, say('confirming a criterion'), (list) =>
    list.map((one) => (one.id === id ? { ...one, confirmed: true, saidBy } : one)),
  );
}

function criteriaEdit(
  notebook: Notebook,
  dayId: string,
  reach: Reach,
  label: string,
  change: (list: readonly Criterion[]) => readonly Criterion[],
): Edit {
  const json = (list: readonly Criterion[]): Json => list as unknown as Json;
  const sets: SetTo[] = daysReached(notebook, dayId, reach).map((id) => ({
    path: ['days', id, 'criteria'],
    value: json(change(dayOf(notebook, id)?.criteria ?? [])),
  }));
  if (reach !== 'only this day')
    sets.push({
      path: ['defaults', 'default', 'criteria'],
      value: json(change(defaultsOf(notebook).criteria ?? [])),
    });
  return { label: withReach(label, reach), source: 'typed', sets };
}
