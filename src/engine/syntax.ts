import type { BoundTable } from './tokens.ts';

/** A name as written: bound to an id, or still plain text that may or may not be known. */
export type WrittenName =
  | { readonly table: BoundTable; readonly id: string; readonly shown: string }
  | { readonly table: null; readonly shown: string };

export type Operator = '+' | '-' | '*' | '/' | '^' | '&' | '=' | '<>' | '<' | '<=' | '>' | '>=';

/** Whose figure a name without `herd` means: this day's, the day before's, the last one counted. */
export type When = 'same' | 'previous' | 'last';

interface Placed {
  /** Where it starts in the formula as people see it, from 0. */
  readonly at: number;
}

/** A formula as a tree, names not yet looked up. */
export type Syntax = Placed &
  (
    | { readonly kind: 'number'; readonly value: number }
    | { readonly kind: 'text'; readonly value: string }
    | { readonly kind: 'truth'; readonly value: boolean }
    /** An argument left out: `EPGLOW(eggs, factor, )`. */
    | { readonly kind: 'blank' }
    | { readonly kind: 'percent'; readonly of: Syntax }
    | { readonly kind: 'sign'; readonly sign: '+' | '-'; readonly of: Syntax }
    | {
        readonly kind: 'pair';
        readonly operator: Operator;
        readonly left: Syntax;
        readonly right: Syntax;
      }
    | { readonly kind: 'call'; readonly name: string; readonly args: readonly Syntax[] }
    | { readonly kind: 'array'; readonly rows: readonly (readonly Syntax[])[] }
    | { readonly kind: 'own'; readonly when: When; readonly name: WrittenName }
    | {
        readonly kind: 'list';
        readonly group: string | null;
        /** As written in the brackets: a date with an optional label, `previous`, or none. */
        readonly day: string | null;
        readonly name: WrittenName;
      }
  );

/** Every part of a formula, itself first, in reading order. */
export function* partsOf(node: Syntax): Generator<Syntax> {
  yield node;
  switch (node.kind) {
    case 'percent':
    case 'sign':
      yield* partsOf(node.of);
      break;
    case 'pair':
      yield* partsOf(node.left);
      yield* partsOf(node.right);
      break;
    case 'call':
      for (const arg of node.args) yield* partsOf(arg);
      break;
    case 'array':
      for (const row of node.rows) for (const cell of row) yield* partsOf(cell);
      break;
  }
}
