import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { animalOf, byText, treatmentsOf } from '../notebook/read.ts';
import { addDays } from '../text/date.ts';
import type { CalendarEntry } from './calendar.ts';
import { LIST_CAUTIONS } from './cautions.ts';
import { productName, productOf } from './product.ts';
import { sampleWindow, windowWords } from './sample-window.ts';
import { wordList } from './word-list.ts';
import { dateWords } from '../text/date-words.ts';
import { say } from '../text/say.ts';

/** Days after a treatment on which to look at the animals again (from memory: 7 to 10), editable. */
export const RECHECK_DAYS = 7;

/** Something to do after a round of treatments: on `date`, or any day up to `until`. */
export interface FollowUp {
  readonly kind: 'recheck' | 'second sample';
  readonly date: string;
  readonly until: string;
  readonly treatedOn: string;
  readonly product: string;
  readonly productName: string;
  readonly tags: readonly string[];
  /** Where the days come from. */
  readonly why: string;
}

/**
 * What follows each round in the log (one product on one date): looking at the animals again, and the
 * second sample of a dewormer check in the usual window of the product's group. Those over before `from` are
 * left out. Oldest first.
 */
export function followUps(
  notebook: Notebook,
  from: string,
  recheckDays = RECHECK_DAYS,
): readonly FollowUp[] {
  return rounds(notebook)
    .flatMap(({ date, product, tags }) => {
      const window = sampleWindow(productOf(notebook, product));
      const recheck = addDays(date, recheckDays);
      const first = addDays(date, window.fromDays);
      const last = addDays(date, window.toDays);
      if (isFault(recheck) || isFault(first) || isFault(last)) return [];
      const common = {
        treatedOn: date,
        product,
        productName: productName(notebook, product),
        tags,
      };
      const why = say('{days} after treatment, {why}', {
        days: windowWords(window),
        why: window.why,
      });
      const again = say(
        '{days, plural, one {# day} other {# days}} after treatment, from memory: check with your vet',
        {
          days: recheckDays,
        },
      );
      return [
        { ...common, kind: 'recheck' as const, date: recheck, until: recheck, why: again },
        { ...common, kind: 'second sample' as const, date: first, until: last, why },
      ];
    })
    .filter((one) => one.until >= from)
    .sort((a, b) => byText(a.date, b.date) || byText(a.kind, b.kind));
}

interface Round {
  readonly date: string;
  readonly product: string;
  readonly tags: string[];
}

function rounds(notebook: Notebook): readonly Round[] {
  const found = new Map<string, Round>();
  for (const { animal, product, date } of treatmentsOf(notebook)) {
    if (!animal || !product || !date) continue;
    const key = `${date}\n${product}`;
    const round = found.get(key) ?? { date, product, tags: [] };
    round.tags.push(animalOf(notebook, animal)?.tag ?? animal);
    found.set(key, round);
  }
  return [...found.values()];
}

/** A follow-up as a sentence for the log and for paper. */
export function followUpSentence(one: FollowUp): string {
  const facts = {
    n: one.tags.length,
    product: one.productName,
    treated: dateWords(one.treatedOn),
    why: one.why,
  };
  const from = dateWords(one.date);
  if (one.kind === 'recheck')
    return say(
      '{date}: look again at {n, plural, one {# animal} other {# animals}} treated with {product} on {treated}.',
      { ...facts, date: from },
    );
  const days =
    one.until === one.date ? from : say('{from} to {until}', { from, until: dateWords(one.until) });
  return say(
    '{days}: second sample of {n, plural, one {# animal} other {# animals}} treated with {product} on {treated} ({why}).',
    { ...facts, days },
  );
}

/** Follow-ups as entries of a calendar file, with an id that stays the same for the same round. */
export function followUpEntries(
  notebook: Notebook,
  list: readonly FollowUp[],
): readonly CalendarEntry[] {
  return list.map((one) => ({
    uid: `${notebook.id}-${one.kind.replace(' ', '-')}-${one.treatedOn}-${one.product}@sampling-daybook`,
    date: one.date,
    lastDate: one.until,
    title:
      one.kind === 'recheck'
        ? say('Look again after {product}', { product: one.productName })
        : say('Second sample after {product}', { product: one.productName }),
    description: [
      followUpSentence(one),
      say('Tags: {tags}.', { tags: wordList(one.tags) }),
      ...(one.kind === 'recheck' ? LIST_CAUTIONS.slice(3) : []),
    ].join('\n'),
  }));
}
