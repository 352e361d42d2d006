import { helpCard } from './help-cards/all-help-cards.ts';
import type { Takes } from './function-row.ts';
import { ORDINARY_FUNCTIONS, type OrdinaryFunction } from './ordinary-functions.ts';
import { TRADE_FUNCTIONS } from './trade-functions/all-trade-functions.ts';
import type { Param, TradeFunction } from './trade-functions/trade-function.ts';
import { say } from '../text/say.ts';

/** One argument as help shows it: `factor`, "epg per egg". */
export interface ArgumentForm {
  readonly name: string;
  /** Unit or kind; empty where the name says it. */
  readonly unit: string;
  readonly isOptional: boolean;
}

/** How a function is written, for argument hints and lists of functions. */
export interface FunctionForm {
  readonly name: string;
  readonly args: readonly ArgumentForm[];
  /** Repeated as often as wanted after `args`. */
  readonly rest: readonly ArgumentForm[];
  /** What it gives, in a sentence or two. */
  readonly help: string;
  readonly isTrade: boolean;
}

const kindWords: Readonly<Record<Takes, string>> = {
  number: say('number'),
  text: say('text'),
  truth: say('condition'),
  any: say('value'),
  list: say('list'),
  'list or number': say('list or number'),
  name: say('name'),
};

function tradeForm(trade: TradeFunction): FunctionForm {
  return {
    name: trade.name,
    args: trade.params.map(argumentOf),
    rest: (trade.rest ?? []).map(argumentOf),
    help: helpCard(trade.name)?.what ?? '',
    isTrade: true,
  };
}

function argumentOf(param: Param): ArgumentForm {
  return { name: param.name, unit: param.unit, isOptional: param.optional === true };
}

function ordinaryForm(row: OrdinaryFunction): FunctionForm {
  const plain = (takes: Takes, isOptional: boolean): ArgumentForm => ({
    name: kindWords[takes],
    unit: '',
    isOptional,
  });
  return {
    name: row.name,
    args: row.takes.map((takes, index) => plain(takes, index >= row.least)),
    rest: (row.rest ?? []).map((takes) => plain(takes, true)),
    help: row.help,
    isTrade: false,
  };
}

/** Every function a formula may use: those of the trade first, then the ordinary ones. */
export const FUNCTION_FORMS: readonly FunctionForm[] = [
  ...TRADE_FUNCTIONS.map(tradeForm),
  ...ORDINARY_FUNCTIONS.map(ordinaryForm),
];

const byName = new Map(FUNCTION_FORMS.map((form) => [form.name, form]));

/** By its name, capitals or not. */
export function functionForm(name: string): FunctionForm | undefined {
  return byName.get(name.toUpperCase());
}

/** `EPGLOW(eggs, factor, [level])`; what repeats ends in `…`. */
export function formText(form: FunctionForm): string {
  const shown = form.args.map(({ name, isOptional }) => (isOptional ? `[${name}]` : name));
  if (form.rest.length > 0) shown.push('…');
  return `${form.name}(${shown.join(', ')})`;
}

/** The argument at a place counted from 0, the repeated ones taken in turn; undefined beyond the last. */
export function argumentAt(form: FunctionForm, index: number): ArgumentForm | undefined {
  if (index < form.args.length) return form.args[index];
  if (form.rest.length === 0) return undefined;
  return form.rest[(index - form.args.length) % form.rest.length];
}
