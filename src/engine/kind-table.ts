import type { Column, Notebook } from '../../shared/notebook.ts';
import { isFault } from '../../shared/value.ts';
import { functionNamed } from './function-names.ts';
import { eitherKind, type Kind } from './kinds.ts';
import { targetOf, type Target } from './names.ts';
import { parseStored } from './stored-formula.ts';
import type { Syntax, WrittenName } from './syntax.ts';

/** What every name of one notebook comes out as, worked out from its formulas once. */
export class KindTable {
  private readonly kinds = new Map<string, Kind>();

  constructor(private readonly notebook: Notebook) {}

  ofTarget(target: Target): Kind {
    switch (target.kind) {
      case 'column':
        return this.ofColumn(target.column);
      case 'figure':
        return this.ofFormula(`f:${target.figure.id}`, target.figure.formula);
      case 'fact':
        return target.fact === 'age' || target.fact === 'days_treated' ? 'number' : 'text';
      default:
        return 'number';
    }
  }

  private ofColumn(column: Column): Kind {
    switch (column.kind) {
      case 'tick':
        return 'truth';
      case 'text':
      case 'choice':
      case 'outcome':
        return 'text';
      case 'formula': {
        const kind = this.ofFormula(`c:${column.id}`, column.formula ?? '');
        return column.typedOver ? eitherKind(kind, 'number') : kind;
      }
      default:
        return 'number';
    }
  }

  private ofFormula(id: string, stored: string): Kind {
    const found = this.kinds.get(id);
    if (found) return found;
    // A formula met again on its own way is a loop, reported elsewhere: any kind will do.
    this.kinds.set(id, 'any');
    const syntax = parseStored(this.notebook, stored);
    const kind = isFault(syntax) ? 'any' : this.ofSyntax(syntax);
    this.kinds.set(id, kind);
    return kind;
  }

  ofSyntax(syntax: Syntax): Kind {
    switch (syntax.kind) {
      case 'number':
      case 'text':
      case 'truth':
        return syntax.kind;
      case 'percent':
      case 'sign':
        return 'number';
      case 'pair':
        if (syntax.operator === '&') return 'text';
        return /[<>=]/.test(syntax.operator) ? 'truth' : 'number';
      case 'own':
        return this.ofName(syntax.name);
      case 'call':
        return this.ofCall(syntax.name, syntax.args);
      default:
        return 'any';
    }
  }

  private ofName(name: WrittenName): Kind {
    const target = targetOf(this.notebook, name);
    return isFault(target) ? 'any' : this.ofTarget(target);
  }

  private ofCall(name: string, args: readonly Syntax[]): Kind {
    const row = functionNamed(name, 0);
    if (isFault(row)) return 'any';
    if (row.gives !== 'args') return row.gives;
    const kinds = args
      .filter((_, i) => {
        const takes = row.takes[i] ?? row.rest?.[(i - row.takes.length) % row.rest.length];
        return takes === 'any';
      })
      .filter((arg) => !(arg.kind === 'call' && arg.name === 'MISSING'))
      .map((arg) => this.ofSyntax(arg));
    return kinds.length === 0 ? 'any' : kinds.reduce(eitherKind);
  }
}
