import { isFault, type Fault } from '../../shared/value.ts';
import { COMPARISONS } from './comparisons.ts';
import type { CompileContext } from './compile-context.ts';
import type { Compiled } from './compiled.ts';
import { FormulaProblem, orFault, place } from './formula-problem.ts';
import { functionNamed, tradeFunction } from './function-names.ts';
import type { FunctionRow, Takes } from './function-row.ts';
import type { Kind } from './kinds.ts';
import { NameWriter } from './name-writer.ts';
import { quoted } from './quoted.ts';
import type { Syntax } from './syntax.ts';
import { say } from '../text/say.ts';

/** Writes a formula in the calculating engine's language, or says what is wrong with it and where. */
export function compile(syntax: Syntax, context: CompileContext): Compiled | Fault {
  return orFault(() => new Compiler(syntax, context).compiled());
}

interface Part {
  readonly text: string;
  readonly kind: Kind;
}

class Compiler {
  private readonly names: NameWriter;
  private readonly functions = new Set<string>();

  constructor(
    private readonly syntax: Syntax,
    private readonly context: CompileContext,
  ) {
    this.names = new NameWriter(context, syntax);
  }

  compiled(): Compiled {
    const { text, kind } = this.write(this.syntax);
    const { inputs, needs, lists, functions } = this.names;
    return {
      text,
      kind,
      inputs: [...inputs.values()],
      needs: [...needs.values()],
      functions: [...new Set([...this.functions, ...functions])],
      lists,
    };
  }

  private write(node: Syntax): Part {
    switch (node.kind) {
      case 'number':
        return { text: String(node.value), kind: 'number' };
      case 'text':
        return { text: quoted(node.value), kind: 'text' };
      case 'truth':
        return { text: node.value ? 'TRUE()' : 'FALSE()', kind: 'truth' };
      case 'percent':
        return { text: `(${this.number(node.of)}/100)`, kind: 'number' };
      case 'sign':
        return { text: `(${node.sign}${this.number(node.of)})`, kind: 'number' };
      case 'pair':
        return this.pair(node);
      case 'call':
        return this.call(node);
      case 'own':
        return this.names.own(node);
      case 'array':
      case 'list':
        throw new FormulaProblem(
          'list-alone',
          say(
            'A list {place} stands only as a whole argument of a function that takes lists, as in AVERAGE(herd.epg).',
            { place: place(node.at) },
          ),
        );
      case 'blank':
        throw new FormulaProblem(
          'formula',
          say('An argument is missing {place}.', { place: place(node.at) }),
        );
    }
  }

  private pair(node: Extract<Syntax, { kind: 'pair' }>): Part {
    const { operator, left, right } = node;
    const comparison = COMPARISONS[operator];
    if (comparison !== undefined) {
      const [a, b] = [this.write(left), this.write(right)];
      if (a.kind !== b.kind && a.kind !== 'any' && b.kind !== 'any') {
        throw new FormulaProblem(
          'different-kinds',
          say(
            'The two sides of “{operator}” {place} are {left, select, number {a number} text {text} truth {TRUE or FALSE} other {a value}} and {right, select, number {a number} text {text} truth {TRUE or FALSE} other {a value}}: compare like with like.',
            { operator, place: place(node.at), left: a.kind, right: b.kind },
          ),
        );
      }
      return { text: `${comparison}(${a.text},${b.text})`, kind: 'truth' };
    }
    if (operator === '&')
      return { text: `(${this.write(left).text}&${this.write(right).text})`, kind: 'text' };
    return { text: `(${this.number(left)}${operator}${this.number(right)})`, kind: 'number' };
  }

  /** A part that must be a number: refused where it is surely text, looked at where it may be. */
  private number(node: Syntax): string {
    const { text, kind } = this.write(node);
    if (kind === 'number') return text;
    if (kind === 'text')
      throw new FormulaProblem(
        'wrong-kind',
        say('Text stands where a number is needed {place}.', { place: place(node.at) }),
      );
    return `NUMBERONLY(${text})`;
  }

