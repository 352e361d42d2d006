import type { Column, Notebook, Protocol } from '../../shared/notebook.ts';
import type { Template, TemplateColumn } from '../../shared/template.ts';
import {
  aboutOf,
  blocksOf,
  columnsOf,
  dayOf,
  daysOf,
  defaultsOf,
  figuresOf,
  limitsOf,
  limitValue,
} from './read.ts';
import { say } from '../text/say.ts';

const fallback: Protocol = {
  grams: 2,
  fluidMl: 28,
  fluidIs: 'added',
  areaMl: 0.15,
  areas: 2,
  lanes: 6,
  fluid: say('sugar solution'),
  gravity: 1.2,
};

/**
 * A person's own notebook as a template: columns, protocol, limits, criteria, figures and blocks as
 * they stand by default, no animals and nothing typed. `show` turns stored formulas into current
 * names (`toShown` of the engine), so that the file reads like any other template.
 */
export function toTemplate(
  notebook: Notebook,
  told: { readonly id: string; readonly name: string; readonly purpose: string },
  show: (notebook: Notebook, stored: string) => string,
): Template {
  const about = aboutOf(notebook);
  const defaults = defaultsOf(notebook);
  const newestDay = daysOf(notebook).at(-1)?.id ?? 'default';
  const criteria = defaults.criteria ?? dayOf(notebook, newestDay)?.criteria ?? [];
  const checkList = blocksOf(notebook).find((block) => block.kind === 'check list')?.text ?? '';
  return {
    format: 'sampling-daybook-template',
    version: 1,
    ...told,
    nextSample: about.nextSample ?? '',
    checkList: checkList.split('\n').filter((line) => line.trim() !== ''),
    herdWord: about.herdWord,
    protocol: protocolOf(defaults),
    columns: columnsOf(notebook).map((column) => templateColumn(notebook, column, show)),
    limits: limitsOf(notebook).map((limit) => ({
      key: limit.key,
      label: limit.label ?? limit.key,
      value: limitValue(notebook, 'default', limit.id) ?? 0,
      unit: limit.unit,
      help: limit.help,
      saidBy: limit.saidBy,
    })),
    criteria: criteria.map(({ id: _, confirmed: __, condition, ...criterion }) => ({
      ...criterion,
      condition: condition === '' ? '' : show(notebook, condition),
    })),
    figures: figuresOf(notebook).map((figure) => ({
      key: figure.key,
      label: figure.label ?? figure.key,
      formula: show(notebook, figure.formula),
      unit: figure.unit,
      decimals: figure.decimals,
      shownAs: figure.shownAs,
    })),
    blocks: blocksOf(notebook).map((block) => ({
      kind: block.kind,
      title: block.title ?? block.kind,
      text: block.kind === 'note' ? block.text : undefined,
    })),
  };
}

function protocolOf(defaults: Partial<Protocol>): Protocol {
  const { grams, fluidMl, fluidIs, areaMl, areas, lanes, fluid, gravity } = defaults;
  const known = { grams, fluidMl, fluidIs, areaMl, areas, lanes, fluid, gravity };
  const set = Object.entries(known).filter(([, value]) => value !== undefined);
  return { ...fallback, ...Object.fromEntries(set) };
}

function templateColumn(
  notebook: Notebook,
  column: Column,
  show: (notebook: Notebook, stored: string) => string,
): TemplateColumn {
  const { id, order: _, removed: __, formula, key, label, kind, ...facts } = column;
  return {
    key,
    label: label ?? key,
    kind,
    ...facts,
    formula: formula === undefined ? undefined : show(notebook, formula),
    lookedFor: defaultsOf(notebook).lookedFor?.includes(id) || undefined,
  };
}
