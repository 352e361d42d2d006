import type { SetTo } from '../../shared/edit.ts';
import type { Animal, Notebook, Treatment } from '../../shared/notebook.ts';
import type { Template } from '../../shared/template.ts';
import { isFault } from '../../shared/value.ts';
import { daysBetween, isDate } from '../text/date.ts';
import { applyEdit } from './apply-edit.ts';
import { fromTemplate, type Making } from './from-template.ts';
import { groupOn } from './present.ts';
import { aboutOf, animalsOf, productsOf, treatmentsOf } from './read.ts';
import { setsOf } from './record-sets.ts';
import { say } from '../text/say.ts';

/** The animals a season that begins on `from` starts with: those not gone by then. */
export function animalsStaying(old: Notebook, from: string): readonly Animal[] {
  return animalsOf(old).filter((animal) => animal.left === undefined || from < animal.left);
}

/**
 * Treatments that still bear on a season that begins on `from`: milk or meat not clear by then, or by
 * no date at all, or so late that its counts may still show them by the product's own number of days.
 */
export function treatmentsInForce(old: Notebook, from: string): readonly Treatment[] {
  const staying = new Set(animalsStaying(old, from).map(({ id }) => id));
  const afterDays = new Map(productsOf(old).map(({ id, afterDays: days }) => [id, days]));
  return treatmentsOf(old).filter(({ animal, product, date, meatClear, milkClear }) => {
    if (animal === undefined || date === undefined || !staying.has(animal)) return false;
    const isClear = [meatClear, milkClear].every(
      (clear) => clear !== undefined && isDate(clear) && clear <= from,
    );
    const days = daysBetween(date, from);
    return !isClear || (!isFault(days) && days <= (afterDays.get(product ?? '') ?? 0));
  });
}

/**
 * A new season from a template: the animals still here on `from`, the groups they are in that day, the
 * products, and treatments that still bear on it are carried over with their ids; old sampling days
 * stay in the old notebook.
 */
export function nextSeason(
  old: Notebook,
  template: Template,
  making: Making,
  from: string,
): Notebook {
  const start = fromTemplate(template, making);
  const staying = animalsStaying(old, from);
  const { herdWord, weightUnit, decimalMark, keepUntreated } = aboutOf(old);
  const sets: SetTo[] = [
    ...setsOf('about', 'notebook', { herdWord, weightUnit, decimalMark, keepUntreated }),
    ...staying.flatMap(({ id, ...facts }) => {
      const group = groupOn(old, id, from);
      return [
        ...setsOf('animals', id, facts),
        ...(group === undefined ? [] : [{ path: ['groups', id, from] as const, value: group }]),
      ];
    }),
    ...productsOf(old).flatMap(({ id, ...facts }) => setsOf('products', id, facts)),
    ...treatmentsInForce(old, from).flatMap(({ id, ...facts }) => setsOf('treatments', id, facts)),
  ];
  const edit = { label: say('carrying over'), source: 'template' as const, sets };
  return applyEdit(start, edit, making.stamp).notebook;
}
