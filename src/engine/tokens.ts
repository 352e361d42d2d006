/**
 * The words of the formula language. `bound` is a stored name (`{c:ID}` column, `{l:ID}` limit,
 * `{f:ID}` figure); `bracket` is everything from `[` to `]`, as after `herd`; `date` is a bare
 * `2026-05-03`. Spaces are tokens too, so that the tokens joined give back the very text.
 */
export type TokenKind =
  'number' | 'text' | 'date' | 'name' | 'bound' | 'bracket' | 'mark' | 'space' | 'bad';

export interface Token {
  readonly kind: TokenKind;
  readonly text: string;
  /** Where it starts in the text as people see it, from 0. */
  readonly at: number;
}

/** The tables that a stored name can point into: columns, limits, figures. */
export type BoundTable = 'c' | 'l' | 'f';

const forms: readonly (readonly [TokenKind, RegExp])[] = [
  ['space', /\s+/y],
  ['bound', /\{[clf]:[^{}]+\}/y],
  ['bracket', /\[(?:[^\]"“”]|"[^"]*"|“[^”]*”)*\]/y],
  ['text', /"(?:[^"]|"")*"|“[^”]*”/y],
  ['date', /\d{4}-\d{2}-\d{2}(?!\d)/y],
  ['number', /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y],
  ['name', /[\p{L}_][\p{L}\p{N}_]*/uy],
  ['mark', /<>|<=|>=|[-+*/^&%(),;{}.=<>:!$×÷−≤≥≠]/y],
];

/** Cuts a formula into tokens; what is no part of the language comes out as `bad`, nothing is lost. */
export function tokenize(formula: string): readonly Token[] {
  const tokens: Token[] = [];
  let at = 0;
  while (at < formula.length) {
    const token = tokenAt(formula, at);
    tokens.push(token);
    at += token.text.length;
  }
  return tokens;
}

function tokenAt(formula: string, at: number): Token {
  for (const [kind, form] of forms) {
    form.lastIndex = at;
    const found = form.exec(formula);
    if (found) return { kind, text: found[0], at };
  }
  const rest = formula.slice(at);
  // A quote or bracket that is never closed swallows the rest: there is no telling where it ends.
  const text = /^["“[]/.test(rest) ? rest : ([...rest][0] ?? rest);
  return { kind: 'bad', text, at };
}

/** What a text token means: the quotes taken off, doubled quotes made single. */
export function textOf(token: string): string {
  const inner = token.slice(1, -1);
  return token.startsWith('"') ? inner.replaceAll('""', '"') : inner;
}

/** The table and id of a stored name `{c:ID}`. */
export function boundOf(token: string): { readonly table: BoundTable; readonly id: string } {
  return { table: token[1] as BoundTable, id: token.slice(3, -1) };
}
