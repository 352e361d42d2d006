import type { Json } from '../../shared/cell.ts';
import type { Edit } from '../../shared/edit.ts';
import type { Decision, Notebook } from '../../shared/notebook.ts';
import { fault, type Fault, type Value } from '../../shared/value.ts';
import { newest } from '../notebook/cell.ts';
import type { Outcome } from '../notebook/outcome.ts';
import { animalOf, columnsOf, dayOf, readingOf } from '../notebook/read.ts';
import { say } from '../text/say.ts';

/** What is decided for one animal. */
export interface Deciding {
  readonly animal: string;
  readonly treat: boolean;
  /** Why, in the person's words; the list's own reasons where the decision follows the list. */
  readonly reason: string;
  readonly values: Readonly<Record<string, Value>>;
}

/** The decision recorded for an animal on a day; `undefined` where none was. */
export function decisionOf(
  notebook: Notebook,
  dayId: string,
  animalId: string,
): Decision | undefined {
  return newest(notebook.decisions[dayId]?.[animalId]);
}

/**
 * Records decisions as one edit, each with its reason and the values it was made on, so that it can be read
 * later even when counts are corrected. A decision never has to agree with the list, and no reason is
 * demanded: ticks do not block. Faults: an unknown day or animal.
 */
export function decide(
  notebook: Notebook,
  dayId: string,
  decisions: readonly Deciding[],
): Edit | Fault {
  if (dayOf(notebook, dayId)?.date === undefined)
    return fault('no-day', say('That sampling day is not in this notebook.'));
  const [first] = decisions;
  if (!first) return fault('no-animals', say('No animal is chosen.'));
  for (const { animal } of decisions)
    if (!animalOf(notebook, animal)?.tag)
      return fault('no-animal', say('One of these animals is not in this notebook.'));
  const who = { n: decisions.length, tag: animalOf(notebook, first.animal)?.tag ?? '' };
  return {
    label: first.treat
      ? say('deciding to treat {n, plural, =1 {{tag}} other {# animals}}', who)
      : say('deciding to leave {n, plural, =1 {{tag}} other {# animals}} untreated', who),
    source: 'typed',
    sets: decisions.map(({ animal, treat, reason, values }) => ({
      path: ['decisions', dayId, animal] as const,
      value: { treat, reason, values } as unknown as Json,
    })),
  };
}

/** Takes decisions back, so that the animals are undecided again. */
export function undecide(notebook: Notebook, dayId: string, animals: readonly string[]): Edit {
  const who = { n: animals.length, tag: animalOf(notebook, animals[0] ?? '')?.tag ?? '' };
  return {
    label: say('no decision for {n, plural, =1 {{tag}} other {# animals}}', who),
    source: 'typed',
    sets: animals.map((animal) => ({ path: ['decisions', dayId, animal], value: null })),
  };
}

/** The reason a decision starts with: the list's own where it follows the list, else empty, to be typed. */
export function startingReason(outcome: Outcome, treat: boolean): string {
  if (treat) return outcome.reasons.join('; ');
  return outcome.kind === 'below' ? say('below your criteria') : '';
}

/** Whether a decision goes against the list, so that a reason is asked for (and may be left out). */
export function isAgainstList(outcome: Outcome, treat: boolean): boolean {
  return treat ? outcome.kind !== 'over' : outcome.kind === 'over';
}

/**
 * The values a decision is made on: epg and weight as worked out, and everything else typed about the
 * animal that day, by column key and as it was typed.
 */
export function decisionValues(
  notebook: Notebook,
  dayId: string,
  animalId: string,
  derived: Readonly<Record<string, Value>>,
): Readonly<Record<string, Value>> {
  const values: Record<string, Value> = {};
  for (const column of columnsOf(notebook)) {
    const reading = readingOf(notebook, dayId, animalId, column.id);
    if (!reading) continue;
    const isPlain =
      (reading.kind === 'number' && reading.unit === undefined) || reading.kind === 'tick';
    values[column.key] = isPlain ? reading.value : reading.text;
  }
  return { ...values, ...derived };
}
