import type { Animal, Notebook, Product, TreatmentFacts } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { animalOf, markOf } from '../notebook/read.ts';
import { isDate } from '../text/date.ts';
import { treatmentsOfAnimal } from './after-treatment.ts';
import { clearAfter, clearText } from './clear-date.ts';
import type { DoseSource } from './dose.ts';
import { labelBroken, vetsDoseBroken } from './label-held.ts';
import { productName, productOf } from './product.ts';
import { dateWords } from '../text/date-words.ts';
import { say } from '../text/say.ts';

/** What one round of treating has in common. */
export interface TreatmentRound {
  readonly product: string;
  readonly date: string;
  /** 24-hour time, `07:30`; may be left out. */
  readonly time?: string;
  readonly by?: string;
  /** Unsaid: the label's. */
  readonly route?: string;
  readonly note?: string;
  /** Whose dose was given. Unsaid: the label's. */
  readonly source?: DoseSource;
  /** The label (or the vet) says to dose a group by its heaviest, and this group was. */
  readonly byHeaviest?: boolean;
}

/** One animal of a round; `null` where the dose or the weight is not known. */
export interface Treated {
  readonly animal: string;
  readonly doseMl: number | null;
  readonly weightKg: number | null;
}

/** One line for the log, and what to say about it: why there is no clear date, or what looks odd. */
export interface TreatmentLine {
  readonly facts: Partial<TreatmentFacts>;
  readonly warnings: readonly string[];
}

/** What is wrong with a round as a whole; `null` when it can be written down. `today` rules out the future. */
export function roundFault(
  notebook: Notebook,
  round: Pick<TreatmentRound, 'product' | 'date' | 'time'>,
  today?: string,
): Fault | null {
  const product = productOf(notebook, round.product);
  if (!product || product.removed === true)
    return fault(
      'no-product',
      say('Choose a product first; add it under Products if it is not there.'),
    );
  if (!isDate(round.date))
    return fault(
      'not-a-date',
      say('"{date}" is not a day of the calendar. Type it like 2026-05-03.', { date: round.date }),
    );
  if (today !== undefined && round.date > today)
    return fault(
      'future-date',
      say('{date} is still to come. Log a treatment once it is given.', {
        date: dateWords(round.date),
      }),
    );
  if (
    round.time !== undefined &&
    round.time !== '' &&
    !/^([01]\d|2[0-3]):[0-5]\d$/.test(round.time)
  )
    return fault(
      'bad-time',
      say('"{time}" is not a time of day. Type it like 07:30, or leave it empty.', {
        time: round.time,
      }),
    );
  return null;
}

/**
 * The log line of one animal. The label's withdrawal is used only where dose, route and species were the
 * label's own; the vet's where the vet's dose was given; otherwise there is no clear date ("ask your
 * vet"). Faults: an animal that is not there, a dose or weight that cannot be.
 */
export function treatmentLine(
  notebook: Notebook,
  round: TreatmentRound,
  treated: Treated,
): TreatmentLine | Fault {
  const animal = animalOf(notebook, treated.animal);
  const product = productOf(notebook, round.product);
  if (!animal) return fault('no-animal', say('One of these animals is not in this notebook.'));
  if (!product) return fault('no-product', say('That product is not in this notebook.'));
  const wrong =
    amountFault(animal, treated.doseMl, 'dose') ?? amountFault(animal, treated.weightKg, 'weight');
  if (wrong) return wrong;
  const given = { ...round, ...treated, mark: markOf(notebook) };
  const isVets = round.source === 'vet';
  const broken = isVets
    ? vetsDoseBroken(product, animal, given)
    : labelBroken(product, animal, given);
  const holds = broken.length === 0;
  const { meat, milk }: Pick<Product, 'meat' | 'milk'> = holds ? withdrawals(product, isVets) : {};
  const meatClear = clearAfter(meat, round.date);
  if (isFault(meatClear)) return meatClear;
  const milkClear = clearAfter(milk, round.date);
  if (isFault(milkClear)) return milkClear;
  return {
    facts: {
      animal: animal.id,
      product: product.id,
      date: round.date,
      ...(round.time ? { time: round.time } : {}),
      ...(treated.doseMl === null ? {} : { doseMl: treated.doseMl }),
      ...(treated.weightKg === null ? {} : { weightKg: treated.weightKg }),
      ...(round.by ? { by: round.by } : {}),
      route: round.route?.trim() || (product.route ?? ''),
      byLabel: holds && !isVets,
      ...(isVets ? { vet: product.vetName?.trim() ?? '' } : {}),
      meatClear: clearText(meatClear),
      milkClear: clearText(milkClear),
      ...(round.note ? { note: round.note } : {}),
    },
    warnings: [
      ...broken.map((why) => say('{why} No clear date, ask your vet.', { why })),
      ...oddities(notebook, animal, round),
    ],
  };
}

function withdrawals(product: Product, isVets: boolean): Pick<Product, 'meat' | 'milk'> {
  if (!isVets) return product;
  return {
    ...(product.vetMeat ? { meat: product.vetMeat } : {}),
    ...(product.vetMilk ? { milk: product.vetMilk } : {}),
  };
}

function amountFault(animal: Animal, amount: number | null, what: 'dose' | 'weight'): Fault | null {
  if (amount === null || (Number.isFinite(amount) && amount > 0)) return null;
  return fault(
    'bad-amount',
    say(
      '{tag}: a {what, select, dose {dose of {amount} mL} other {weight of {amount} kg}} cannot be. Type it, or leave it empty if it is not known.',
      { tag: animal.tag, what, amount },
    ),
  );
}

function oddities(notebook: Notebook, animal: Animal, round: TreatmentRound): readonly string[] {
  const name = productName(notebook, round.product);
  const again = treatmentsOfAnimal(notebook, animal.id).some(
    (one) => one.product === round.product && one.date === round.date,
  );
  const warnings = again
    ? [
        say('{tag} already has {name} in the log on {date}.', {
          tag: animal.tag,
          name,
          date: dateWords(round.date),
        }),
      ]
    : [];
  if (animal.left !== undefined && animal.left <= round.date)
    warnings.push(
      say('{tag} left on {left}, before this treatment.', {
        tag: animal.tag,
        left: dateWords(animal.left),
      }),
    );
  if (animal.arrived !== undefined && round.date < animal.arrived)
    warnings.push(
      say('{tag} arrived on {arrived}, after this treatment.', {
        tag: animal.tag,
        arrived: dateWords(animal.arrived),
      }),
    );
  return warnings;
}
