import type { Notebook, Treatment } from '../../shared/notebook.ts';
import { dayOf, treatmentsOf } from '../notebook/read.ts';
import { atLeast } from '../stats/at-least.ts';
import { daysBetween } from '../text/date.ts';
import { limitByKey } from './limit-by-key.ts';
import { productOf } from './product.ts';
import { say } from '../text/say.ts';

const byAnimal = new WeakMap<object, ReadonlyMap<string, readonly Treatment[]>>();

/** Treatments of one animal, oldest first. Read once for a log, since every row of a grid asks. */
export function treatmentsOfAnimal(notebook: Notebook, animalId: string): readonly Treatment[] {
  let lists = byAnimal.get(notebook.treatments);
  if (!lists) {
    const made = new Map<string, Treatment[]>();
    for (const treatment of treatmentsOf(notebook)) {
      const list = made.get(treatment.animal ?? '') ?? [];
      list.push(treatment);
      made.set(treatment.animal ?? '', list);
    }
    byAnimal.set(notebook.treatments, (lists = made));
  }
  return lists.get(animalId) ?? [];
}

/**
 * Days since the last treatment whose own number of days has not run out on `date`; `undefined` when
 * there is none. The number belongs to the product; a product without one marks nothing.
 *
 * A treatment on the very date is not "after": the sample is taken first, then the animal is treated, and
 * counts do not fall within hours.
 */
export function daysAfterTreatment(
  notebook: Notebook,
  animalId: string,
  date: string,
): number | undefined {
  const found = covering(notebook, animalId, date).filter(({ days }) => days > 0);
  return found.length === 0 ? undefined : Math.min(...found.map(({ days }) => days));
}

/** Whether an animal was treated on the date, or before it within the product's own days. */
export function isTreatedOn(notebook: Notebook, animalId: string, date: string): boolean {
  return (
    covering(notebook, animalId, date).length > 0 ||
    treatmentsOfAnimal(notebook, animalId).some((treatment) => treatment.date === date)
  );
}

/** The treatments whose product's own days have not run out, with days since and that number. */
function covering(
  notebook: Notebook,
  animalId: string,
  date: string,
): readonly { readonly days: number; readonly own: number }[] {
  return treatmentsOfAnimal(notebook, animalId).flatMap((treatment) => {
    const days = daysBetween(treatment.date ?? '', date);
    const own = productOf(notebook, treatment.product ?? '')?.afterDays;
    if (typeof days !== 'number' || own === undefined || days < 0 || days > own) return [];
    return [{ days, own }];
  });
}

/** How many of the animals counted on a day were treated within their product's own days. */
export interface AfterTreatmentCount {
  readonly treated: number;
  readonly of: number;
  /** "5 of 20 treated within 14 days"; empty when none was. */
  readonly sentence: string;
}

/**
 * Counts, among the animals counted on a day, those whose count shows a recent treatment. Their counts stay in
 * the day's figures; the sentence stands beside them.
 */
export function afterTreatmentCount(
  notebook: Notebook,
  dayId: string,
  countedAnimals: readonly string[],
): AfterTreatmentCount {
  const date = dayOf(notebook, dayId)?.date ?? dayId.slice(0, 10);
  const treated = countedAnimals.filter(
    (id) => daysAfterTreatment(notebook, id, date) !== undefined,
  );
  const numbers = treated.flatMap((id) =>
    covering(notebook, id, date).flatMap(({ days, own }) => (days > 0 ? [own] : [])),
  );
  const least = Math.min(...numbers);
  const most = Math.max(...numbers);
  return {
    treated: treated.length,
    of: countedAnimals.length,
    sentence:
      treated.length === 0 ? '' : withinWords(treated.length, countedAnimals.length, least, most),
  };
}

function withinWords(treated: number, of: number, least: number, most: number): string {
  return least === most
    ? say('{treated} of {of} treated within {days, plural, one {# day} other {# days}}', {
        treated,
        of,
        days: most,
      })
    : say('{treated} of {of} treated within {least} to {most} days, by product', {
        treated,
        of,
        least,
        most,
      });
}

/** Whether a count after treatment is still at the limit to treat from, or over: "still high after treatment". */
export function isStillHigh(
  notebook: Notebook,
  dayId: string,
  animalId: string,
  epg: number | null,
): boolean {
  const date = dayOf(notebook, dayId)?.date ?? dayId.slice(0, 10);
  const limit = limitByKey(notebook, dayId, 'treat_from');
  if (epg === null || limit === undefined) return false;
  return daysAfterTreatment(notebook, animalId, date) !== undefined && atLeast(epg, limit);
}
