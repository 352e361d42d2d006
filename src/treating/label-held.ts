import type { Animal, Product } from '../../shared/notebook.ts';
import type { Fault } from '../../shared/value.ts';
import { atLeast } from '../stats/at-least.ts';
import { MOST_ADDED } from '../stats/dose.ts';
import { MOST_TIMES } from './band-dose.ts';
import { exactVetsDose, noVetDose, vetsDose } from './dose.ts';
import { labelDose } from './label-dose.ts';
import { labelStops, type Giving } from './label-stops.ts';
import { shortNumber } from './short-number.ts';
import { weightStop } from './weight-check.ts';
import { say } from '../text/say.ts';

/** What was really given. */
export interface Given extends Giving {
  readonly doseMl: number | null;
  readonly weightKg: number | null;
  /** The label (or the vet) says to dose a group by its heaviest, and this one was. */
  readonly byHeaviest?: boolean;
}

/**
 * Why what was given is not the label's own dose, route and species, so that its withdrawal does not hold;
 * empty when it is. Rounding up by up to 10 % is still the label's dose; less than it, or more, is not. A
 * band dosed by its heaviest, where the label itself says so, may get up to twice. Without a dose or a weight nobody
 * can say, so it is not.
 */
export function labelBroken(product: Product, animal: Animal, given: Given): readonly string[] {
  const stops = labelStops(product, animal, given);
  if (stops.length > 0) return stops;
  return doseBroken(animal, given, null, (kg) => labelDose(product, kg));
}

/** The same for a vet's own dose: why what was given is not what the vet set. */
export function vetsDoseBroken(product: Product, animal: Animal, given: Given): readonly string[] {
  const vet = vetsDose(product);
  const name = (product.vetName ?? '').trim();
  if (vet === null) return [noVetDose(product)];
  if (vet.perKg === undefined) {
    const isSame =
      given.doseMl !== null && atLeast(given.doseMl, vet.ml) && atLeast(vet.ml, given.doseMl);
    return isSame
      ? []
      : [
          say('{tag}: {vet} set {ml} mL for each animal.', {
            tag: animal.tag,
            vet: name,
            ml: shortNumber(vet.ml, 2, given.mark),
          }),
        ];
  }
  return doseBroken(animal, given, name, (kg) => exactVetsDose(vet, kg));
}

function doseBroken(
  animal: Animal,
  given: Given,
  vet: string | null,
  doseOf: (kg: number) => number | Fault | null,
): readonly string[] {
  const { doseMl, weightKg } = given;
  if (doseMl === null) return [say('{tag}: no dose was noted.', { tag: animal.tag })];
  const weight = weightKg === null ? null : { kg: weightKg, date: given.date };
  const noWeight = weightStop(animal, weight, given.mark);
  if (noWeight !== null || weightKg === null)
    return [noWeight ?? say('{tag} has no weight: weigh it first.', { tag: animal.tag })];
  const own = doseOf(weightKg);
  if (typeof own !== 'number') return own === null ? [] : [own.sentence];
  const facts = {
    tag: animal.tag,
    given: shortNumber(doseMl, 2, given.mark),
    right: shortNumber(own, 2, given.mark),
    weight: shortNumber(weightKg, 1, given.mark),
    vet: vet ?? '',
  };
  const words = (is: 'little' | 'much'): string =>
    vet === null
      ? say(
          '{tag} got {given} mL and the label says {right} mL for {weight} kg: {is, select, little {too little} other {too much}}.',
          { ...facts, is },
        )
      : say(
          '{tag} got {given} mL and {vet} set {right} mL for {weight} kg: {is, select, little {too little} other {too much}}.',
          { ...facts, is },
        );
  if (!atLeast(doseMl, own)) return [words('little')];
  const isTooMuch = given.byHeaviest
    ? atLeast(doseMl, MOST_TIMES * own)
    : !atLeast((1 + MOST_ADDED) * own, doseMl);
  return isTooMuch ? [words('much')] : [];
}
