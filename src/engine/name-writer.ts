import type { DayId } from '../../shared/ref.ts';
import { isFault } from '../../shared/value.ts';
import { columnByKey, dayBefore } from '../notebook/read.ts';
import type { CompileContext } from './compile-context.ts';
import type { NamedList, OwnInput } from './compiled.ts';
import { dayNamed, daysBefore } from './days-named.ts';
import { FormulaProblem, place } from './formula-problem.ts';
import { functionNamed } from './function-names.ts';
import type { Kind } from './kinds.ts';
import { targetOf, type Target } from './names.ts';
import { dayNodeKey, nodeOf, type DayNode, type NodeKey } from './node.ts';
import { quoted } from './quoted.ts';
import { partsOf, type Syntax } from './syntax.ts';
import { say } from '../text/say.ts';

type Own = Extract<Syntax, { kind: 'own' }>;
type List = Extract<Syntax, { kind: 'list' }>;

interface Written {
  readonly text: string;
  readonly kind: Kind;
}

/** Writes the names of one formula as places in the calculating engine, and keeps account of them. */
export class NameWriter {
  readonly inputs = new Map<string, OwnInput>();
  readonly needs = new Map<string, DayNode>();
  readonly lists: NamedList[] = [];
  readonly functions: string[] = [];
  private readonly optional: ReadonlySet<string>;

  constructor(
    private readonly context: CompileContext,
    syntax: Syntax,
  ) {
    this.optional = optionalNames(syntax);
  }

  /** One animal's, or a limit, figure or protocol line. `bare`: the function decides about a missing one. */
  own(node: Own, bare = false): Written {
    const target = this.target(node);
    const kind = this.context.kinds.ofTarget(target);
    const key = node.when === 'same' ? node.name.shown : `${node.when}.${node.name.shown}`;
    if (target.kind === 'column' || target.kind === 'fact') {
      this.checkOwnRow(node, target, key);
      const instead = node.when === 'same' ? this.insteadOf(target, this.context.day) : null;
      if (instead !== null) return { text: instead, kind };
      const address = this.rowAddress(node, target);
      const cell = node.when === 'same' ? { day: this.context.day, node: nodeOf(target) } : null;
      return { text: this.input(key, address, bare, cell), kind };
    }
    if (node.when === 'last')
      throw new FormulaProblem(
        'formula',
        say("“last.” {place} goes with an animal's column. Write previous.{shown}.", {
          place: place(node.at),
          shown: node.name.shown,
        }),
      );
    return { text: this.head(node, target, key, bare), kind };
  }

  /** All animals' of a day, or a group's. `as` takes another node's list of the same animals. */
  list(node: List, as?: NodeKey): string {
    const { notebook, day: today, layout, home } = this.context;
    const target = targetOf(notebook, node.name, node.at);
    if (isFault(target)) throw new FormulaProblem(target.fault, target.sentence);
    this.refuseOutcome(target, node.at);
    if (target.kind !== 'column' && target.kind !== 'fact')
      throw new FormulaProblem(
        'formula',
        say('“{shown}” {place} is one figure and no column: write it without “herd.”.', {
          shown: node.name.shown,
          place: place(node.at),
        }),
      );
    const day = node.day === null ? today : dayNamed(notebook, today, node.day);
    if (isFault(day)) throw new FormulaProblem(day.fault, day.sentence);
    if (day === null) return 'NOTHING()';
    const group = node.group ?? this.context.group;
    const list = { day, node: as ?? nodeOf(target), group };
    this.need(list);
    if (!as) this.lists.push(list);
    const range = layout.range(day, list.node, home);
    if (group === null) return range;
    this.need({ day, node: 't:group' });
    return `KEEPGROUP(${range},${layout.range(day, 't:group', home)},${quoted(group)})`;
  }

  private target(node: Own): Target {
    const target = targetOf(this.context.notebook, node.name, node.at);
    if (isFault(target)) throw new FormulaProblem(target.fault, target.sentence);
    this.refuseOutcome(target, node.at);
    return target;
  }

  private refuseOutcome(target: Target, at: number): void {
    if (target.kind === 'column' && target.column.kind === 'outcome')
      throw new FormulaProblem(
        'formula',
        say('“{key}” {place} is what the treatment criteria say; formulas cannot use it.', {
          key: target.column.key,
          place: place(at),
        }),
      );
  }

