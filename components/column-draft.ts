import type { SetTo } from '../shared/edit.ts';
import type { Column, ColumnFacts, ColumnKind, Notebook } from '../shared/notebook.ts';
import { fault, type Fault } from '../shared/value.ts';
import { toShown, toStored } from '../src/engine/stored-formula.ts';
import { markOf } from '../src/notebook/read.ts';
import { parseNumber, writeNumber } from '../src/text/decimal-text.ts';
import { narrowest, widest } from './grid-layout.ts';
import { say } from '../src/text/say.ts';

/** A column as it stands in the dialog's fields: all of it text, nothing refused while it is typed. */
export interface ColumnDraft {
  readonly label: string;
  readonly key: string;
  readonly kind: ColumnKind;
  readonly help: string;
  readonly unit: string;
  readonly width: string;
  readonly decimals: string;
  readonly low: string;
  readonly high: string;
  readonly step: string;
  readonly words: string;
  readonly formula: string;
  readonly isShaded: boolean;
  readonly isHidden: boolean;
}

export const blankColumn: ColumnDraft = {
  label: '',
  key: '',
  kind: 'number',
  help: '',
  unit: '',
  width: '',
  decimals: '',
  low: '',
  high: '',
  step: '',
  words: '',
  formula: '',
  isShaded: false,
  isHidden: false,
};

/** The kinds a person can add, in words. */
export const kindWords = {
  number: say('a number'),
  count: say('a count of eggs'),
  score: say('a score'),
  tick: say('a sign: seen or not'),
  choice: say('one of some words'),
  text: say('words'),
  weight: say('a weight'),
  formula: say('worked out by a formula'),
} as const satisfies Partial<Record<ColumnKind, string>>;

/** Every kind in words, those too that only come with a template. */
export const allKindWords: Readonly<Record<ColumnKind, string>> = {
  ...kindWords,
  part: say('the part of a grid counted'),
  outcome: say('what your criteria say'),
};

export function draftOf(notebook: Notebook, column: Column): ColumnDraft {
  const number = (value: number | undefined): string =>
    value === undefined ? '' : writeNumber(value, markOf(notebook));
  return {
    label: column.label ?? '',
    key: column.key,
    kind: column.kind,
    help: column.help ?? '',
    unit: column.unit ?? '',
    width: number(column.width),
    decimals: number(column.decimals),
    low: number(column.low),
    high: number(column.high),
    step: number(column.step),
    words: (column.words ?? []).join('\n'),
    formula: column.kind === 'formula' ? toShown(notebook, column.formula ?? '') : '',
    isShaded: column.shaded ?? false,
    isHidden: column.hidden ?? false,
  };
}

const mayBeEmpty = ['width', 'decimals', 'low', 'high', 'step', 'words'] as const;

/** What stands in a column and was emptied in its draft: to be cleared. */
export function emptiedIn(column: Column, draft: ColumnDraft): readonly SetTo[] {
  return mayBeEmpty
    .filter((field) => draft[field].trim() === '' && column[field] !== undefined)
    .map((field) => ({ path: ['columns', column.id, field] as const, value: null }));
}

/** The facts a draft comes to, the key apart; or what is wrong with it. What was emptied: {@link emptiedIn}. */
export function factsOf(notebook: Notebook, draft: ColumnDraft): Partial<ColumnFacts> | Fault {
  const label = draft.label.trim();
  if (label === '') return fault('no-name', say('Give the column a name.'));
  const numbers: Record<string, number> = {};
  for (const field of ['width', 'decimals', 'low', 'high', 'step'] as const) {
    const typed = draft[field].trim();
    if (typed === '') continue;
    const value = parseNumber(typed, markOf(notebook));
    if (typeof value !== 'number') return value;
    numbers[field] = value;
  }
  const wrong = numberFault(numbers);
  if (wrong) return wrong;
  const words = draft.words
    .split('\n')
    .map((word) => word.trim())
    .filter((word) => word !== '');
  if (draft.kind === 'choice' && words.length === 0)
    return fault('no-words', say('Write the words to choose from, one on each line.'));
  const formula = draft.formula.trim().replace(/^=\s*/, '');
  if (draft.kind === 'formula' && formula === '')
    return fault('no-formula', say('Write the formula, like EPG(eggs, factor).'));
  return {
    label,
    help: draft.help.trim(),
    unit: draft.unit.trim(),
    ...numbers,
    ...(words.length > 0 ? { words } : {}),
    ...(draft.kind === 'formula' ? { formula: toStored(notebook, formula) } : {}),
    shaded: draft.isShaded,
    hidden: draft.isHidden,
  };
}

function numberFault({ width, decimals, low, high, step }: Record<string, number>): Fault | null {
  if (width !== undefined && (width < narrowest || width > widest))
    return fault(
      'bad-width',
      say('A column is {narrowest} to {widest} pixels wide.', { narrowest, widest }),
    );
  if (decimals !== undefined && (!Number.isInteger(decimals) || decimals < 0 || decimals > 9))
    return fault('bad-decimals', say('Decimals are a whole number from 0 to 9.'));
  if (low !== undefined && high !== undefined && low >= high)
    return fault('bad-range', say('The least has to be below the greatest.'));
  if (step !== undefined && step <= 0)
    return fault('bad-step', say('The step has to be more than 0.'));
  return null;
}