  private truth(node: Syntax): string {
    const { text, kind } = this.write(node);
    if (kind === 'truth') return text;
    if (kind !== 'any')
      throw new FormulaProblem(
        'wrong-kind',
        say(
          '{found, select, number {A number} other {Text}} stands where TRUE or FALSE, such as eyelid >= 4, is needed {place}.',
          { found: kind, place: place(node.at) },
        ),
      );
    return `TRUTHONLY(${text})`;
  }

  private call(node: Extract<Syntax, { kind: 'call' }>): Part {
    const row = functionNamed(node.name, node.at);
    if (isFault(row)) throw new FormulaProblem(row.fault, row.sentence);
    checkArguments(row, node);
    if (tradeFunction(row.name)) this.functions.add(row.name);
    const lists: string[] = [];
    const args = node.args.map((arg, i) => this.argument(row, arg, i, lists));
    // Where no condition holds and nothing else is said, there is no answer (a spreadsheet says FALSE).
    if (row.name === 'IF' && args.length === 2) args.push('DAYBOOK.MISSING()');
    if (row.name === 'COUNTBLANK') args.push(...this.present(node.args[0]));
    const text = `${row.engineName}(${args.join(',')})`;
    const kind = row.gives === 'args' ? this.context.kinds.ofSyntax(node) : row.gives;
    const some = row.needsSome && lists.length > 0;
    return { text: some ? `SOMEKNOWN(${[text, ...lists].join(',')})` : text, kind };
  }

  private argument(row: FunctionRow, arg: Syntax, index: number, lists: string[]): string {
    const takes = takesAt(row, index);
    if (arg.kind === 'blank') return '';
    const isList = arg.kind === 'list' || arg.kind === 'array';
    if (isList && (takes === 'list' || takes === 'list or number')) {
      const text = arg.kind === 'list' ? this.names.list(arg) : this.array(arg);
      lists.push(text);
      return text;
    }
    // The function decides itself about a bare name that may be missing.
    if (arg.kind === 'own' && index >= row.optionalFrom) return this.names.own(arg, true).text;
    if (takes === 'name')
      throw new FormulaProblem(
        'arguments',
        say('{name} asks about one name: {name}(epg).', { name: row.name }),
      );
    if (takes === 'number') return this.number(arg);
    if (takes === 'truth') return this.truth(arg);
    if (takes === 'list' && row.needsSome) return this.number(arg);
    return this.write(arg).text;
  }

  /** All entries in one row: `{1,2;3,4}` is a list of four. */
  private array(node: Extract<Syntax, { kind: 'array' }>): string {
    const cells = node.rows.flat();
    if (cells.every((cell) => cell.kind === 'blank'))
      throw new FormulaProblem(
        'empty-list',
        say("The list {place} is empty. Put at least one figure in it, as in '{'2,0,5'}'.", {
          place: place(node.at),
        }),
      );
    return `{${cells.map((cell) => (cell.kind === 'blank' ? '""' : this.write(cell).text)).join(',')}}`;
  }

  /** For COUNTBLANK: a list that holds something for every animal present, so that only those count. */
  private present(list: Syntax | undefined): string[] {
    return list?.kind === 'list' ? [this.names.list(list, 't:tag')] : [];
  }
}

function takesAt(row: FunctionRow, index: number): Takes {
  const rest = row.rest ?? [];
  return row.takes[index] ?? rest[(index - row.takes.length) % rest.length] ?? 'any';
}

function checkArguments(row: FunctionRow, node: Extract<Syntax, { kind: 'call' }>): void {
  const count = node.args.length;
  const most = row.rest ? Infinity : row.takes.length;
  const where = place(node.at);
  if (count < row.least) {
    throw new FormulaProblem(
      'arguments',
      say('{name} {where} needs at least {n, plural, one {# argument} other {# arguments}}.', {
        name: row.name,
        where,
        n: row.least,
      }),
    );
  }
  if (count > most) {
    throw new FormulaProblem(
      'arguments',
      say(
        '{name} {where} takes at most {n, plural, =0 {no argument} one {# argument} other {# arguments}}.',
        { name: row.name, where, n: most },
      ),
    );
  }
  const blank = node.args.findIndex((arg, i) => arg.kind === 'blank' && i < row.least);
  if (blank >= 0)
    throw new FormulaProblem(
      'arguments',
      say('{name} {where} needs its argument {number}.', {
        name: row.name,
        where,
        number: blank + 1,
      }),
    );
}
