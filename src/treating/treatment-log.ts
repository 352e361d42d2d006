import type { Edit, SetTo } from '../../shared/edit.ts';
import type { Notebook, Treatment, TreatmentFacts } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { animalOf, byText, treatmentsOf } from '../notebook/read.ts';
import { setsOf } from '../notebook/record-sets.ts';
import { isDate } from '../text/date.ts';
import { readClear, type Clear } from './clear-date.ts';
import type { Produce } from './clearance.ts';
import { productName } from './product.ts';
import { roundFault, treatmentLine, type Treated, type TreatmentRound } from './treatment-round.ts';
import { dateWords } from '../text/date-words.ts';
import { say } from '../text/say.ts';

/** An edit, with what to say about it once it is done. */
export interface LogEdit {
  readonly edit: Edit;
  readonly warnings: readonly string[];
}

/**
 * Logs one round of treatments as one edit, so that one undo takes all of it back. Clear dates are worked
 * out and kept with each line, because the product's label may change later. Faults: no animal, one
 * named twice, a product or date that cannot be; nothing is then logged.
 */
export function logTreatments(
  notebook: Notebook,
  round: TreatmentRound,
  animals: readonly Treated[],
  newId: () => string,
  today?: string,
): LogEdit | Fault {
  if (animals.length === 0)
    return fault('no-animals', say('No animal is chosen. Tick the ones that were treated.'));
  const wrong = roundFault(notebook, round, today) ?? twice(notebook, animals);
  if (wrong) return wrong;
  const sets: SetTo[] = [];
  const warnings: string[] = [];
  for (const treated of animals) {
    const line = treatmentLine(notebook, round, treated);
    if (isFault(line)) return line;
    sets.push(...setsOf('treatments', newId(), line.facts));
    warnings.push(...line.warnings);
  }
  const label = say('treating {n, plural, =1 {{tag}} other {# animals}} with {product}', {
    n: animals.length,
    tag: animalOf(notebook, animals[0]?.animal ?? '')?.tag ?? say('one animal'),
    product: productName(notebook, round.product),
  });
  return { edit: { label, source: 'typed', sets }, warnings };
}

function twice(notebook: Notebook, animals: readonly Treated[]): Fault | null {
  const seen = new Set<string>();
  for (const { animal } of animals) {
    if (seen.has(animal))
      return fault(
        'named-twice',
        say('{tag} is in this round twice. Take one of the two out.', {
          tag: animalOf(notebook, animal)?.tag ?? animal,
        }),
      );
    seen.add(animal);
  }
  return null;
}

/** What may be put right in a log line. */
export type TreatmentChange = Partial<
  Pick<
    TreatmentFacts,
    'product' | 'date' | 'time' | 'doseMl' | 'weightKg' | 'by' | 'route' | 'note'
  >
>;

/**
 * Puts a log line right. Its clear dates are worked out anew where anything they hang on was changed: product,
 * date, dose, weight or route. A line that went by a vet's dose stays the vet's.
 */
export function changeTreatment(
  notebook: Notebook,
  id: string,
  change: TreatmentChange,
  today?: string,
): LogEdit | Fault {
  const old = treatmentOf(notebook, id);
  if (!old?.animal || !old.product || !old.date)
    return fault('no-treatment', say('That treatment is not in the log.'));
  const tag = animalOf(notebook, old.animal)?.tag ?? say('an animal');
  const label = say('a change to the treatment of {tag}', { tag });
  const moves = ['product', 'date', 'doseMl', 'weightKg', 'route'] as const;
  if (!moves.some((field) => change[field] !== undefined && change[field] !== old[field]))
    return {
      edit: { label, source: 'typed', sets: setsOf('treatments', id, change) },
      warnings: [],
    };
  const { product, date, time, by, route, note } = { ...old, ...change };
  const round: TreatmentRound = {
    product: product ?? old.product,
    date: date ?? old.date,
    ...(time ? { time } : {}),
    ...(by ? { by } : {}),
    ...(route ? { route } : {}),
    ...(note ? { note } : {}),
    source: old.vet === undefined ? 'label' : 'vet',
    // A dose that was the label's as one of a band still is, while dose and weight stay.
    byHeaviest:
      old.byLabel === true && change.doseMl === undefined && change.weightKg === undefined,
  };
  const wrong = roundFault(notebook, round, today);
  if (wrong) return wrong;
  // The line itself is taken out first, so that it does not count as a second treatment that day.
  const rest = { ...notebook, treatments: without(notebook.treatments, id) };
  const line = treatmentLine(rest, round, {
    animal: old.animal,
    doseMl: change.doseMl ?? old.doseMl ?? null,
    weightKg: change.weightKg ?? old.weightKg ?? null,
  });
  if (isFault(line)) return line;
  const { animal: _, ...facts } = line.facts;
  return {
    edit: { label, source: 'typed', sets: setsOf('treatments', id, { ...change, ...facts }) },
    warnings: line.warnings,
  };
}

