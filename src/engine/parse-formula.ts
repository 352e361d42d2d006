import type { Fault } from '../../shared/value.ts';
import { FormulaProblem, orFault, place } from './formula-problem.ts';
import type { Operator, Syntax, When, WrittenName } from './syntax.ts';
import { boundOf, textOf, type Token } from './tokens.ts';
import { say } from '../text/say.ts';

/** Binding strength of the two-sided operators; `^` is taken from the left, as spreadsheets do. */
const strength: Readonly<Record<string, number>> = {
  '=': 1,
  '<>': 1,
  '<': 1,
  '<=': 1,
  '>': 1,
  '>=': 1,
  '&': 2,
  '+': 3,
  '-': 3,
  '*': 4,
  '/': 4,
  '^': 5,
};

/** Signs that a telephone's keyboard offers, with what they mean. */
const sameMark: Readonly<Record<string, string>> = {
  '×': '*',
  '÷': '/',
  '−': '-',
  '≤': '<=',
  '≥': '>=',
  '≠': '<>',
};

/** More brackets in brackets, or more terms in a row, than a person writes and a machine can follow. */
const DEEPEST = 100;

/**
 * Reads tokens (spaces included) as a formula; a leading `=` is allowed. `shown` gives the current name
 * behind a stored one. Faults say what is wrong and where.
 */
export function parseFormula(
  tokens: readonly Token[],
  shown: (bound: string) => string,
): Syntax | Fault {
  return orFault(() => new FormulaReader(tokens, shown).whole());
}

class FormulaReader {
  private next = 0;
  private depth = 0;
  private readonly depths = new Map<Syntax, number>();
  private readonly tokens: readonly Token[];
  private readonly end: number;

  constructor(
    tokens: readonly Token[],
    private readonly shown: (bound: string) => string,
  ) {
    this.tokens = tokens.filter((token) => token.kind !== 'space');
    const last = tokens[tokens.length - 1];
    this.end = last ? last.at + last.text.length : 0;
  }

  whole(): Syntax {
    if (this.isMark('=')) this.next++;
    if (!this.peek()) throw new FormulaProblem('empty-formula', say('The formula is empty.'));
    const formula = this.expression(1);
    const rest = this.peek();
    if (rest) throw this.unexpected(rest);
    return formula;
  }

  private expression(least: number): Syntax {
    if (++this.depth > DEEPEST) throw tooDeep();
    let left = this.signed();
    for (;;) {
      const token = this.peek();
      const operator = token ? this.markOf(token) : '';
      const power = strength[operator];
      if (!token || power === undefined || power < least) break;
      this.next++;
      const right = this.expression(power + 1);
      left = this.made(
        { kind: 'pair', operator: operator as Operator, left, right, at: token.at },
        [left, right],
      );
    }
    this.depth--;
    return left;
  }

  /** Notes how deep a part is, and refuses what is too deep to work out. */
  private made(node: Syntax, parts: readonly Syntax[]): Syntax {
    const depth = parts.reduce((most, part) => Math.max(most, this.depths.get(part) ?? 0), 0) + 1;
    if (depth > DEEPEST) throw tooDeep();
    this.depths.set(node, depth);
    return node;
  }

  private signed(): Syntax {
    const token = this.peek();
    const sign = token ? this.markOf(token) : '';
    if (token && (sign === '-' || sign === '+')) {
      this.next++;
      if (++this.depth > DEEPEST) throw tooDeep();
      const of = this.signed();
      this.depth--;
      return this.made({ kind: 'sign', sign, of, at: token.at }, [of]);
    }
    let node = this.primary();
    for (let mark = this.peek(); mark && this.markOf(mark) === '%'; mark = this.peek()) {
      this.next++;
      node = this.made({ kind: 'percent', of: node, at: mark.at }, [node]);
    }
    return node;
  }

  private primary(): Syntax {
    const token = this.take();
    const { at } = token;
    switch (token.kind) {
      case 'number':
        return { kind: 'number', value: finite(token), at };
      case 'text':
        return { kind: 'text', value: textOf(token.text), at };
      case 'date':
        return { kind: 'text', value: token.text, at };
      case 'bound':
        return { kind: 'own', when: 'same', name: this.nameOf(token), at };
      case 'name':
        return this.word(token);
      case 'mark':
        if (token.text === '(') return this.bracketed();
        if (token.text === '{') return this.array(token);
    }
    throw this.unexpected(token);
  }

  private bracketed(): Syntax {
    const inner = this.expression(1);
    this.expect(')', 'bracket');
    return inner;
  }

  /** `TRUE`, `herd.epg`, `previous.epg`, `ROUND(…)`, `STDEV.S(…)` or a plain name. */
  private word(token: Token): Syntax {
    const { at } = token;
    const word = token.text.toLowerCase();
    const call = this.callName(token);
    if (call !== null) {
      const args = this.args();
      return this.made({ kind: 'call', name: call, args, at }, args);
    }
    if (word === 'true' || word === 'false') return { kind: 'truth', value: word === 'true', at };
    if (word === 'herd') return this.list(token);
    if ((word === 'previous' || word === 'last') && this.isMark('.')) {
      this.next++;
      return { kind: 'own', when: word satisfies When, name: this.nameOf(this.take()), at };
    }
    return { kind: 'own', when: 'same', name: { table: null, shown: token.text }, at };
  }

  /** The function's name when a bracket follows, dots and all; else null and nothing is taken. */
  private callName(token: Token): string | null {
    let name = token.text;
    let ahead = this.next;
    while (this.tokens[ahead]?.text === '.' && /^(name|number)$/.test(this.kindAt(ahead + 1))) {
      name += `.${this.tokens[ahead + 1]?.text ?? ''}`;
      ahead += 2;
    }
    const open = this.tokens[ahead];
    if (open?.kind !== 'mark' || open.text !== '(') return null;
    this.next = ahead + 1;
    return name.toUpperCase();
  }

