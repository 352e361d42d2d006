import type { Notebook } from '../../shared/notebook.ts';
import { columnsOf, daysOf, figuresOf, limitsOf } from '../notebook/read.ts';
import { FUNCTION_FORMS, formText } from './function-form.ts';
import { FACTS, PROTOCOL_NAMES, type FactName, type ProtocolName } from './names.ts';
import { tokenize } from './tokens.ts';
import { say } from '../text/say.ts';

/** Where a formula stands: in each row, once for the herd, or as a condition of a criterion. */
export type FormulaPlace = 'column' | 'figure' | 'criterion';

/** Something that could stand where the person is typing. */
export interface Completion {
  readonly kind: 'column' | 'limit' | 'figure' | 'fact' | 'protocol' | 'list' | 'function';
  /** As shown in the list. */
  readonly name: string;
  /** What is put in; a function ends in its open bracket. */
  readonly insert: string;
  readonly help: string;
}

/** What may replace the text from `from` to `to`. */
export interface Completions {
  readonly from: number;
  readonly to: number;
  /** What was typed so far of the word. */
  readonly word: string;
  readonly items: readonly Completion[];
}

const factHelp: Readonly<Record<FactName, string>> = {
  tag: say('The animal’s tag, as text.'),
  group: say('The group it is in that day, as text.'),
  class: say('Ewe, lamb, ram, wether, doe, kid or buck.'),
  species: say('Sheep or goat.'),
  age: say('Months since it was born.'),
  days_treated: say('Days since its last treatment, while counts still show it.'),
};

const protocolHelp: Readonly<Record<ProtocolName, string>> = {
  day_grams: say('The day’s grams of dung in a cup.'),
  day_fluid: say('The day’s mL of fluid added.'),
  day_area: say('The day’s mL under one counted grid.'),
  day_areas: say('How many grids the day counts.'),
};

const starters: readonly Completion[] = [
  list('herd', 'herd.', say('All animals present: herd.epg stands inside a function of lists.')),
  list('previous', 'previous.', say('This animal on the sampling day before: previous.epg.')),
  list('last', 'last.', say('This animal’s last count before this day: last.epg.')),
];

function list(name: string, insert: string, help: string): Completion {
  return { kind: 'list', name, insert, help };
}

/**
 * What could stand where the caret is, best first: names and functions that begin with the word typed,
 * then those that hold it. In a figure a column stands for all animals and is offered as `herd.epg`.
 * Inside a text there is nothing to offer.
 */
export function completionsAt(
  notebook: Notebook,
  text: string,
  caret: number,
  place: FormulaPlace,
  groups: readonly string[] = [],
): Completions {
  const before = text.slice(0, caret);
  const ahead = /^[\p{L}\p{N}_]*/u.exec(text.slice(caret))?.[0] ?? '';
  const to = caret + ahead.length;
  const bracket = /herd\s*(?:\[[^\]]*\])?\[\s*["“]?([^\]"”]*)$/iu.exec(before);
  if (bracket) {
    const word = bracket[1] ?? '';
    const from = before.lastIndexOf('[') + 1;
    const end = caret + (/^[^\])(,]*\]\.?/.exec(text.slice(caret))?.[0] ?? '').length;
    return { from, to: end, word, items: best(insideBracket(notebook, groups), word) };
  }
  if (isInText(before)) return { from: caret, to: caret, word: '', items: [] };
  const after = /(?:herd(?:\s*\[[^\]]*\])*|previous|last)\s*\.\s*([\p{L}\p{N}_]*)$/iu.exec(before);
  const word = after ? (after[1] ?? '') : (/[\p{L}_][\p{L}\p{N}_.]*$/u.exec(before)?.[0] ?? '');
  const all = after ? columns(notebook, '') : everything(notebook, place);
  return { from: caret - word.length, to, word, items: best(all, word) };
}

