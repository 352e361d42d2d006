import type { Notebook } from '../../shared/notebook.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { keyOfBound, targetOf, type Target } from './names.ts';
import { parseFormula } from './parse-formula.ts';
import type { Syntax } from './syntax.ts';
import { boundOf, tokenize, type Token } from './tokens.ts';

/**
 * Formulas are stored with their names bound to ids, so that renaming a column changes one field and no
 * formula: `{c:ID}` a column, `{l:ID}` a limit, `{f:ID}` a figure. Everything else stays as typed, names
 * that are not known (yet) included, so that nothing a person wrote is lost. Language version 1.
 */
export function toStored(notebook: Notebook, shown: string): string {
  const tokens = tokenize(shown);
  return tokens
    .map((token, index) => (isNameAt(tokens, index) ? bind(notebook, token.text) : token.text))
    .join('');
}

/** A stored formula with today's names. */
export function toShown(notebook: Notebook, stored: string): string {
  return tokenize(stored)
    .map((token) => shownText(notebook, token))
    .join('');
}

/** Reads a stored formula (a shown one reads as well); places in faults are those of the shown text. */
export function parseStored(notebook: Notebook, stored: string): Syntax | Fault {
  let at = 0;
  const tokens = tokenize(stored).map((token) => {
    const placed = { ...token, at };
    at += shownText(notebook, token).length;
    return placed;
  });
  return parseFormula(tokens, (bound) => shownBound(notebook, bound));
}

function shownText(notebook: Notebook, token: Token): string {
  return token.kind === 'bound' ? shownBound(notebook, token.text) : token.text;
}

function shownBound(notebook: Notebook, bound: string): string {
  const { table, id } = boundOf(bound);
  return keyOfBound(notebook, table, id) ?? bound;
}

/** Whether the token is a name to bind: no function's name, no `herd`, `previous`, `last` before a point. */
function isNameAt(tokens: readonly Token[], index: number): boolean {
  const token = tokens[index];
  if (token?.kind !== 'name') return false;
  const after = tokens.slice(index + 1).find((next) => next.kind !== 'space')?.text ?? '';
  if (after === '(') return false;
  return !(after === '.' || after.startsWith('['));
}

function bind(notebook: Notebook, name: string): string {
  const target = targetOf(notebook, { table: null, shown: name });
  return isFault(target) ? name : (storedName(target) ?? name);
}

function storedName(target: Target): string | null {
  switch (target.kind) {
    case 'column':
      return `{c:${target.column.id}}`;
    case 'limit':
      return `{l:${target.limit.id}}`;
    case 'figure':
      return `{f:${target.figure.id}}`;
    default:
      return null;
  }
}
