import type { Column, Figure, Limit, Notebook } from '../../shared/notebook.ts';
import { fault, type Fault } from '../../shared/value.ts';
import { columnByKey, columnOf, columnsOf, figuresOf, limitsOf } from '../notebook/read.ts';
import { known } from '../notebook/cell.ts';
import { place } from './formula-problem.ts';
import { nearest } from './nearest.ts';
import type { WrittenName } from './syntax.ts';
import { say } from '../text/say.ts';

/**
 * The animal's own facts that formulas may name. Text, but for two numbers: `age` in months with decimals,
 * and `days_treated`, days since the last treatment while its product says that counts still show it.
 */
export const FACTS = ['tag', 'group', 'class', 'species', 'age', 'days_treated'] as const;
export type FactName = (typeof FACTS)[number];

/** The day's protocol; `day_fluid` is always mL *added*. */
export const PROTOCOL_NAMES = ['day_grams', 'day_fluid', 'day_area', 'day_areas'] as const;
export type ProtocolName = (typeof PROTOCOL_NAMES)[number];

/** What a name turned out to be. */
export type Target =
  | { readonly kind: 'column'; readonly column: Column }
  | { readonly kind: 'limit'; readonly limit: Limit }
  | { readonly kind: 'figure'; readonly figure: Figure }
  | { readonly kind: 'fact'; readonly fact: FactName }
  | { readonly kind: 'protocol'; readonly protocol: ProtocolName };

/**
 * Looks a written name up: bound names by id, plain ones by current key, capitals or not. `at` is where it
 * stands in the formula, for the sentence of a name that means nothing.
 */
export function targetOf(notebook: Notebook, name: WrittenName, at = 0): Target | Fault {
  if (name.table !== null) return boundTarget(notebook, name.table, name.id, name.shown, at);
  const key = name.shown.toLowerCase();
  const fact = FACTS.find((known) => known === key);
  if (fact) return { kind: 'fact', fact };
  const protocol = PROTOCOL_NAMES.find((known) => known === key);
  if (protocol) return { kind: 'protocol', protocol };
  const column = columnByKey(notebook, key);
  if (column) return { kind: 'column', column };
  const limit = limitsOf(notebook).find((known) => known.key === key);
  if (limit) return { kind: 'limit', limit };
  const figure = figuresOf(notebook).find((known) => known.key === key);
  if (figure) return { kind: 'figure', figure };
  return unknownName(notebook, name.shown, at);
}

function boundTarget(
  notebook: Notebook,
  table: 'c' | 'l' | 'f',
  id: string,
  shown: string,
  at: number,
): Target | Fault {
  if (table === 'c') {
    const column = columnOf(notebook, id);
    if (column?.key && column.kind && column.removed !== true) return { kind: 'column', column };
  } else if (table === 'l') {
    const limit = limitsOf(notebook).find((known) => known.id === id);
    if (limit) return { kind: 'limit', limit };
  } else {
    const figure = figuresOf(notebook).find((known) => known.id === id);
    if (figure) return { kind: 'figure', figure };
  }
  return fault(
    'removed-name',
    say(
      '“{shown}” {place} was removed from the notebook. Bring it back, or take it out of this formula.',
      { shown, place: place(at) },
    ),
  );
}

function unknownName(notebook: Notebook, shown: string, at: number): Fault {
  if (/^[a-z]{1,2}\d{1,5}$/i.test(shown)) {
    return fault(
      'unknown-name',
      say(
        '“{shown}” {place} looks like a cell address. Here columns have names, such as epg or herd.epg.',
        { shown, place: place(at) },
      ),
    );
  }
  const near = nearest(shown, namesKnown(notebook));
  return fault(
    'unknown-name',
    near === null
      ? say('“{shown}” {place} is not a known name.', { shown, place: place(at) })
      : say('“{shown}” {place} is not a known name. The nearest known name is “{near}”.', {
          shown,
          place: place(at),
          near,
        }),
  );
}

/** Every name that formulas of this notebook may use. */
export function namesKnown(notebook: Notebook): readonly string[] {
  return [
    ...columnsOf(notebook).map((column) => column.key),
    ...limitsOf(notebook).map((limit) => limit.key),
    ...figuresOf(notebook).map((figure) => figure.key),
    ...FACTS,
    ...PROTOCOL_NAMES,
  ];
}

/** The current name behind a stored one, also of something removed; the id itself if it never had one. */
export function keyOfBound(notebook: Notebook, table: 'c' | 'l' | 'f', id: string): string | null {
  const fields =
    table === 'c'
      ? notebook.columns[id]
      : table === 'l'
        ? notebook.limits[id]
        : notebook.figures[id];
  if (!fields) return null;
  const key = known<{ key: string }>(id, fields).key;
  return key ?? null;
}
