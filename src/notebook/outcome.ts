import type { CriterionAnswer } from '../../shared/derived.ts';
import type { Criterion, Notebook } from '../../shared/notebook.ts';
import { columnByKey, dayOf } from './read.ts';

export type OutcomeKind = 'over' | 'below' | 'not enough known';

/** What the criteria say of one animal on one day, with every reason. */
export interface Outcome {
  readonly kind: OutcomeKind;
  /** Reasons that hold, danger first. */
  readonly reasons: readonly string[];
  /** The danger of the first reason; 0 when none holds. */
  readonly danger: number;
  /** Labels of what is missing for a criterion that must be known. */
  readonly lacking: readonly string[];
  /** Labels of what was not looked at, for an animal that is below all the same. */
  readonly notLooked: readonly string[];
}

/**
 * Any criterion that holds puts the animal over; else one that must be known and could not be judged
 * leaves it not enough known; else it is below, naming what was not looked at.
 */
export function outcomeOf(
  notebook: Notebook,
  dayId: string,
  answers: readonly CriterionAnswer[],
): Outcome {
  const criteria = dayOf(notebook, dayId)?.criteria ?? [];
  return judge(criteria, answers, (key) => columnByKey(notebook, key)?.label ?? key);
}

/** The rule by itself: criteria and their answers in, outcome out. */
export function judge(
  criteria: readonly Criterion[],
  answers: readonly CriterionAnswer[],
  labelOf: (key: string) => string = (key) => key,
): Outcome {
  const byId = new Map(criteria.map((criterion) => [criterion.id, criterion]));
  const holding: Criterion[] = [];
  const lacking = new Set<string>();
  const notLooked = new Set<string>();
  let hasUnknownMust = false;
  for (const answer of answers) {
    const criterion = byId.get(answer.criterion);
    if (!criterion) continue;
    if (answer.holds === true) holding.push(criterion);
    if (answer.holds !== null) continue;
    const missing = answer.lacking.map(labelOf);
    for (const label of missing) (criterion.mustBeKnown ? lacking : notLooked).add(label);
    if (criterion.mustBeKnown) hasUnknownMust = true;
  }
  holding.sort((a, b) => b.danger - a.danger);
  const kind = holding.length > 0 ? 'over' : hasUnknownMust ? 'not enough known' : 'below';
  return {
    kind,
    reasons: holding.map((criterion) => criterion.reason),
    danger: holding[0]?.danger ?? 0,
    lacking: [...lacking],
    notLooked: [...notLooked],
  };
}