function isInText(before: string): boolean {
  const last = tokenize(before).at(-1);
  return last?.kind === 'bad' && /^["“[]/.test(last.text);
}

function everything(notebook: Notebook, place: FormulaPlace): readonly Completion[] {
  const isFigure = place === 'figure';
  return [
    ...columns(notebook, isFigure ? 'herd.' : ''),
    ...limitsOf(notebook).map((limit) =>
      named('limit', limit.key, [limit.label, limit.help, limit.unit]),
    ),
    ...figuresOf(notebook).map((figure) =>
      named('figure', figure.key, [figure.label, undefined, figure.unit]),
    ),
    ...(isFigure ? starters.slice(0, 1) : starters),
    ...(isFigure ? [] : FACTS.map((fact) => named('fact', fact, [factHelp[fact]]))),
    ...PROTOCOL_NAMES.map((name) => named('protocol', name, [protocolHelp[name]])),
    ...FUNCTION_FORMS.map((form): Completion => ({
      kind: 'function',
      name: formText(form),
      insert: `${form.name}(`,
      help: form.help,
    })),
  ];
}

function columns(notebook: Notebook, prefix: string): readonly Completion[] {
  return columnsOf(notebook)
    .filter((column) => column.kind !== 'outcome')
    .map(({ key, label, help, unit }) => named('column', prefix + key, [label, help, unit]));
}

function named(
  kind: Completion['kind'],
  name: string,
  [label, help, unit]: readonly (string | undefined)[],
): Completion {
  const lead = label && unit ? `${label} (${unit})` : (label ?? '');
  const said = !lead ? (help ?? '') : help ? `${lead}: ${help}` : lead;
  return { kind, name, insert: name, help: said };
}

/** Groups, and sampling days other than by name: `herd["lambs"].`, `herd[2026-05-03].` */
function insideBracket(notebook: Notebook, groups: readonly string[]): readonly Completion[] {
  return [
    ...groups.map((group) => list(group, `"${group}"].`, say('The animals of this group.'))),
    ...daysOf(notebook).map(({ date, label }) => {
      const day = label ? `${date} ${label}` : date;
      return list(day, `${day}].`, say('The animals on that day.'));
    }),
  ];
}

/** Those that fit the word: begun alike with its capitals, begun alike, then holding it anywhere. */
function best(all: readonly Completion[], word: string): readonly Completion[] {
  const lower = word.toLowerCase();
  const rank = ({ name, kind }: Completion): number => {
    const key = name.startsWith('herd.') && !lower.startsWith('herd.') ? name.slice(5) : name;
    const head = kind === 'function' ? key.slice(0, key.indexOf('(')) : key;
    if (head.startsWith(word)) return 0;
    if (head.toLowerCase().startsWith(lower)) return 1;
    return lower.length > 1 && head.toLowerCase().includes(lower) ? 2 : 3;
  };
  return all
    .map((item, at) => ({ item, at, rank: rank(item) }))
    .filter((ranked) => ranked.rank < 3)
    .sort((a, b) => a.rank - b.rank || a.at - b.at)
    .map(({ item }) => item);
}

/** The function whose brackets the caret is in, and which of its arguments, counted from 0. */
export interface CallAt {
  readonly name: string;
  readonly argument: number;
}

/** The innermost call around the caret, also of a function that is not known; null outside all calls. */
export function callAt(text: string, caret: number): CallAt | null {
  const open: { name: string; argument: number }[] = [];
  const tokens = tokenize(text.slice(0, caret)).filter(({ kind }) => kind !== 'space');
  for (const [index, token] of tokens.entries()) {
    if (token.kind !== 'mark') continue;
    if (token.text === '(') open.push({ name: nameBefore(tokens, index), argument: 0 });
    else if (token.text === '{') open.push({ name: '', argument: 0 });
    else if (token.text === ')' || token.text === '}') open.pop();
    const last = open.at(-1);
    if (token.text === ',' && last) last.argument += 1;
  }
  return open.findLast(({ name }) => name !== '') ?? null;
}

/** `STDEV.S` too: names joined by full stops. */
function nameBefore(tokens: readonly { kind: string; text: string }[], index: number): string {
  const parts: string[] = [];
  for (let at = index - 1; tokens[at]?.kind === 'name'; at -= 2) {
    parts.unshift(tokens[at]?.text ?? '');
    if (tokens[at - 1]?.text !== '.') break;
  }
  return parts.join('.').toUpperCase();
}
