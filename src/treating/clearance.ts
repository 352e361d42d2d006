import type { Notebook, Treatment } from '../../shared/notebook.ts';
import { animalOf, byText } from '../notebook/read.ts';
import { treatmentsOfAnimal } from './after-treatment.ts';
import { readClear } from './clear-date.ts';
import { productName } from './product.ts';
import { wordList } from './word-list.ts';
import { dateWords } from '../text/date-words.ts';
import { say } from '../text/say.ts';

/** What an animal gives that people eat or drink. */
export type Produce = 'meat' | 'milk';

/**
 * Where an animal stands on a date, over all its products. `ask`: at least one treatment has no clear date,
 * so nobody but a vet can give one; `latest` is the latest date among the others, for the vet.
 */
export type Clearance =
  | { readonly state: 'clear'; readonly since: string | null }
  | { readonly state: 'until'; readonly date: string; readonly product: string }
  | { readonly state: 'not permitted'; readonly product: string }
  | { readonly state: 'ask'; readonly product: string; readonly latest: string | null };

/**
 * Whether meat or milk of an animal is clear on a date: every treatment up to then counts, and the latest
 * clear date holds, so a repeated dose runs from the last one. A product that is not permitted, or a
 * treatment without a clear date, is never outlived by time alone: only a date that a vet gives ends it.
 */
export function clearance(
  notebook: Notebook,
  animalId: string,
  date: string,
  produce: Produce,
): Clearance {
  const given = treatmentsOfAnimal(notebook, animalId).filter(
    (treatment) => (treatment.date ?? '') <= date,
  );
  const clears = given.map((treatment) => ({ treatment, clear: clearOf(treatment, produce) }));
  const dated = clears
    .flatMap(({ treatment, clear }) =>
      clear.kind === 'date' ? [{ date: clear.date, treatment }] : [],
    )
    .sort((a, b) => byText(b.date, a.date));
  const latest = dated[0];
  const names = (kind: 'not permitted' | 'ask'): string =>
    wordList([
      ...new Set(
        clears
          .filter(({ clear }) => clear.kind === kind)
          .map(({ treatment }) => productName(notebook, treatment.product)),
      ),
    ]);
  if (clears.some(({ clear }) => clear.kind === 'not permitted'))
    return { state: 'not permitted', product: names('not permitted') };
  if (clears.some(({ clear }) => clear.kind === 'ask'))
    return { state: 'ask', product: names('ask'), latest: latest?.date ?? null };
  if (!latest) return { state: 'clear', since: null };
  if (latest.date <= date) return { state: 'clear', since: latest.date };
  return {
    state: 'until',
    date: latest.date,
    product: productName(notebook, latest.treatment.product),
  };
}

function clearOf(treatment: Treatment, produce: Produce): ReturnType<typeof readClear> {
  return readClear(produce === 'meat' ? treatment.meatClear : treatment.milkClear);
}

/** A clearance as a sentence for meat, milk or both; `null` where the animal is clear. */
export function clearanceSentence(clearance: Clearance, produce: Produce | 'both'): string | null {
  switch (clearance.state) {
    case 'clear':
      return null;
    case 'until':
      return say(
        '{produce, select, meat {Meat} milk {Milk} other {Meat and milk}} not clear until {date} ({product}).',
        { produce, date: dateWords(clearance.date), product: clearance.product },
      );
    case 'not permitted':
      return say(
        '{produce, select, meat {Meat} milk {Milk} other {Meat and milk}} not permitted for people after {product}: ask your vet.',
        { produce, product: clearance.product },
      );
    case 'ask': {
      const ask = say(
        '{produce, select, meat {Meat} milk {Milk} other {Meat and milk}}: no clear date for {product}, ask your vet.',
        { produce, product: clearance.product },
      );
      if (clearance.latest === null) return ask;
      const others = say('Other products are clear from {date} at the earliest.', {
        date: dateWords(clearance.latest),
      });
      return `${ask} ${others}`;
    }
  }
}

/** What is not clear of an animal on a date: a sentence for meat and one for milk, `null` where clear. */
export interface NotClear {
  readonly meat: string | null;
  readonly milk: string | null;
  /** One sentence for both, where meat and milk stand alike. */
  readonly both: string | null;
}

/** "Meat not clear until 12 June 2026 (…)", and the same for milk; all null for a clear animal. */
export function notClear(notebook: Notebook, animalId: string, date: string): NotClear {
  const meat = clearance(notebook, animalId, date, 'meat');
  const milk = clearance(notebook, animalId, date, 'milk');
  const isAlike = JSON.stringify(meat) === JSON.stringify(milk);
  return {
    meat: clearanceSentence(meat, 'meat'),
    milk: clearanceSentence(milk, 'milk'),
    both: isAlike ? clearanceSentence(meat, 'both') : null,
  };
}

/** Both in as few sentences as they need: one where meat and milk stand alike. Empty where both are clear. */
export function notClearWords({ meat, milk, both }: NotClear): readonly string[] {
  return both === null ? [meat, milk].filter((words) => words !== null) : [both];
}

/**
 * What to say before animals leave the farm on a date: one sentence for each whose meat is not clear then.
 * It warns and never forbids: an animal may go to another farm with its treatment written down.
 */
export function leavingWarnings(
  notebook: Notebook,
  animalIds: readonly string[],
  date: string,
): readonly string[] {
  return animalIds.flatMap((id) => {
    const { meat } = notClear(notebook, id, date);
    if (meat === null) return [];
    const tag = animalOf(notebook, id)?.tag ?? id;
    return [
      say('{tag} would leave on {date}: {meat} Tell the buyer in writing, or wait.', {
        tag,
        date: dateWords(date),
        meat,
      }),
    ];
  });
}