  private checkOwnRow(node: Own, target: Target, key: string): void {
    if (this.context.place === 'figure')
      throw new FormulaProblem(
        'own-row',
        say("“{key}” {place} is one animal's. For all animals write herd.{shown}.", {
          key,
          place: place(node.at),
          shown: node.name.shown,
        }),
      );
    if (target.kind === 'fact' && node.when === 'last')
      throw new FormulaProblem(
        'formula',
        say('“last.” {place} goes with a column.', { place: place(node.at) }),
      );
  }

  private rowAddress(node: Own, target: Target): string {
    const { notebook, day, layout, home } = this.context;
    const cell = (on: DayId): string => {
      this.need({ day: on, node: nodeOf(target) });
      return layout.rowCell(on, nodeOf(target), home);
    };
    if (node.when === 'same') return cell(day);
    const days =
      node.when === 'last'
        ? daysBefore(notebook, day)
        : [dayBefore(notebook, day)?.id].filter((id) => id !== undefined);
    const cells = days.map(cell);
    if (cells.length === 0) return 'NOTHING()';
    return cells.length === 1 ? (cells[0] as string) : `LASTOF(${cells.join(',')})`;
  }

  private head(node: Own, target: Target, key: string, bare: boolean): string {
    const { notebook, day: today } = this.context;
    const day = node.when === 'same' ? today : dayBefore(notebook, today)?.id;
    if (day === undefined) return this.input(key, 'NOTHING()', bare);
    const instead = this.insteadOf(target, day);
    if (instead !== null) return instead;
    if (target.kind === 'protocol' && target.protocol === 'day_fluid')
      return this.fluidAdded(day, key, bare);
    const address = this.headCell(day, nodeOf(target));
    // A limit without a value is a fault of its own cell, so it is never silently missing.
    return target.kind === 'limit' ? address : this.input(key, address, bare);
  }

  /** mL added: where the day says "made up to", less the grams of this very sample. */
  private fluidAdded(day: DayId, key: string, bare: boolean): string {
    const { notebook, layout, home, place: where } = this.context;
    const column = where === 'row' && day === this.context.day && columnByKey(notebook, 'grams');
    let grams = this.headCell(day, 'p:grams');
    if (column) {
      const instead = this.insteadOf({ kind: 'column', column }, day);
      this.need({ day, node: `c:${column.id}` });
      grams = instead ?? layout.rowCell(day, `c:${column.id}`, home);
    }
    const fluid = this.headCell(day, 'p:fluid');
    const text = `FLUIDADDED(${fluid},${this.headCell(day, 'p:madeup')},${grams})`;
    this.input(key, fluid, bare);
    return text;
  }

  private headCell(day: DayId, node: NodeKey): string {
    this.need({ day, node });
    return this.context.layout.headCell(day, node, this.context.home);
  }

  /** In a row, notes the input for `KNOWN`; elsewhere, and where it may be missing, looks on the spot. */
  private input(key: string, address: string, bare: boolean, cell: DayNode | null = null): string {
    const optional = this.context.place === 'figure' || this.optional.has(key.toLowerCase());
    this.inputs.set(key, { key, address, cell, optional });
    return bare || !optional ? address : `HAVE(${address})`;
  }

  private insteadOf(target: Target, day: DayId): string | null {
    const instead = this.context.instead?.(target, day) ?? null;
    if (instead === null) return null;
    if (isFault(instead)) throw new FormulaProblem(instead.fault, instead.sentence);
    for (const need of instead.needs) this.need(need);
    this.lists.push(...instead.lists);
    this.functions.push(...instead.functions);
    return instead.text;
  }

  private need(node: DayNode): void {
    this.needs.set(dayNodeKey(node), { day: node.day, node: node.node });
  }
}

/** Names handed straight to a function that decides itself about a missing one, as people write them. */
function optionalNames(syntax: Syntax): ReadonlySet<string> {
  const names = new Set<string>();
  for (const part of partsOf(syntax)) {
    if (part.kind !== 'call') continue;
    const row = functionNamed(part.name, part.at);
    if (isFault(row)) continue;
    for (const arg of part.args.slice(row.optionalFrom)) {
      if (arg.kind !== 'own') continue;
      const shown = arg.name.shown.toLowerCase();
      names.add(arg.when === 'same' ? shown : `${arg.when}.${shown}`);
    }
  }
  return names;
}