  private kindAt(index: number): string {
    return this.tokens[index]?.kind ?? '';
  }

  private args(): readonly Syntax[] {
    const args: Syntax[] = [];
    if (this.isMark(')')) {
      this.next++;
      return args;
    }
    for (;;) {
      const token = this.peek();
      if (token && (this.isMark(',') || this.isMark(')')))
        args.push({ kind: 'blank', at: token.at });
      else args.push(this.expression(1));
      if (this.isMark(')')) break;
      this.expect(',', 'comma');
    }
    this.next++;
    return args;
  }

  private array(open: Token): Syntax {
    const rows: Syntax[][] = [[]];
    for (;;) {
      const token = this.peek();
      const row = rows[rows.length - 1] as Syntax[];
      if (token && (this.isMark(',') || this.isMark(';') || this.isMark('}')))
        row.push({ kind: 'blank', at: token.at });
      else row.push(this.expression(1));
      const mark = this.take();
      if (mark.text === '}') break;
      if (mark.text === ';') rows.push([]);
      else if (mark.text !== ',') throw this.unexpected(mark);
    }
    return this.made({ kind: 'array', rows, at: open.at }, rows.flat());
  }

  /** After `herd`: `["lambs"]` and `[2026-05-03 evening]` in either order, then `.name`. */
  private list(token: Token): Syntax {
    let group: string | null = null;
    let day: string | null = null;
    for (let next = this.peek(); next?.kind === 'bracket'; next = this.peek()) {
      this.next++;
      const inner = next.text.slice(1, -1).trim();
      if (/^["“]/.test(inner)) {
        if (group !== null) throw this.unexpected(next);
        group = textOf(inner);
      } else {
        if (day !== null || inner === '') throw this.unexpected(next);
        day = inner;
      }
    }
    this.expect('.', 'column');
    return { kind: 'list', group, day, name: this.nameOf(this.take()), at: token.at };
  }

  private nameOf(token: Token): WrittenName {
    if (token.kind === 'bound') return { ...boundOf(token.text), shown: this.shown(token.text) };
    if (token.kind === 'name') return { table: null, shown: token.text };
    throw new FormulaProblem(
      'formula',
      say('A name is missing before “{text}” {place}.', {
        text: token.text,
        place: place(token.at),
      }),
    );
  }

  /** A token as people see it: names by their current key. */
  private written(token: Token): string {
    return token.kind === 'bound' ? this.shown(token.text) : token.text;
  }

  private markOf(token: Token): string {
    return token.kind === 'mark' ? (sameMark[token.text] ?? token.text) : '';
  }

  private isMark(mark: string): boolean {
    const token = this.peek();
    return token?.kind === 'mark' && token.text === mark;
  }

  private expect(mark: string, what: 'bracket' | 'comma' | 'column'): void {
    const token = this.peek();
    if (token && this.isMark(mark)) this.next++;
    else if (token?.kind === 'mark' && /^[;:!$]$/.test(token.text)) throw this.unexpected(token);
    else
      throw new FormulaProblem(
        'formula',
        token
          ? say(
              'The formula needs {what, select, bracket {a closing bracket “)”} comma {a comma “,” or a closing bracket “)”} other {a full stop and a column name, as in herd.epg,}} before “{text}” {place}.',
              { what, text: this.written(token), place: place(token.at) },
            )
          : say(
              'The formula ends too early: it needs {what, select, bracket {a closing bracket “)”} comma {a comma “,” or a closing bracket “)”} other {a full stop and a column name, as in herd.epg}}.',
              { what },
            ),
      );
  }

  private peek(): Token | undefined {
    return this.tokens[this.next];
  }

  private take(): Token {
    const token = this.tokens[this.next++];
    if (token) return token;
    throw new FormulaProblem(
      'formula',
      say('The formula ends too early: something is missing at its end {place}.', {
        place: place(this.end),
      }),
    );
  }

  private unexpected(token: Token): FormulaProblem {
    const { text, at, kind } = token;
    const where = place(at);
    if (text === ';')
      return new FormulaProblem(
        'formula',
        say('Part arguments with a comma, not “;” {where}.', { where }),
      );
    if (text === ':' || text === '!' || text === '$')
      return new FormulaProblem(
        'formula',
        say(
          '“{text}” {where} belongs to cell addresses. Here columns have names: write herd.epg for all animals.',
          { text, where },
        ),
      );
    if (kind === 'bad' && /^["“]/.test(text))
      return new FormulaProblem(
        'formula',
        say('The quotation mark {where} is never closed.', { where }),
      );
    if (text.startsWith('['))
      return new FormulaProblem(
        'formula',
        say('“[” {where} is only for days and groups: herd["lambs"].epg.', { where }),
      );
    if (kind === 'number' || text === ',')
      return new FormulaProblem(
        'formula',
        say(
          '“{text}” {where} does not fit there. Decimals are written with a point, 0.5, and arguments in brackets.',
          { text, where },
        ),
      );
    return new FormulaProblem(
      'formula',
      say('“{text}” {where} does not fit there.', { text: this.written(token), where }),
    );
  }
}

function tooDeep(): FormulaProblem {
  return new FormulaProblem(
    'too-deep',
    say(
      'The formula is too long, or has too many brackets in one another. Split it over two columns.',
    ),
  );
}

function finite(token: Token): number {
  const value = Number(token.text);
  if (Number.isFinite(value)) return value;
  throw new FormulaProblem(
    'formula',
    say('The number {text} {place} is too large.', { text: token.text, place: place(token.at) }),
  );
}
