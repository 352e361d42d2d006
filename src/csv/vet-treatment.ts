import type { Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { daysBetween } from '../text/date.ts';
import { treatmentsOfAnimal } from '../treating/after-treatment.ts';
import { clearance, type Produce } from '../treating/clearance.ts';
import { productName } from '../treating/product.ts';
import type { WriteCell } from './write-table.ts';

/** What stands about an animal's last treatment, beside each day. */
export const treatmentHeadings: readonly string[] = [
  'last treated',
  'days since last treatment',
  'product',
  'dose given (mL)',
  'weight dosed for (kg)',
  'treated by',
  'meat clear',
  'milk clear',
];

/**
 * An animal's last treatment up to a day, as the log has it, and from when its meat and milk are clear
 * over all its products. Empty for an animal never treated.
 */
export function treatmentCells(
  notebook: Notebook,
  animalId: string,
  date: string,
): readonly WriteCell[] {
  const last = treatmentsOfAnimal(notebook, animalId)
    .filter((treatment) => (treatment.date ?? '') <= date)
    .at(-1);
  if (!last?.date) return treatmentHeadings.map(() => null);
  const days = daysBetween(last.date, date);
  return [
    last.date,
    isFault(days) ? null : days,
    productName(notebook, last.product),
    last.doseMl ?? null,
    last.weightKg ?? null,
    last.by ?? null,
    clearWords(notebook, animalId, date, 'meat'),
    clearWords(notebook, animalId, date, 'milk'),
  ];
}

function clearWords(notebook: Notebook, animalId: string, date: string, produce: Produce): string {
  const stands = clearance(notebook, animalId, date, produce);
  switch (stands.state) {
    case 'clear':
      return stands.since === null ? 'clear' : `clear since ${stands.since}`;
    case 'until':
      return `not before ${stands.date}`;
    case 'not permitted':
      return 'not permitted for people: ask your vet';
    case 'ask':
      return 'no clear date: ask your vet';
  }
}
