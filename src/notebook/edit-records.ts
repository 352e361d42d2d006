import type { Edit } from '../../shared/edit.ts';
import type {
  BlockFacts,
  BlockKind,
  ColumnFacts,
  FigureFacts,
  Notebook,
} from '../../shared/notebook.ts';
import { fault, type Fault } from '../../shared/value.ts';
import { keptNameFault, keyFault } from './key-name.ts';
import { blocksOf, columnOf, columnsOf, figuresOf } from './read.ts';
import { orderAtEnd, orderBefore, setsOf } from './record-sets.ts';
import { say } from '../text/say.ts';

/** Adds a column at the right end. Its formula, if any, is already a stored one. */
export function addColumn(
  notebook: Notebook,
  id: string,
  facts: Partial<ColumnFacts> & Pick<ColumnFacts, 'key' | 'label' | 'kind'>,
): Edit | Fault {
  const wrong = keyFault(notebook, facts.key);
  if (wrong) return wrong;
  const order = orderAtEnd(columnsOf(notebook));
  const sets = setsOf('columns', id, { about: 'animal', ...facts, order });
  return {
    label: say('adding the column {column}', { column: facts.label }),
    source: 'typed',
    sets,
  };
}

/** Changes facts of a column; renaming its key changes one field, formulas follow by its id. */
export function changeColumn(
  notebook: Notebook,
  id: string,
  facts: Partial<ColumnFacts>,
): Edit | Fault {
  const column = columnOf(notebook, id);
  const wrong =
    facts.key === undefined
      ? null
      : (keptNameFault(column?.key, facts.key) ?? keyFault(notebook, facts.key, id));
  if (wrong) return wrong;
  const label = column?.label;
  return {
    label:
      label === undefined
        ? say('a change to a column')
        : say('a change to {column}', { column: label }),
    source: 'typed',
    sets: setsOf('columns', id, facts),
  };
}

/** Takes a column away; not the one that says which samples do not count. */
export function removeColumn(notebook: Notebook, id: string): Edit | Fault {
  const column = columnOf(notebook, id);
  if (column?.key === 'status')
    return fault(
      'status-needed',
      say('Without this column spoiled samples would count. Hide it instead.'),
    );
  const name = column?.label ?? column?.key ?? '';
  return removeRecord('columns', id, say('taking away the column {name}', { name }));
}

/** Puts a column before another one (`null`: last). */
export function reorderColumn(notebook: Notebook, id: string, beforeId: string | null): Edit {
  const order = orderBefore(columnsOf(notebook), id, beforeId);
  return {
    label: say('the order of columns'),
    source: 'typed',
    sets: setsOf('columns', id, { order }),
  };
}

/** Adds a figure line at the end. Its formula is already a stored one. */
export function addFigure(
  notebook: Notebook,
  id: string,
  facts: Partial<FigureFacts> & Pick<FigureFacts, 'key' | 'label' | 'formula'>,
): Edit | Fault {
  const wrong = keyFault(notebook, facts.key);
  if (wrong) return wrong;
  const sets = setsOf('figures', id, { ...facts, order: orderAtEnd(figuresOf(notebook)) });
  return {
    label: say('adding the figure {figure}', { figure: facts.label }),
    source: 'typed',
    sets,
  };
}

export function changeFigure(
  notebook: Notebook,
  id: string,
  facts: Partial<FigureFacts>,
): Edit | Fault {
  const wrong = facts.key === undefined ? null : keyFault(notebook, facts.key, id);
  if (wrong) return wrong;
  return {
    label: say('a change to a figure'),
    source: 'typed',
    sets: setsOf('figures', id, facts),
  };
}

export function reorderFigure(notebook: Notebook, id: string, beforeId: string | null): Edit {
  const order = orderBefore(figuresOf(notebook), id, beforeId);
  return {
    label: say('the order of figures'),
    source: 'typed',
    sets: setsOf('figures', id, { order }),
  };
}

/** Adds a block at the end of the page. */
export function addBlock(notebook: Notebook, id: string, kind: BlockKind, title: string): Edit {
  const order = orderAtEnd(blocksOf(notebook));
  return {
    label: say('adding {title}', { title }),
    source: 'typed',
    sets: setsOf('blocks', id, { kind, title, order }),
  };
}

export function changeBlock(id: string, facts: Partial<BlockFacts>, label: string): Edit {
  return { label, source: 'typed', sets: setsOf('blocks', id, facts) };
}

export function reorderBlock(notebook: Notebook, id: string, beforeId: string | null): Edit {
  const order = orderBefore(blocksOf(notebook), id, beforeId);
  return {
    label: say('the order of blocks'),
    source: 'typed',
    sets: setsOf('blocks', id, { order }),
  };
}

/** Marks a record as removed; it stays in the notebook and undo brings it back. */
export function removeRecord(
  table: 'columns' | 'figures' | 'blocks' | 'limits' | 'products' | 'treatments' | 'cups',
  id: string,
  label: string,
): Edit {
  return { label, source: 'typed', sets: [{ path: [table, id, 'removed'], value: true }] };
}
