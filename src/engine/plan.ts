import type { Criterion, Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { columnOf, columnsOf, dayOf, defaultsOf, figuresOf } from '../notebook/read.ts';
import { showDayId } from '../text/day-id.ts';
import type { Template } from './template.ts';
import { compile } from './compile.ts';
import { cellFormula, type Compiled } from './compiled.ts';
import { countsBehind, eggGroups, type EggGroup } from './egg-groups.ts';
import { KindTable } from './kind-table.ts';
import type { Layout } from './layout.ts';
import { loopsIn, roundOf } from './loops.ts';
import { FACTS } from './names.ts';
import { dayNodeKey, idOf, isRowNode, type DayNode, type NodeKey } from './node.ts';
import { quoted } from './quoted.ts';
import { parseStored } from './stored-formula.ts';
import { say } from '../text/say.ts';

/** One thing that stands in the engine for a day. */
export interface PlannedNode extends DayNode {
  /** Its formula; null for what is typed and for the animals' own facts. */
  readonly template: Template | null;
  /** What the formula names; null for no formula, or one that is wrong. */
  readonly compiled: Compiled | null;
  readonly fault: Fault | null;
  /** Rests on a list of animals, so it is written after all rows are in. */
  late: boolean;
}

/** What stands in the engine for one day: a cell for each animal, and one for the day. */
export interface DayPlan {
  readonly rows: readonly PlannedNode[];
  readonly heads: readonly PlannedNode[];
}

/** Everything that stands in the engine, with its formula: what it takes to answer for `roots`. */
export interface Plan {
  readonly nodes: ReadonlyMap<string, PlannedNode>;
  readonly byDay: ReadonlyMap<DayId, DayPlan>;
  readonly groups: readonly EggGroup[];
  /** The count columns that `epg` rests on. */
  readonly strongyleCounts: readonly string[];
  readonly kinds: KindTable;
}

/** The criteria that hold for a day: its own, or else what new days copy. */
export function criteriaOf(notebook: Notebook, day: DayId): readonly Criterion[] {
  return dayOf(notebook, day)?.criteria ?? defaultsOf(notebook).criteria ?? [];
}

/** What the open day needs: every column, the animals' own facts, every criterion that is a formula. */
export function openDayRoots(notebook: Notebook, day: DayId): readonly DayNode[] {
  const nodes: NodeKey[] = [
    ...FACTS.map((fact): NodeKey => `t:${fact}`),
    ...columnsOf(notebook)
      .filter((column) => column.kind !== 'outcome')
      .map((column): NodeKey => `c:${column.id}`),
    ...criteriaOf(notebook, day).flatMap((criterion, i): NodeKey[] =>
      criterion.ready ? [] : [`k:${i}`],
    ),
  ];
  return nodes.map((node) => ({ day, node }));
}

/**
 * Plans all that `roots` need, days and columns named by way of others included. The same formula is always
 * the same template of the layout, so that only what changed is written anew.
 */
export function planFor(notebook: Notebook, roots: readonly DayNode[], layout: Layout): Plan {
  const kinds = new KindTable(notebook);
  const nodes = new Map<string, PlannedNode>();
  const queue = [...roots];
  for (let next = queue.pop(); next; next = queue.pop()) {
    const key = dayNodeKey(next);
    if (nodes.has(key)) continue;
    const planned = planNode(notebook, next, layout, kinds);
    nodes.set(key, planned);
    queue.push(...(planned.compiled?.needs ?? []));
  }
  breakLoops(notebook, nodes, layout);
  markLate(nodes);
  return {
    nodes,
    byDay: nodesByDay(nodes),
    groups: eggGroups(notebook),
    strongyleCounts: countsBehind(notebook, 'epg'),
    kinds,
  };
}

function planNode(
  notebook: Notebook,
  { day, node }: DayNode,
  layout: Layout,
  kinds: KindTable,
): PlannedNode {
  const written = formulaOf(notebook, day, node);
  const isHead = node.startsWith('f:');
  if (isHead || node.startsWith('l:') || node.startsWith('p:')) layout.headOf(node);
  else layout.columnOf(node);
  if (written === null)
    return { day, node, template: null, compiled: null, fault: null, late: false };
  const syntax = parseStored(notebook, written);
  const compiled = isFault(syntax)
    ? syntax
    : compile(syntax, {
        notebook,
        kinds,
        layout,
        day,
        place: isHead ? 'figure' : 'row',
        group: null,
        home: isHead ? layout.headSheet(day) : layout.rowSheet(day),
      });
  const wrong = isFault(compiled) ? compiled : wrongForPlace(node, compiled);
  const good = wrong === null && !isFault(compiled) ? compiled : null;
  const template = layout.template(good ? textFor(node, good) : faultFormula(wrong));
  return { day, node, template, compiled: good, fault: wrong, late: false };
}

/** The formula that stands there; null for what is typed, a fact, a limit or a line of the protocol. */
function formulaOf(notebook: Notebook, day: DayId, node: NodeKey): string | null {
  const id = idOf(node);
  switch (node[0]) {
    case 'c': {
      const column = columnOf(notebook, id);
      return column?.kind === 'formula' ? (column.formula ?? '') : null;
    }
    case 'f':
      return figuresOf(notebook).find((figure) => figure.id === id)?.formula ?? '';
    case 'k':
      return criteriaOf(notebook, day)[Number(id)]?.condition ?? '';
    default:
      return null;
  }
}

function textFor(node: NodeKey, compiled: Compiled): string {
  const isLoose = node.startsWith('k:') && compiled.kind === 'any';
  return cellFormula(isLoose ? { ...compiled, text: `TRUTHONLY(${compiled.text})` } : compiled);
}

/** A criterion must come out TRUE or FALSE. */
export function wrongForPlace(node: NodeKey, compiled: Compiled): Fault | null {
  if (!node.startsWith('k:') || compiled.kind === 'truth' || compiled.kind === 'any') return null;
  return fault(
    'not-a-condition',
    say('A criterion must come out TRUE or FALSE. Write a condition, such as eyelid >= 4.'),
  );
}

export function faultFormula(wrong: Fault | null): string {
  return `FAULT(${quoted(wrong?.fault ?? '')},${quoted(wrong?.sentence ?? '')})`;
}

/** Formulas that lead back to themselves get a fault that names the round; nothing else is touched. */
function breakLoops(notebook: Notebook, nodes: Map<string, PlannedNode>, layout: Layout): void {
  const graph = new Map(
    [...nodes].map(([key, planned]) => [key, (planned.compiled?.needs ?? []).map(dayNodeKey)]),
  );
  for (const loop of loopsIn(graph)) {
    const wrong = loopFault(notebook, nodes, roundOf(graph, loop));
    for (const key of loop) {
      const planned = nodes.get(key);
      if (!planned) continue;
      const template = layout.template(faultFormula(wrong));
      nodes.set(key, { ...planned, template, compiled: null, fault: wrong });
    }
  }
}

function loopFault(
  notebook: Notebook,
  nodes: ReadonlyMap<string, PlannedNode>,
  round: readonly string[],
): Fault {
  const members = round.map((key) => nodes.get(key)).filter((planned) => planned !== undefined);
  const isOneDay = new Set(members.map((planned) => planned.day)).size === 1;
  const names = members.map((planned) => {
    const id = idOf(planned.node);
    const named =
      columnOf(notebook, id) ?? figuresOf(notebook).find((figure) => figure.id === id) ?? null;
    const key = named?.key ?? id;
    return isOneDay ? `“${key}”` : say('“{key}” of {day}', { key, day: showDayId(planned.day) });
  });
  const first = names[0] ?? '';
  const sentence =
    names.length === 2
      ? say('The formula of {first} names itself. Take {first} out of it.', { first })
      : say('These formulas lead round in a circle: {names}. Change one of them.', {
          names: names.join(' → '),
        });
  return fault('loop', sentence);
}

function markLate(nodes: ReadonlyMap<string, PlannedNode>): void {
  const marked = new Map<string, boolean>();
  const isLate = (key: string): boolean => {
    const known = marked.get(key);
    if (known !== undefined) return known;
    marked.set(key, false);
    const planned = nodes.get(key);
    const compiled = planned?.compiled;
    const late =
      compiled !== null &&
      compiled !== undefined &&
      (compiled.lists.length > 0 || compiled.needs.some((need) => isLate(dayNodeKey(need))));
    marked.set(key, late);
    if (planned) planned.late = late;
    return late;
  };
  for (const key of nodes.keys()) isLate(key);
}

function nodesByDay(nodes: ReadonlyMap<string, PlannedNode>): Map<DayId, DayPlan> {
  const days = new Map<DayId, { rows: PlannedNode[]; heads: PlannedNode[] }>();
  for (const planned of nodes.values()) {
    let day = days.get(planned.day);
    if (!day) days.set(planned.day, (day = { rows: [], heads: [] }));
    (isRowNode(planned.node) ? day.rows : day.heads).push(planned);
  }
  return days;
}
