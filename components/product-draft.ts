import type { Product, ProductFacts, Species, Withdrawal } from '../shared/notebook.ts';
import { isFault } from '../shared/value.ts';
import { parseNumber, writeNumber, type DecimalMark } from '../src/text/decimal-text.ts';
import { withdrawalFault } from '../src/treating/clear-date.ts';
import { productFaults } from '../src/treating/product-check.ts';
import type { TypedProduct } from '../src/treating/product.ts';
import { shortNumber } from '../src/treating/short-number.ts';
import { say } from '../src/text/say.ts';

/** The facts of a product that are typed as text, in the order of the form. */
const TEXTS = [
  'name',
  'activeGroup',
  'route',
  'batch',
  'expires',
  'vetName',
  'vetDose',
] as const satisfies readonly (keyof ProductFacts)[];

/** The facts that are numbers. */
const NUMBERS = [
  'labelMl',
  'labelPer',
  'mgPerKg',
  'mgPerMl',
  'stepMl',
  'afterDays',
  'sampleFromDays',
  'sampleToDays',
  'vetMl',
  'vetPerKg',
] as const satisfies readonly (keyof ProductFacts)[];

const WITHDRAWALS = ['meat', 'milk', 'vetMeat', 'vetMilk'] as const;

export type TextField = (typeof TEXTS)[number];
export type NumberField = (typeof NUMBERS)[number];
export type WithdrawalField = (typeof WITHDRAWALS)[number];

/** A withdrawal as it is typed: which kind, and its number as text. */
export interface WithdrawalDraft {
  readonly kind: Withdrawal['kind'];
  readonly text: string;
}

/** A product as it is typed; nothing is taken from it until it is kept. */
export interface ProductDraft {
  readonly texts: Readonly<Record<TextField | NumberField, string>>;
  readonly withdrawals: Readonly<Record<WithdrawalField, WithdrawalDraft>>;
  readonly labelUnit: 'kg' | 'lb';
  readonly species: readonly Species[];
}

/** What is wrong with a draft, by field. */
export type DraftFaults = Readonly<Partial<Record<keyof ProductFacts, string>>>;

/** A product as a draft; an empty one for a product not yet there. */
export function productDraft(product: Product | undefined, mark: DecimalMark): ProductDraft {
  const texts = Object.fromEntries([
    ...TEXTS.map((field) => [field, product?.[field] ?? '']),
    ...NUMBERS.map((field) => {
      const value = product?.[field];
      return [field, value === undefined ? '' : writeNumber(value, mark)];
    }),
  ]) as ProductDraft['texts'];
  const withdrawals = Object.fromEntries(
    WITHDRAWALS.map((field) => [field, withdrawalDraft(product?.[field], mark)]),
  ) as ProductDraft['withdrawals'];
  return {
    texts,
    withdrawals,
    labelUnit: product?.labelUnit ?? 'kg',
    species: product?.species ?? [],
  };
}

function withdrawalDraft(withdrawal: Withdrawal | undefined, mark: DecimalMark): WithdrawalDraft {
  if (withdrawal?.kind === 'days')
    return { kind: 'days', text: writeNumber(withdrawal.days, mark) };
  if (withdrawal?.kind === 'hours')
    return { kind: 'hours', text: writeNumber(withdrawal.hours, mark) };
  return { kind: withdrawal?.kind ?? 'not stated', text: '' };
}

/** The facts that a draft stands for, empty fields as null, and everything that is wrong with it. */
export function draftFacts(
  draft: ProductDraft,
  mark: DecimalMark,
): { readonly facts: TypedProduct; readonly faults: DraftFaults } {
  const faults: Partial<Record<keyof ProductFacts, string>> = {};
  const facts: Record<string, unknown> = { labelUnit: draft.labelUnit, species: draft.species };
  for (const field of TEXTS) facts[field] = draft.texts[field].trim() || null;
  for (const field of NUMBERS) {
    const text = draft.texts[field].trim();
    const value = text === '' ? null : parseNumber(text, mark);
    if (isFault(value)) faults[field] = value.sentence;
    facts[field] = isFault(value) ? null : value;
  }
  for (const field of WITHDRAWALS) {
    const { kind, text } = draft.withdrawals[field];
    const read = readWithdrawal(kind, text.trim(), mark);
    if (typeof read === 'string') faults[field] = read;
    else facts[field] = field.startsWith('vet') && read.kind === 'not stated' ? null : read;
  }
  const known = Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== null));
  for (const { field, sentence } of productFaults({ id: '', ...known })) faults[field] ??= sentence;
  return { facts, faults };
}

function readWithdrawal(
  kind: Withdrawal['kind'],
  text: string,
  mark: DecimalMark,
): Withdrawal | string {
  if (kind === 'not stated' || kind === 'not permitted') return { kind };
  if (text === '')
    return kind === 'days'
      ? say('Type the days of the label, or choose not stated.')
      : say('Type the hours of the label, or choose not stated.');
  const value = parseNumber(text, mark);
  if (isFault(value)) return value.sentence;
  const withdrawal: Withdrawal = kind === 'days' ? { kind, days: value } : { kind, hours: value };
  return withdrawalFault(withdrawal, say('The withdrawal'))?.sentence ?? withdrawal;
}

/** The dose of a product in one line, as it was typed; empty where neither line nor strength is whole. */
export function doseLine(product: Product, mark: DecimalMark): string {
  const { labelMl, labelPer, labelUnit = 'kg', mgPerKg, mgPerMl } = product;
  if (labelMl !== undefined && labelPer !== undefined)
    return say('{ml} mL per {weight} {unit}', {
      ml: shortNumber(labelMl, 4, mark),
      weight: shortNumber(labelPer, 4, mark),
      unit: labelUnit,
    });
  if (mgPerKg !== undefined && mgPerMl !== undefined)
    return say('{dose} mg per kg of {strength} mg/mL', {
      dose: shortNumber(mgPerKg, 4, mark),
      strength: shortNumber(mgPerMl, 4, mark),
    });
  return '';
}

/** A withdrawal in words: `10 days`, `not permitted`, `not stated`. */
export function withdrawalWords(withdrawal: Withdrawal | undefined): string {
  if (withdrawal?.kind === 'days')
    return say('{n, plural, one {# day} other {# days}}', { n: withdrawal.days });
  if (withdrawal?.kind === 'hours')
    return say('{n, plural, one {# hour} other {# hours}}', { n: withdrawal.hours });
  return withdrawalKind(withdrawal?.kind ?? 'not stated');
}

/** How a withdrawal is given, in the language spoken. */
export function withdrawalKind(kind: Withdrawal['kind']): string {
  return kinds[kind];
}

const kinds: Readonly<Record<Withdrawal['kind'], string>> = {
  'not stated': say('not stated'),
  'not permitted': say('not permitted'),
  days: say('days'),
  hours: say('hours'),
};
