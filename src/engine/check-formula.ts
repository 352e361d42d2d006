import type { Cell, Stamp } from '../../shared/cell.ts';
import type { ColumnFacts, FigureFacts, Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { columnByKey, figuresOf } from '../notebook/read.ts';
import { compile } from './compile.ts';
import { KindTable } from './kind-table.ts';
import { Layout } from './layout.ts';
import { dayNodeKey, type NodeKey } from './node.ts';
import { planFor, wrongForPlace } from './plan.ts';
import { parseStored, toStored } from './stored-formula.ts';

/** Stands in for a column or figure that does not exist yet. */
const NEW = 'new formula';

/**
 * Whether a formula in current names could stand: null, or what is wrong and what to do. `ownKey` is the
 * name of the column or figure that it is for, so that a formula leading back to itself is found.
 */
export function checkFormula(
  notebook: Notebook,
  day: DayId,
  shown: string,
  place: 'column' | 'figure' | 'criterion',
  ownKey?: string,
): Fault | null {
  if (place === 'criterion') return checkCriterion(notebook, day, shown);
  const { tried, node } =
    place === 'column' ? withColumn(notebook, shown, ownKey) : withFigure(notebook, shown, ownKey);
  const plan = planFor(tried, [{ day, node }], new Layout());
  return plan.nodes.get(dayNodeKey({ day, node }))?.fault ?? null;
}

function checkCriterion(notebook: Notebook, day: DayId, shown: string): Fault | null {
  const syntax = parseStored(notebook, shown);
  if (isFault(syntax)) return syntax;
  const layout = new Layout();
  const kinds = new KindTable(notebook);
  const compiled = compile(syntax, {
    notebook,
    kinds,
    layout,
    day,
    place: 'row',
    group: null,
    home: layout.rowSheet(day),
  });
  return isFault(compiled) ? compiled : wrongForPlace('k:0', compiled);
}

const never: Stamp = [0, 0, ''];

function cell<T>(value: T): Cell<T> {
  return [[value, never]];
}

function withColumn(
  notebook: Notebook,
  shown: string,
  ownKey: string | undefined,
): { readonly tried: Notebook; readonly node: NodeKey } {
  const id = (ownKey === undefined ? undefined : columnByKey(notebook, ownKey)?.id) ?? NEW;
  const fields = {
    ...notebook.columns[id],
    key: cell(ownKey ?? NEW),
    kind: cell<ColumnFacts['kind']>('formula'),
  };
  const named = { ...notebook, columns: { ...notebook.columns, [id]: fields } };
  const formula = cell(toStored(named, shown));
  const columns = { ...notebook.columns, [id]: { ...fields, formula } };
  return { tried: { ...notebook, columns }, node: `c:${id}` };
}

function withFigure(
  notebook: Notebook,
  shown: string,
  ownKey: string | undefined,
): { readonly tried: Notebook; readonly node: NodeKey } {
  const known = figuresOf(notebook).find((figure) => figure.key === ownKey)?.id;
  const id = known ?? NEW;
  const key: FigureFacts['key'] = ownKey ?? NEW;
  const fields = { ...notebook.figures[id], key: cell(key), formula: cell('') };
  const named = { ...notebook, figures: { ...notebook.figures, [id]: fields } };
  const formula = cell(toStored(named, shown));
  const figures = { ...notebook.figures, [id]: { ...fields, formula } };
  return { tried: { ...notebook, figures }, node: `f:${id}` };
}
