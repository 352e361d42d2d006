import type { Animal, Product } from '../../shared/notebook.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { doseByLabel } from '../stats/dose.ts';
import { isPositive } from '../stats/input-check.ts';
import { labelDose, labelSum } from './label-dose.ts';
import { labelStops, type Giving } from './label-stops.ts';
import { shortNumber } from './short-number.ts';
import { weightQuestions, weightStop } from './weight-check.ts';
import type { DoseWeight } from './weighing.ts';
import { writeNumber, type DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** Whose dose: the label's, or the one that a vet set and put a name to. */
export type DoseSource = 'label' | 'vet';

/** A dose, or the reasons why there is none. `ml` is null exactly when `stops` has something. */
export interface DoseAnswer {
  readonly ml: number | null;
  readonly source: DoseSource | null;
  /** The sum in words, "42 kg × 1 mL ÷ 5 kg = 8.4 mL, drawn up as 8.5 mL"; empty without a dose. */
  readonly sum: string;
  /** Reasons why no number is given; each says what to do. */
  readonly stops: readonly string[];
  /** What to make sure of first; never stops. */
  readonly questions: readonly string[];
  /** What of the label does not cover this animal and the vet's own dose lifts; shown beside it. */
  readonly lifted: readonly string[];
}

/** What is asked: the giving, and whose dose. Unsaid: the label's where it covers the animal, else the vet's. */
export interface DoseAsked extends Giving {
  readonly source?: DoseSource;
}

/**
 * The dose of a product for one animal, in mL, rounded up to the step of the syringe.
 *
 * A stop instead of a number: no weight, a weight of 0 or above 400 kg, no strength, out of date, a species
 * or route that is not the label's. The vet's own dose with the vet's name lifts what the label stops; a
 * dose set per kg still needs a possible weight, one set per animal needs none. A weight that is old for
 * young stock, or far off the last one, is a question.
 */
export function doseFor(
  product: Product,
  animal: Animal,
  weight: DoseWeight | null,
  asked: DoseAsked,
): DoseAnswer {
  const stops = [
    ...labelStops(product, animal, asked),
    ...[weightStop(animal, weight, asked.mark)].filter((stop) => stop !== null),
  ];
  const vet = vetsDose(product);
  const useVet =
    vet !== null && asked.source !== 'label' && (asked.source === 'vet' || stops.length > 0);
  if (useVet) return fromVet(product, animal, weight, asked, vet, stops);
  if (asked.source === 'vet') return stopped([noVetDose(product)]);
  if (stops.length > 0 || !weight) return stopped([...stops, ...vetHint(product)]);
  const exact = labelDose(product, weight.kg);
  const drawn = labelDose(product, weight.kg, product.stepMl, asked.mark);
  if (isFault(exact) || isFault(drawn)) return stopped([sentence(animal, exact, drawn)]);
  return {
    ml: drawn,
    source: 'label',
    sum: sumText(labelSum(product, weight.kg, asked.mark), exact, drawn, asked.mark),
    stops: [],
    questions: [
      ...weightQuestions(animal, weight, asked.date, asked.mark),
      ...productQuestions(product),
      ...(vet
        ? [
            say("{vet} set a dose of its own too: is the label's the right one here?", {
              vet: product.vetName,
            }),
          ]
        : []),
    ],
    lifted: [],
  };
}

interface VetsDose {
  readonly ml: number;
  /** Absent: so many mL for each animal, whatever its weight. */
  readonly perKg?: number;
}

/** The vet's own dose, if it bears the vet's name and is more than 0. */
export function vetsDose(product: Product): VetsDose | null {
  const { vetMl, vetPerKg } = product;
  if ((product.vetName ?? '').trim() === '' || vetMl === undefined) return null;
  if (!isPositive(vetMl)) return null;
  if (vetPerKg === undefined) return { ml: vetMl };
  return isPositive(vetPerKg) ? { ml: vetMl, perKg: vetPerKg } : null;
}

/** The vet's dose before rounding for one animal; `null` where its weight is needed and not known. */
export function exactVetsDose(vet: VetsDose, kg: number | null): number | Fault | null {
  if (vet.perKg === undefined) return vet.ml;
  return kg === null ? null : doseByLabel(kg, vet.ml, vet.perKg);
}

function fromVet(
  product: Product,
  animal: Animal,
  weight: DoseWeight | null,
  asked: DoseAsked,
  vet: VetsDose,
  lifted: readonly string[],
): DoseAnswer {
  const { mark } = asked;
  const impossible = weightStop(animal, weight, mark);
  if (vet.perKg !== undefined && (impossible !== null || !weight))
    return stopped([
      impossible ?? say('{tag} has no weight: weigh it first.', { tag: animal.tag }),
    ]);
  const exact = exactVetsDose(vet, weight?.kg ?? null);
  const drawn =
    vet.perKg === undefined
      ? vet.ml
      : doseByLabel(weight?.kg ?? NaN, vet.ml, vet.perKg, product.stepMl, mark);
  if (exact === null || isFault(exact) || isFault(drawn))
    return stopped([sentence(animal, exact, drawn)]);
  const words =
    vet.perKg === undefined
      ? say('{ml} mL for each animal', { ml: shortNumber(vet.ml, 2, mark) })
      : `${shortNumber(weight?.kg ?? NaN, 2, mark)} kg × ${writeNumber(vet.ml, mark ?? '.')} mL ÷ ${writeNumber(vet.perKg, mark ?? '.')} kg`;
  const asks =
    weight && impossible === null ? weightQuestions(animal, weight, asked.date, asked.mark) : [];
  return {
    ml: drawn,
    source: 'vet',
    sum: say('{sum}, as {vet} set it', {
      sum: sumText(words, exact, drawn, mark),
      vet: product.vetName?.trim(),
    }),
    stops: [],
    questions: [...asks, ...productQuestions(product)],
    lifted: vet.perKg === undefined ? lifted : lifted.filter((stop) => stop !== impossible),
  };
}

function productQuestions(product: Product): readonly string[] {
  const name = product.name ?? say('this product');
  return [
    ...((product.expires ?? '').trim() === ''
      ? [say('No expiry date is typed for {name}: is it in date?', { name })]
      : []),
    ...(product.retired === true
      ? [say('{name} is marked as no longer in use: is it the right one?', { name })]
      : []),
  ];
}

/** What is missing of a vet's dose. */
export function noVetDose(product: Product): string {
  return say("No vet's dose for {name}: type the vet's name and the mL the vet set.", {
    name: product.name ?? say('this product'),
  });
}

/** A vet's dose that is half typed explains why it does not help. */
function vetHint(product: Product): readonly string[] {
  const isStarted =
    product.vetMl !== undefined || (product.vetName ?? '').trim() !== '' || !!product.vetDose;
  return isStarted && vetsDose(product) === null ? [noVetDose(product)] : [];
}

function stopped(stops: readonly string[]): DoseAnswer {
  return { ml: null, source: null, sum: '', stops, questions: [], lifted: [] };
}

function sumText(
  words: string,
  exact: number,
  drawn: number,
  mark: DecimalMark | undefined,
): string {
  const [before, after] = [shortNumber(exact, 2, mark), shortNumber(drawn, 2, mark)];
  const result = `${words} = ${before} mL`;
  return after === before ? result : say('{sum}, drawn up as {ml} mL', { sum: result, ml: after });
}

function sentence(animal: Animal, ...answers: readonly (number | Fault | null)[]): string {
  const wrong = answers.find((answer) => isFault(answer));
  return isFault(wrong)
    ? say('{tag}: {why}', { tag: animal.tag, why: wrong.sentence })
    : say('{tag}: no dose can be worked out.', { tag: animal.tag });
}
