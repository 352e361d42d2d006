import type { Criterion, Notebook } from '../../shared/notebook.ts';
import { columnByKey, columnsOf, dayOf, readingOf } from '../notebook/read.ts';
import { atLeast } from '../stats/at-least.ts';
import { SCOURING_FROM, THIN_BELOW } from './animal-cautions.ts';
import { isTreatedOn } from './after-treatment.ts';
import { eyelidOf, scoreOf } from './herd-alarm.ts';
import { shortNumber } from './short-number.ts';
import type { ListEntry, TreatmentList } from './treatment-list.ts';
import { entriesOf, keepUntreated, untreatedShares } from './untreated-share.ts';
import { say } from '../text/say.ts';

/** An animal that might be left untreated though its count is at the limit. */
export interface LeaveProposal {
  readonly entry: ListEntry;
  readonly eyelid: number;
  readonly condition: number;
  /** "eyelid colour 1, condition 3.5, 650 epg". */
  readonly why: string;
  /** What to make sure of first; empty when nothing is open. */
  readonly check: string;
}

/** Whom to leave in one group, best first. */
export interface LeaveUntreated {
  readonly group: string | null;
  /** How many more would have to stay untreated to reach the person's own share. */
  readonly needed: number;
  readonly proposals: readonly LeaveProposal[];
}

/**
 * Whom to leave untreated in groups where, with the list treated, fewer than the person's own share would stay.
 *
 * Only animals listed for their epg alone, with eyelid colour scored 1 or 2, condition scored 2 or more, no sign
 * seen, not scouring, not late pregnant or newly in milk, not decided against and not treated yet. Highest condition first, then the
 * lowest epg. A score that was not taken keeps an animal out: not looked at is not healthy.
 *
 * Source: leave the best-looking untreated (advisory pages, read); the bounds are this program's own choice.
 */
export function leaveUntreated(
  notebook: Notebook,
  dayId: string,
  list: TreatmentList,
): readonly LeaveUntreated[] {
  const keep = keepUntreated(notebook);
  const forEpg = epgReasons(notebook, dayId);
  return untreatedShares(notebook, dayId, list, 'list').flatMap((share) => {
    const wanted = Math.ceil(keep * share.present * (1 - 1e-9));
    const needed = wanted - share.untreated;
    if (needed <= 0) return [];
    const proposals = entriesOf(list)
      .filter((entry) => (entry.group ?? null) === share.group)
      .flatMap((entry) => proposalOf(notebook, dayId, entry, forEpg) ?? [])
      .sort((a, b) => b.condition - a.condition || (a.entry.epg ?? 0) - (b.entry.epg ?? 0));
    return [{ group: share.group, needed, proposals }];
  });
}

function proposalOf(
  notebook: Notebook,
  dayId: string,
  entry: ListEntry,
  forEpg: ReadonlyMap<string, boolean>,
): LeaveProposal | null {
  const { animal, epg, outcome } = entry;
  const date = dayOf(notebook, dayId)?.date ?? dayId.slice(0, 10);
  if (outcome.kind !== 'over' || epg === null || !isForEpgAlone(entry, forEpg)) return null;
  if (entry.decision?.treat === false || isTreatedOn(notebook, animal.id, date)) return null;
  if (animal.stage === 'late pregnant' || animal.stage === 'newly in milk') return null;
  if (hasSign(notebook, dayId, animal.id)) return null;
  const eyelid = eyelidOf(notebook, dayId, animal.id);
  const condition = scoreOf(notebook, dayId, animal.id, 'condition');
  if (eyelid === null || eyelid < 1 || eyelid > 2) return null;
  if (condition === null || !atLeast(condition, THIN_BELOW)) return null;
  const isFemale = animal.class === 'ewe' || animal.class === 'doe';
  const isOpen = isFemale && animal.stage === undefined;
  return {
    entry,
    eyelid,
    condition,
    why: say('eyelid colour {eyelid}, condition {condition}, {epg} epg', {
      eyelid,
      condition,
      epg: shortNumber(epg, 0),
    }),
    check: isOpen ? say('Make sure that she is not late pregnant or newly in milk.') : '',
  };
}

/** For each reason of the day's criteria, whether all that bear it ask after the egg count and nothing else. */
function epgReasons(notebook: Notebook, dayId: string): ReadonlyMap<string, boolean> {
  const reasons = new Map<string, boolean>();
  for (const criterion of dayOf(notebook, dayId)?.criteria ?? []) {
    const { reason } = criterion;
    reasons.set(reason, (reasons.get(reason) ?? true) && isEpgCriterion(notebook, criterion));
  }
  return reasons;
}

/** Whether every criterion that holds for an animal asks after its egg count and nothing else. */
function isForEpgAlone({ outcome }: ListEntry, forEpg: ReadonlyMap<string, boolean>): boolean {
  const holding = outcome.reasons.flatMap((reason) => forEpg.get(reason) ?? []);
  return holding.length > 0 && !holding.includes(false);
}

/**
 * Whether a criterion's stored condition names `epg` (or the eggs it is made of) and no other column. Too
 * many eggs to count is no such criterion: nothing is known of how many they are.
 */
export function isEpgCriterion(notebook: Notebook, criterion: Criterion): boolean {
  if (criterion.ready !== undefined) return false;
  const counts = new Set(['epg', 'eggs'].flatMap((key) => columnByKey(notebook, key)?.id ?? []));
  const named = columnsOf(notebook)
    .map(({ id }) => id)
    .filter((id) => criterion.condition.includes(`{c:${id}}`));
  return named.length > 0 && named.every((id) => counts.has(id));
}

/** A tick about the animal that was seen, or dags that say it scours. */
function hasSign(notebook: Notebook, dayId: string, animalId: string): boolean {
  const dag = scoreOf(notebook, dayId, animalId, 'dag');
  if (dag !== null && dag >= SCOURING_FROM) return true;
  return columnsOf(notebook)
    .filter(({ kind, about }) => kind === 'tick' && about !== 'cup')
    .some(({ id }) => {
      const reading = readingOf(notebook, dayId, animalId, id);
      return reading?.kind === 'tick' && reading.value;
    });
}
