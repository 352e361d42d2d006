import type { Withdrawal } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { clearDate, isDate } from '../text/date.ts';
import { say } from '../text/say.ts';

/** When meat or milk of one treatment is clear: a date, never for people, or only a vet can say. */
export type Clear =
  | { readonly kind: 'date'; readonly date: string }
  | { readonly kind: 'not permitted' }
  | { readonly kind: 'ask' };

/** How a treatment's `meatClear` and `milkClear` are written: an ISO date or one of these words. */
export const NOT_PERMITTED = 'not permitted';
export const ASK_VET = 'no clear date, ask your vet';

/**
 * The clear date that a withdrawal gives from a treatment date: the first whole day that is clear
 * (1 June and 10 days: 12 June; a typed 0: the day itself).
 *
 * Hours are rounded up to whole days, so the date is safe for a treatment at any time of that day: 72
 * hours from the evening of 1 June end in the evening of 4 June, and 5 June is clear. The label may let
 * milk go some hours sooner; a date never lets it go too soon.
 *
 * Not stated, or no withdrawal at all: no date. Faults: a date that is none, days or hours below 0.
 */
export function clearAfter(withdrawal: Withdrawal | undefined, date: string): Clear | Fault {
  if (!withdrawal || withdrawal.kind === 'not stated') return { kind: 'ask' };
  if (withdrawal.kind === 'not permitted') return { kind: 'not permitted' };
  const wrong = withdrawalFault(withdrawal, say('The withdrawal'));
  if (wrong) return wrong;
  const days = withdrawal.kind === 'days' ? withdrawal.days : Math.ceil(withdrawal.hours / 24);
  const clear = clearDate(date, days);
  return isFault(clear) ? clear : { kind: 'date', date: clear };
}

/** Most days a withdrawal can honestly be; more is a slip of the keys. */
export const MOST_WITHDRAWAL_DAYS = 1000;

/** What is wrong with a typed withdrawal, or `null`. `what` begins the sentence: "The milk withdrawal". */
export function withdrawalFault(withdrawal: Withdrawal, what: string): Fault | null {
  if (withdrawal.kind === 'days') {
    const { days } = withdrawal;
    if (Number.isInteger(days) && days >= 0 && days <= MOST_WITHDRAWAL_DAYS) return null;
    return fault(
      'bad-withdrawal',
      say(
        '{what} cannot be {days} days. Type the whole days of the label, 0 or more, or choose not stated.',
        { what, days },
      ),
    );
  }
  if (withdrawal.kind === 'hours') {
    const { hours } = withdrawal;
    if (Number.isFinite(hours) && hours >= 0 && hours <= 24 * MOST_WITHDRAWAL_DAYS) return null;
    return fault(
      'bad-withdrawal',
      say(
        '{what} cannot be {hours} hours. Type the hours of the label, 0 or more, or choose not stated.',
        { what, hours },
      ),
    );
  }
  return null;
}

/** A clear date as it stands in the treatment log. */
export function clearText(clear: Clear): string {
  if (clear.kind === 'date') return clear.date;
  return clear.kind === 'not permitted' ? NOT_PERMITTED : ASK_VET;
}

/** Reads it back. Anything that is neither a date nor "not permitted" gives no date: ask. */
export function readClear(text: string | undefined): Clear {
  const plain = (text ?? '').trim();
  if (isDate(plain)) return { kind: 'date', date: plain };
  return plain.toLowerCase() === NOT_PERMITTED ? { kind: 'not permitted' } : { kind: 'ask' };
}