function without(table: Notebook['treatments'], id: string): Notebook['treatments'] {
  return Object.fromEntries(Object.entries(table).filter(([other]) => other !== id));
}

/** Takes a line off the log; undo brings it back. */
export function removeTreatment(notebook: Notebook, id: string): Edit | Fault {
  const old = treatmentOf(notebook, id);
  if (!old?.animal) return fault('no-treatment', say('That treatment is not in the log.'));
  return {
    label: say('removing a treatment of {tag}', {
      tag: animalOf(notebook, old.animal)?.tag ?? say('an animal'),
    }),
    source: 'typed',
    sets: [{ path: ['treatments', id, 'removed'], value: true }],
  };
}

/**
 * Writes the clear date that a vet gave for a line that has none, with the vet's name in its note. Faults: no name, a
 * date that is none or lies before the treatment.
 */
export function giveClearDate(
  notebook: Notebook,
  id: string,
  produce: Produce,
  date: string,
  vet: string,
): Edit | Fault {
  const old = treatmentOf(notebook, id);
  if (!old?.animal || !old.date)
    return fault('no-treatment', say('That treatment is not in the log.'));
  if (vet.trim() === '')
    return fault('no-vet', say('Type the name of the vet who gave this clear date.'));
  if (!isDate(date) || date < old.date)
    return fault(
      'bad-clear-date',
      say('The clear date is a day on or after the treatment ({day}), like {date}.', {
        day: dateWords(old.date),
        date: old.date,
      }),
    );
  // The note is kept, so its date is written as in files.
  const filling = { date, vet: vet.trim() };
  const said =
    produce === 'meat'
      ? say('meat clear from {date}, says {vet}', filling)
      : say('milk clear from {date}, says {vet}', filling);
  const note = old.note ? `${old.note}; ${said}` : said;
  const field = produce === 'meat' ? 'meatClear' : 'milkClear';
  return {
    label: say('the clear date of {tag}', {
      tag: animalOf(notebook, old.animal)?.tag ?? say('an animal'),
    }),
    source: 'typed',
    sets: setsOf('treatments', id, { [field]: date, note }),
  };
}

/** A log line with its names, as page, paper and export show it. */
export interface LogLine {
  readonly treatment: Treatment;
  readonly tag: string;
  readonly productName: string;
  readonly meat: Clear;
  readonly milk: Clear;
}

/** The log, newest first; of one animal where `animalId` is given. */
export function treatmentLog(notebook: Notebook, animalId?: string): readonly LogLine[] {
  return treatmentsOf(notebook)
    .filter((one) => animalId === undefined || one.animal === animalId)
    .map((treatment) => ({
      treatment,
      tag: animalOf(notebook, treatment.animal ?? '')?.tag ?? '',
      productName: productName(notebook, treatment.product),
      meat: readClear(treatment.meatClear),
      milk: readClear(treatment.milkClear),
    }))
    .sort(
      (a, b) =>
        byText(b.treatment.date ?? '', a.treatment.date ?? '') ||
        byText(b.treatment.time ?? '', a.treatment.time ?? '') ||
        byText(a.tag, b.tag),
    );
}

function treatmentOf(notebook: Notebook, id: string): Treatment | undefined {
  return treatmentsOf(notebook).find((one) => one.id === id);
}
