import type { Notebook, Treatment } from '../../shared/notebook.ts';
import { animalOf, byText } from '../notebook/read.ts';
import { treatmentsOfAnimal } from './after-treatment.ts';
import { readClear } from './clear-date.ts';
import { productName } from './product.ts';
import { wordList } from './word-list.ts';
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

/** A clearance as a sentence; `null` where the animal is clear. */
export function clearanceSentence(clearance: Clearance, produce: Produce): string | null {
  const what = produce === 'meat' ? say('Meat') : say('Milk');
  switch (clearance.state) {
    case 'clear':
      return null;
    case 'until':
      return say('{what} not clear until {date} ({product}).', {
        what,
        date: clearance.date,
        product: clearance.product,
      });
    case 'not permitted':
      return say('{what} not permitted for people after {product}: ask your vet.', {
        what,
        product: clearance.product,
      });
    case 'ask': {
      const other =
        clearance.latest === null
          ? ''
          : say(' Other products are clear from {latest} at the earliest.', {
              latest: clearance.latest,
            });
      return say('{what}: no clear date for {product}, ask your vet.{other}', {
        what,
        product: clearance.product,
        other,
      });
    }
  }
}

/** What is not clear of an animal on a date: a sentence for meat and one for milk, `null` where clear. */
export interface NotClear {
  readonly meat: string | null;
  readonly milk: string | null;
}

/** "Meat not clear until 2026-06-12 (…)", and the same for milk; both null for a clear animal. */
export function notClear(notebook: Notebook, animalId: string, date: string): NotClear {
  const sentence = (produce: Produce): string | null =>
    clearanceSentence(clearance(notebook, animalId, date, produce), produce);
  return { meat: sentence('meat'), milk: sentence('milk') };
}

/** Both in as few sentences as they need: one where meat and milk stand alike. Empty where both are clear. */
export function notClearWords({ meat, milk }: NotClear): readonly string[] {
  if (meat === null || milk === null) return [meat, milk].filter((words) => words !== null);
  const tail = meat.replace(/^Meat/, '');
  return milk === `Milk${tail}` ? [say('Meat and milk{tail}', { tail })] : [meat, milk];
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
        date,
        meat,
      }),
    ];
  });
}
