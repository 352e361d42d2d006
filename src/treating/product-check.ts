import type { Product, ProductFacts } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { withdrawalFault } from './clear-date.ts';
import { lastGoodDay } from './expiry.ts';
import { labelStrengthGap } from './label-dose.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** Something wrong with, or missing from, one field of a product. */
export interface ProductFault {
  readonly field: keyof ProductFacts;
  readonly sentence: string;
}

/** Days after a treatment during which counts are offered to be marked; the label has no such line. */
export const SUGGESTED_AFTER_DAYS = 21;

/**
 * What is wrong with what was typed of a product, in the order of the form. An empty list does not mean
 * that a dose can be worked out: see `productGaps` for what is missing.
 */
export function productFaults(product: Product): readonly ProductFault[] {
  const faults: ProductFault[] = [];
  const add = (field: keyof ProductFacts, sentence: string): void => {
    faults.push({ field, sentence });
  };
  if ((product.name ?? '').trim() === '')
    add('name', say('Give the product the name on its label.'));
  for (const [field, what] of amounts) {
    const value = product[field];
    if (value !== undefined && !(Number.isFinite(value) && value > 0))
      add(
        field,
        say('{what} must be more than 0; leave it empty if the label does not say.', { what }),
      );
  }
  for (const [field, what] of dayNumbers) {
    const value = product[field];
    if (value !== undefined && !(Number.isInteger(value) && value >= 0 && value <= 400))
      add(field, say('{what} is a whole number of days, 0 or more.', { what }));
  }
  const { sampleFromDays: from, sampleToDays: to } = product;
  if (from !== undefined && to !== undefined && to < from)
    add('sampleToDays', say('The last day for the second sample is before the first.'));
  if (product.expires !== undefined && product.expires.trim() !== '') {
    const last = lastGoodDay(product.expires);
    if (isFault(last)) add('expires', last.sentence);
  }
  for (const [field, what] of withdrawals) {
    const wrong = product[field] && withdrawalFault(product[field], what);
    if (wrong) add(field, wrong.sentence);
  }
  const isVets = product.vetMl !== undefined || product.vetPerKg !== undefined;
  if (isVets && (product.vetName ?? '').trim() === '')
    add('vetName', say("A vet's own dose needs the name of the vet who set it."));
  if (product.vetPerKg !== undefined && product.vetMl === undefined)
    add('vetMl', say('Type how many mL the vet set for that many kg.'));
  return faults;
}

/** What the label says and nobody has typed yet, or typed in two ways that disagree; each with what it stops. */
export function productGaps(product: Product, mark: DecimalMark = '.'): readonly ProductFault[] {
  const gaps: ProductFault[] = [];
  const hasLine = product.labelMl !== undefined && product.labelPer !== undefined;
  const hasStrength = product.mgPerKg !== undefined && product.mgPerMl !== undefined;
  if (!hasLine && !hasStrength)
    gaps.push({
      field: 'labelMl',
      sentence: say("Type the label's dose line, mL per kg: without it no dose is worked out."),
    });
  const gap = labelStrengthGap(product, mark);
  if (gap) gaps.push({ field: 'labelMl', sentence: gap });
  if ((product.species ?? []).length === 0)
    gaps.push({
      field: 'species',
      sentence: say('Tick the species the label names: without them no dose is worked out.'),
    });
  if ((product.route ?? '').trim() === '')
    gaps.push({
      field: 'route',
      sentence: say('Type the route the label names (by mouth, under the skin, …).'),
    });
  if ((product.expires ?? '').trim() === '')
    gaps.push({ field: 'expires', sentence: say('Type the expiry date on the container.') });
  if (!product.meat || product.meat.kind === 'not stated')
    gaps.push({ field: 'meat', sentence: say('No meat withdrawal: there will be no clear date.') });
  if (!product.milk || product.milk.kind === 'not stated')
    gaps.push({ field: 'milk', sentence: say('No milk withdrawal: there will be no clear date.') });
  if (product.afterDays === undefined)
    gaps.push({
      field: 'afterDays',
      sentence: say(
        'Type for how many days a count is marked as after treatment ({days} to start with: counts stay low for about three weeks).',
        { days: SUGGESTED_AFTER_DAYS },
      ),
    });
  return gaps;
}

const amounts = [
  ['labelMl', say("The mL of the label's line")],
  ['labelPer', say("The weight of the label's line")],
  ['mgPerKg', say('The mg per kg')],
  ['mgPerMl', say('The strength in mg per mL')],
  ['stepMl', say('The step of the syringe in mL')],
  ['vetMl', say("The mL of the vet's dose")],
  ['vetPerKg', say("The kg of the vet's dose")],
] as const;

const dayNumbers = [
  ['afterDays', say('How long a count is marked as after treatment')],
  ['sampleFromDays', say('The first day for the second sample')],
  ['sampleToDays', say('The last day for the second sample')],
] as const;

const withdrawals = [
  ['meat', say('The meat withdrawal')],
  ['milk', say('The milk withdrawal')],
  ['vetMeat', say("The vet's meat withdrawal")],
  ['vetMilk', say("The vet's milk withdrawal")],
] as const;
