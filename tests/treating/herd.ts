import { expect } from 'vitest';
import type { Json } from '../../shared/cell.ts';
import type { Edit, SetTo } from '../../shared/edit.ts';
import type {
  AnimalFacts,
  Criterion,
  Notebook,
  ProductFacts,
  TreatmentFacts,
} from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { applyEdit } from '../../src/notebook/apply-edit.ts';
import { emptyNotebook } from '../../src/notebook/from-template.ts';
import { setsOf } from '../../src/notebook/record-sets.ts';

let counter = 0;

/** The notebook after an edit; a fault fails the test with its sentence. */
export function after(notebook: Notebook, edit: Edit | Fault): Notebook {
  if (isFault(edit)) throw new Error(`refused: ${edit.sentence}`);
  counter += 1;
  return applyEdit(notebook, edit, [counter, 0, 'test']).notebook;
}

export function withSets(notebook: Notebook, sets: readonly SetTo[]): Notebook {
  return after(notebook, { label: 'test', source: 'typed', sets });
}

/** The sentence of a fault; anything else fails the test. */
export function refusal(answer: unknown): string {
  if (!isFault(answer)) expect.fail('no fault');
  return answer.sentence;
}

/** An answer that is no fault; a fault fails the test with its sentence. */
export function good<T>(answer: T): Exclude<T, Fault> {
  if (isFault(answer)) throw new Error(answer.sentence);
  return answer as Exclude<T, Fault>;
}

export const CRITERIA: readonly Criterion[] = [
  {
    id: 'k5',
    reason: 'white eyelids',
    condition: '{c:c-eyelid} = 5',
    danger: 100,
    mustBeKnown: false,
  },
  { id: 'kj', reason: 'bottle jaw', condition: '{c:c-jaw}', danger: 90, mustBeKnown: false },
  {
    id: 'k4',
    reason: 'pale eyelids',
    condition: '{c:c-eyelid} = 4',
    danger: 80,
    mustBeKnown: false,
  },
  {
    id: 'kt',
    reason: 'too many',
    condition: '',
    ready: 'too-many',
    danger: 50,
    mustBeKnown: false,
  },
  {
    id: 'ke',
    reason: 'epg at the limit',
    condition: '{c:c-epg} >= {l:l-treat_from}',
    danger: 40,
    mustBeKnown: true,
  },
];

/** A notebook with the columns, limits and criteria that treating looks at, and no animals. */
export function emptyHerd(days: readonly string[]): Notebook {
  const column = (key: string, facts: object): SetTo[] =>
    setsOf('columns', `c-${key}`, { key, label: key, order: `a${key}`, about: 'animal', ...facts });
  const limit = (key: string, value: number): SetTo[] => [
    ...setsOf('limits', `l-${key}`, { key, label: key, order: `a${key}` }),
    { path: ['settings', 'default', `l-${key}`], value },
  ];
  return withSets(emptyNotebook('nb'), [
    ...column('status', { kind: 'choice', about: 'cup' }),
    ...column('chamber1', { kind: 'count', about: 'cup' }),
    ...column('eggs', { kind: 'formula', formula: 'x' }),
    ...column('epg', { kind: 'formula', formula: 'x' }),
    ...column('eyelid', { kind: 'score', low: 1, high: 5 }),
    ...column('condition', { kind: 'score', low: 1, high: 5, step: 0.5 }),
    ...column('dag', { kind: 'score', low: 0, high: 5 }),
    ...column('jaw', { kind: 'tick' }),
    ...column('weight', { kind: 'weight' }),
    ...limit('treat_from', 500),
    ...limit('pale_alarm', 10),
    ...setsOf('about', 'notebook', { herdWord: 'flock', keepUntreated: 0.1, weightUnit: 'kg' }),
    ...days.flatMap((date) =>
      setsOf('days', date, { date: date.slice(0, 10), criteria: CRITERIA as unknown as Json }),
    ),
  ]);
}

/** Adds an animal whose id is its tag. */
export function animal(
  notebook: Notebook,
  tag: string,
  facts: Partial<AnimalFacts> = {},
): Notebook {
  return withSets(notebook, setsOf('animals', tag, { tag, order: `a${tag}`, ...facts }));
}

export function product(
  notebook: Notebook,
  id: string,
  facts: Partial<ProductFacts> = {},
): Notebook {
  return withSets(notebook, setsOf('products', id, { ...LABEL, name: id, ...facts }));
}

/** A made-up label: 1 mL per 5 kg, sheep, by mouth, 10 days meat, not permitted in milk. */
export const LABEL: Partial<ProductFacts> = {
  labelMl: 1,
  labelPer: 5,
  labelUnit: 'kg',
  species: ['sheep'],
  route: 'by mouth',
  expires: '2027-03',
  afterDays: 14,
  meat: { kind: 'days', days: 10 },
  milk: { kind: 'not permitted' },
};

let treatments = 0;

export function treated(
  notebook: Notebook,
  animalId: string,
  productId: string,
  date: string,
  facts: Partial<TreatmentFacts> = {},
): Notebook {
  treatments += 1;
  const id = `t${String(treatments).padStart(4, '0')}`;
  return withSets(
    notebook,
    setsOf('treatments', id, { animal: animalId, product: productId, date, ...facts }),
  );
}

/** Types a reading: a number, a tick, or a whole reading. */
export function typed(
  notebook: Notebook,
  day: string,
  row: string,
  key: string,
  value: number | boolean | Reading,
): Notebook {
  const reading: Reading =
    typeof value === 'number'
      ? { kind: 'number', text: String(value), value }
      : typeof value === 'boolean'
        ? { kind: 'tick', text: value ? 'yes' : 'no', value }
        : value;
  return withSets(notebook, [{ path: ['readings', day, row, `c-${key}`], value: reading }]);
}
