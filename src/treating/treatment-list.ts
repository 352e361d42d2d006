import type { CriterionAnswer } from '../../shared/derived.ts';
import type { Animal, Decision, Notebook } from '../../shared/notebook.ts';
import type { RowId } from '../../shared/ref.ts';
import type { Value } from '../../shared/value.ts';
import { outcomeOf, type Outcome } from '../notebook/outcome.ts';
import { groupOn, presentAnimals } from '../notebook/present.ts';
import { dayOf } from '../notebook/read.ts';
import { daysAfterTreatment, isStillHigh } from './after-treatment.ts';
import { animalCautions } from './animal-cautions.ts';
import { notClear, type NotClear } from './clearance.ts';
import { decisionOf } from './decision.ts';
import { figureOf } from './figure-of.ts';
import { herdAlarm, type HerdAlarm } from './herd-alarm.ts';
import { wordList } from './word-list.ts';
import { say } from '../text/say.ts';

/** What the engine says of one row of the open day. */
export interface ListRow {
  readonly row: RowId;
  readonly answers: readonly CriterionAnswer[];
  readonly epg: Value;
  readonly weightKg: Value;
}

/** One animal of the list. */
export interface ListEntry {
  readonly animal: Animal;
  readonly group: string | undefined;
  readonly outcome: Outcome;
  /** Null when not counted; too many to count is a reason, not a number. */
  readonly epg: number | null;
  readonly weightKg: number | null;
  readonly decision: Decision | undefined;
  /** Days since a treatment that the count still shows. */
  readonly daysAfter: number | undefined;
  readonly isStillHigh: boolean;
  readonly notClear: NotClear;
  readonly cautions: readonly string[];
  /** The outcome in one line, with reasons, or what is missing, or what was not looked at. */
  readonly sentence: string;
}

/** Whom to treat on a day. The three lists hold each animal present once. */
export interface TreatmentList {
  readonly over: readonly ListEntry[];
  readonly notEnoughKnown: readonly ListEntry[];
  readonly below: readonly ListEntry[];
  readonly present: number;
  /** With an epg, and with an outcome (over or below). */
  readonly counted: number;
  readonly judged: number;
  readonly ticked: number;
  readonly alarm: HerdAlarm;
  /** "5 of 38 over your criteria, 14 below, 19 not enough known". */
  readonly summary: string;
}

/**
 * The treatment list of a day: over the person's criteria with every reason, danger first and then the higher
 * epg; not enough known, naming what is missing; below, naming what was not looked at. An animal present
 * without a row is not enough known. Rows of cups that are no animal's own are passed over.
 */
export function treatmentList(
  notebook: Notebook,
  dayId: string,
  rows: readonly ListRow[],
): TreatmentList {
  const byRow = new Map(rows.map((row) => [row.row, row]));
  const entries = presentAnimals(notebook, dayId).map((animal) =>
    listEntry(notebook, dayId, animal, byRow.get(animal.id)),
  );
  return listOfEntries(notebook, dayId, entries);
}

/** The list made of its entries, for a page that works them out in slices. */
export function listOfEntries(
  notebook: Notebook,
  dayId: string,
  entries: readonly ListEntry[],
): TreatmentList {
  const of = (kind: Outcome['kind']): ListEntry[] =>
    entries.filter((entry) => entry.outcome.kind === kind);
  const over = of('over').sort(byDanger);
  const notEnoughKnown = of('not enough known');
  const below = of('below');
  return {
    over,
    notEnoughKnown,
    below,
    present: entries.length,
    counted: entries.filter(({ epg }) => epg !== null).length,
    judged: over.length + below.length,
    ticked: entries.filter(({ decision }) => decision?.treat === true).length,
    alarm: herdAlarm(notebook, dayId),
    summary: say('{over} of {all} over your criteria, {below} below, {unknown} not enough known', {
      over: over.length,
      all: entries.length,
      below: below.length,
      unknown: notEnoughKnown.length,
    }),
  };
}

/** One animal of the list; without a row nothing is known of it. */
export function listEntry(
  notebook: Notebook,
  dayId: string,
  animal: Animal,
  row: ListRow | undefined,
): ListEntry {
  const date = dayOf(notebook, dayId)?.date ?? dayId.slice(0, 10);
  const outcome = row ? outcomeOf(notebook, dayId, row.answers) : NOTHING_KNOWN;
  const epg = figureOf(row?.epg);
  return {
    animal,
    group: groupOn(notebook, animal.id, date),
    outcome,
    epg,
    weightKg: figureOf(row?.weightKg),
    decision: decisionOf(notebook, dayId, animal.id),
    daysAfter: daysAfterTreatment(notebook, animal.id, date),
    isStillHigh: isStillHigh(notebook, dayId, animal.id, epg),
    notClear: notClear(notebook, animal.id, date),
    cautions: animalCautions(notebook, dayId, animal, outcome, epg),
    sentence: outcomeSentence(outcome),
  };
}

const NOTHING_KNOWN: Outcome = {
  kind: 'not enough known',
  reasons: [],
  danger: 0,
  lacking: [],
  notLooked: [],
};

/** An outcome in one line. */
export function outcomeSentence(outcome: Outcome): string {
  switch (outcome.kind) {
    case 'over':
      return say('Over your criteria: {reasons}.', { reasons: wordList(outcome.reasons) });
    case 'not enough known':
      return outcome.lacking.length === 0
        ? say('Not enough known: nothing typed yet.')
        : say('Not enough known: {lacking} missing.', { lacking: wordList(outcome.lacking) });
    case 'below':
      return outcome.notLooked.length === 0
        ? say('Below your criteria.')
        : say('Below your criteria; not looked at: {lacking}.', {
            lacking: wordList(outcome.notLooked),
          });
  }
}

/** Danger first; then the higher epg; one without a number after those that have one. */
function byDanger(a: ListEntry, b: ListEntry): number {
  return b.outcome.danger - a.outcome.danger || (b.epg ?? -1) - (a.epg ?? -1);
}
