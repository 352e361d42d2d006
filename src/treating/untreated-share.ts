import type { Notebook } from '../../shared/notebook.ts';
import { aboutOf, byText, dayOf } from '../notebook/read.ts';
import { atLeast } from '../stats/at-least.ts';
import { isTreatedOn } from './after-treatment.ts';
import { shortNumber } from './short-number.ts';
import type { ListEntry, TreatmentList } from './treatment-list.ts';
import { say } from '../text/say.ts';

/** Left untreated, at least, where the person has set nothing: 10 %, from memory (10–20 % in UK vet advice). */
export const KEEP_UNTREATED = 0.1;

/**
 * Whose treatment is counted: the ticks alone, or the ticks and everyone on the list not decided against
 * ("what if I treat the list").
 */
export type ShareBasis = 'ticks' | 'list';

/** How many of a group stay untreated. */
export interface UntreatedShare {
  /** Null: animals in no group. For the whole herd see `wholeHerd`. */
  readonly group: string | null;
  readonly present: number;
  /** Neither ticked nor treated within the product's own days, and enough known of them. */
  readonly untreated: number;
  /** Untreated so far, but not enough is known of them; in neither number above. */
  readonly notEnoughKnown: number;
  /** `untreated` over `present`, 0 to 1. */
  readonly share: number;
  /** Their share of the eggs counted in the group, 0 to 1; null when nobody was counted or no egg was seen. */
  readonly eggShare: number | null;
  /** Of those untreated, how many were counted. */
  readonly countedUntreated: number;
  /** "4 of 20 stay untreated (20 %); they carry 6 % of the eggs counted". */
  readonly sentence: string;
  /** Empty, or why so few untreated animals matter; never against treating one with a sign. */
  readonly warning: string;
}

/** One share for each group present, in plain order, and one for animals in no group if there are any. */
export function untreatedShares(
  notebook: Notebook,
  dayId: string,
  list: TreatmentList,
  basis: ShareBasis,
): readonly UntreatedShare[] {
  const byGroup = new Map<string | null, ListEntry[]>();
  for (const entry of entriesOf(list)) {
    const group = entry.group ?? null;
    const entries = byGroup.get(group) ?? [];
    entries.push(entry);
    byGroup.set(group, entries);
  }
  return [...byGroup]
    .sort(([a], [b]) => (a === null ? 1 : b === null ? -1 : byText(a, b)))
    .map(([group, entries]) => shareOf(notebook, dayId, group, entries, basis));
}

/** The same over all animals present, whatever their group. */
export function wholeHerdShare(
  notebook: Notebook,
  dayId: string,
  list: TreatmentList,
  basis: ShareBasis,
): UntreatedShare {
  return shareOf(notebook, dayId, null, entriesOf(list), basis);
}

/** Everyone on a list, in one row. */
export function entriesOf(list: TreatmentList): readonly ListEntry[] {
  return [...list.over, ...list.notEnoughKnown, ...list.below];
}

/** Whether an animal is, or would be, treated: in the log already, ticked, or on the list and not decided against. */
export function isTreatedBy(
  notebook: Notebook,
  dayId: string,
  entry: ListEntry,
  basis: ShareBasis,
): boolean {
  const date = dayOf(notebook, dayId)?.date ?? dayId.slice(0, 10);
  if (isTreatedOn(notebook, entry.animal.id, date)) return true;
  if (entry.decision) return entry.decision.treat;
  return basis === 'list' && entry.outcome.kind === 'over';
}

/** The person's own figure for how many stay untreated at least, 0 to 1. */
export function keepUntreated(notebook: Notebook): number {
  return aboutOf(notebook).keepUntreated ?? KEEP_UNTREATED;
}

function shareOf(
  notebook: Notebook,
  dayId: string,
  group: string | null,
  entries: readonly ListEntry[],
  basis: ShareBasis,
): UntreatedShare {
  const left = entries.filter((entry) => !isTreatedBy(notebook, dayId, entry, basis));
  const known = left.filter(({ outcome }) => outcome.kind !== 'not enough known');
  const eggsOf = (list: readonly ListEntry[]): number =>
    list.reduce((sum, { epg }) => sum + (epg ?? 0), 0);
  const total = eggsOf(entries);
  const counts = {
    present: entries.length,
    untreated: known.length,
    notEnoughKnown: left.length - known.length,
    share: entries.length === 0 ? 0 : known.length / entries.length,
    eggShare: total > 0 ? eggsOf(known) / total : null,
    countedUntreated: known.filter(({ epg }) => epg !== null).length,
  };
  return {
    group,
    ...counts,
    sentence: shareSentence(counts),
    warning: shareWarning(counts, group, keepUntreated(notebook)),
  };
}

type Counts = Omit<UntreatedShare, 'group' | 'sentence' | 'warning'>;

function shareSentence(counts: Counts): string {
  const { present, untreated, notEnoughKnown, share, eggShare, countedUntreated } = counts;
  const counted = eggShare === null ? 'none' : countedUntreated === untreated ? 'all' : 'some';
  return say(
    '{untreated} of {present} stay untreated ({percent} %){unknown, plural, =0 {} other {, # more not enough known}}{whoCounted, select, none {} all {; they carry {eggPercent} % of the eggs counted} other {; they carry {eggPercent} % of the eggs counted ({counted} of them counted)}}.',
    {
      untreated,
      present,
      percent: shortNumber(100 * share, 0),
      unknown: notEnoughKnown,
      whoCounted: counted,
      eggPercent: shortNumber(100 * (eggShare ?? 0), 0),
      counted: countedUntreated,
    },
  );
}

function shareWarning(counts: Counts, group: string | null, keep: number): string {
  const { present, untreated, notEnoughKnown, share } = counts;
  if (present === 0 || keep <= 0) return '';
  const all = untreated === 0 && notEnoughKnown === 0;
  if (!all && atLeast(share, keep)) return '';
  const which = `${all ? 'all' : 'few'}${group === null ? '' : 'InGroup'}`;
  return say(
    '{which, select, all {Everyone would be treated} allInGroup {Everyone of {group} would be treated} few {Only {untreated} of {present} would stay untreated, fewer than the {percent} % you set} other {Only {untreated} of {present} of {group} would stay untreated, fewer than the {percent} % you set}}: worms that survive the product would then be the only ones left to breed. Treat every animal that shows a sign all the same.',
    { which, untreated, present, group, percent: shortNumber(100 * keep, 0) },
  );
}
