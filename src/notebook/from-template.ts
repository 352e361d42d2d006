import type { Json, Stamp } from '../../shared/cell.ts';
import type { SetTo } from '../../shared/edit.ts';
import type { ColumnFacts, Criterion, Notebook } from '../../shared/notebook.ts';
import type { Template, TemplateColumn } from '../../shared/template.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { applyEdit } from './apply-edit.ts';
import { columnId, ordersAtEnd, setsOf } from './record-sets.ts';

/** What a new notebook is told from outside, so that making one stays a pure step. */
export interface Making {
  readonly id: string;
  readonly title: string;
  readonly place?: string;
  /** How the person writes decimals; a point unless said. */
  readonly decimalMark?: DecimalMark;
  readonly stamp: Stamp;
  /** Turns a formula in current names into a stored one; `toStored` of the engine. */
  readonly bind: (notebook: Notebook, shown: string) => string;
}

/** A notebook with nothing in it. */
export function emptyNotebook(id: string): Notebook {
  return {
    format: 'sampling-daybook',
    version: 1,
    language: 1,
    id,
    seen: {},
    about: {},
    defaults: {},
    animals: {},
    groups: {},
    columns: {},
    days: {},
    bench: {},
    yard: {},
    cups: {},
    limits: {},
    settings: {},
    figures: {},
    blocks: {},
    products: {},
    treatments: {},
    decisions: {},
    readings: {},
  };
}

/** Starts a notebook from a template: columns, limits, criteria, figures and blocks; no animals yet. */
export function fromTemplate(template: Template, making: Making): Notebook {
  const named = apply(emptyNotebook(making.id), namedRecords(template, making), making.stamp);
  return apply(named, formulaFacts(named, template, making), making.stamp);
}

function apply(notebook: Notebook, sets: readonly SetTo[], stamp: Stamp): Notebook {
  return applyEdit(notebook, { label: 'starting', source: 'template', sets }, stamp).notebook;
}

/** Everything but formulas: once the names stand, formulas can be bound to them. */
function namedRecords(template: Template, making: Making): readonly SetTo[] {
  const columnOrders = ordersAtEnd([], template.columns.length);
  const limitOrders = ordersAtEnd([], template.limits.length);
  const figureOrders = ordersAtEnd([], template.figures.length);
  const blockOrders = ordersAtEnd([], template.blocks.length);
  return [
    ...setsOf('about', 'notebook', {
      title: making.title,
      place: making.place,
      herdWord: template.herdWord ?? 'herd',
      template: template.id,
      weightUnit: 'kg',
      decimalMark: making.decimalMark ?? '.',
      keepUntreated: 0.1,
      nextSample: template.nextSample,
    }),
    ...template.columns.flatMap((column, i) =>
      setsOf('columns', columnId(column.key), {
        ...columnFacts(column),
        order: columnOrders[i],
      }),
    ),
    ...template.limits.flatMap(({ value, ...limit }, i) => [
      ...setsOf('limits', `l-${limit.key}`, { ...limit, confirmed: false, order: limitOrders[i] }),
      { path: ['settings', 'default', `l-${limit.key}`] as const, value },
    ]),
    ...template.figures.flatMap(({ formula: _, ...figure }, i) =>
      setsOf('figures', `f-${figure.key}`, { ...figure, order: figureOrders[i] }),
    ),
    ...template.blocks.flatMap((block, i) =>
      setsOf('blocks', `b-${i + 1}`, {
        ...block,
        text: block.kind === 'check list' ? template.checkList.join('\n') : block.text,
        order: blockOrders[i],
      }),
    ),
    ...setsOf('defaults', 'default', {
      ...template.protocol,
      lookedFor: template.columns.filter((c) => c.lookedFor).map((c) => columnId(c.key)),
    }),
  ];
}

function columnFacts({
  formula: _,
  lookedFor: __,
  ...facts
}: TemplateColumn): Partial<ColumnFacts> {
  return { about: 'animal', ...facts };
}

function formulaFacts(named: Notebook, template: Template, making: Making): readonly SetTo[] {
  const criteria: readonly Criterion[] = template.criteria.map((criterion, i) => ({
    ...criterion,
    id: `k-${i + 1}`,
    mustBeKnown: criterion.mustBeKnown ?? false,
    condition: criterion.condition === '' ? '' : making.bind(named, criterion.condition),
    confirmed: false,
  }));
  return [
    ...template.columns.flatMap((column) =>
      column.formula === undefined
        ? []
        : setsOf('columns', columnId(column.key), { formula: making.bind(named, column.formula) }),
    ),
    ...template.figures.flatMap((figure) =>
      setsOf('figures', `f-${figure.key}`, { formula: making.bind(named, figure.formula) }),
    ),
    ...setsOf('defaults', 'default', { criteria: criteria as unknown as Json }),
  ];
}
