import type { Notebook } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { fault } from '../../shared/value.ts';
import { dayOf, defaultsOf, limitsOf, limitValue } from '../notebook/read.ts';
import { finiteNumber, type CellContent } from './cell-content.ts';
import type { Layout } from './layout.ts';
import { idOf } from './node.ts';
import { faultFormula, type PlannedNode } from './plan.ts';
import { say } from '../text/say.ts';

/** What goes into the engine for one head line of a day: a limit, a line of the protocol, a figure. */
export function headContent(
  notebook: Notebook,
  day: DayId,
  { node, template }: PlannedNode,
  layout: Layout,
): CellContent {
  const id = idOf(node);
  if (node.startsWith('f:')) return template;
  if (node.startsWith('p:')) return protocolContent(notebook, day, id);
  const value = finiteNumber(limitValue(notebook, day, id));
  if (value !== null) return value;
  const key = limitsOf(notebook).find((limit) => limit.id === id)?.key ?? id;
  return layout.template(
    faultFormula(fault('no-limit', say('“{key}” has no value yet: set it in Limits.', { key }))),
  );
}

function protocolContent(notebook: Notebook, day: DayId, line: string): CellContent {
  const own = dayOf(notebook, day);
  const usual = defaultsOf(notebook);
  switch (line) {
    case 'grams':
      return finiteNumber(own?.grams ?? usual.grams);
    case 'fluid':
      return finiteNumber(own?.fluidMl ?? usual.fluidMl);
    case 'madeup':
      // Whether the volume was measured with the dung in it belongs to the volume: both from one place.
      return (own?.fluidMl === undefined ? usual.fluidIs : own.fluidIs) === 'made up to';
    case 'area':
      return finiteNumber(own?.areaMl ?? usual.areaMl);
    default:
      return finiteNumber(own?.areas ?? usual.areas);
  }
}
