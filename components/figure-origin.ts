import { isFault, type Value } from '../shared/value.ts';
import { tokenize, type Token } from '../src/engine/tokens.ts';
import { groupOn, presentAnimals } from '../src/notebook/present.ts';
import {
  columnByKey,
  dayOf,
  figuresOf,
  limitsOf,
  limitValue,
  markOf,
} from '../src/notebook/read.ts';
import type { Session } from '../src/session/session.ts';
import { figureText } from './figure-text.ts';
import { say } from '../src/text/say.ts';

/** A list that a formula names, animal by animal. */
export interface NamedValues {
  /** As written: `herd.epg`, `herd["lambs"].epg`. */
  readonly name: string;
  readonly values: readonly { readonly tag: string; readonly text: string }[];
  /** How many of the animals present hold nothing there. */
  readonly missing: number;
}

/** This many values of a list stand in a formula before "…". */
const FEW = 3;

/**
 * A figure's formula with the names replaced by the values used: limits and figures by their numbers,
 * lists by their first values and how many there are. Lists of other days keep their names.
 */
export function withFigureValues(session: Session, formula: string, group: string | null): string {
  let text = '';
  for (const part of partsOf(formula)) {
    if (part.kind === 'list') text += listText(session, part, group);
    else if (part.kind === 'name') text += nameText(session, part.text, group);
    else text += part.text;
  }
  return text;
}

/** The open day's lists that a formula names, each once, animal by animal. */
export function listsIn(
  session: Session,
  formula: string,
  group: string | null,
): readonly NamedValues[] {
  const found = new Map<string, NamedValues>();
  for (const part of partsOf(formula)) {
    if (part.kind !== 'list' || found.has(part.text)) continue;
    const values = valuesOf(session, part, group);
    if (values) found.set(part.text, values);
  }
  return [...found.values()];
}

type Part =
  | { readonly kind: 'plain'; readonly text: string }
  | { readonly kind: 'name'; readonly text: string }
  | {
      readonly kind: 'list';
      readonly text: string;
      readonly group: string | null;
      readonly isOtherDay: boolean;
      readonly key: string;
    };

/** Cuts a formula into lists, plain names and the rest; joined, they give back the formula. */
function partsOf(formula: string): readonly Part[] {
  const tokens = tokenize(formula);
  const parts: Part[] = [];
  for (let at = 0; at < tokens.length; at++) {
    const token = tokens[at] as Token;
    const list = token.text.toLowerCase() === 'herd' ? listAt(tokens, at) : null;
    if (list) {
      parts.push(list.part);
      at = list.last;
    } else {
      const after = tokens.slice(at + 1).find(({ kind }) => kind !== 'space')?.text ?? '';
      const isName =
        token.kind === 'name' && !['(', '.', '['].some((mark) => after.startsWith(mark));
      const isOwn = isName && tokens[at - 1]?.text !== '.';
      parts.push({ kind: isOwn ? 'name' : 'plain', text: token.text });
    }
  }
  return parts;
}

function listAt(tokens: readonly Token[], start: number): { part: Part; last: number } | null {
  let at = start + 1;
  let group: string | null = null;
  let isOtherDay = false;
  for (; tokens[at]?.kind === 'bracket' || tokens[at]?.kind === 'space'; at++) {
    const inner = tokens[at]?.text.slice(1, -1).trim() ?? '';
    if (tokens[at]?.kind === 'space') continue;
    if (/^["“]/.test(inner)) group = inner.slice(1, -1);
    else isOtherDay = true;
  }
  const key = tokens[at + 1];
  if (tokens[at]?.text !== '.' || key?.kind !== 'name') return null;
  const text = tokens
    .slice(start, at + 2)
    .map((token) => token.text)
    .join('');
  return { part: { kind: 'list', text, group, isOtherDay, key: key.text }, last: at + 1 };
}

function valuesOf(
  session: Session,
  list: Extract<Part, { kind: 'list' }>,
  group: string | null,
): NamedValues | null {
  const { notebook, openDay, engine } = session;
  const column = columnByKey(notebook, list.key.toLowerCase());
  if (list.isOtherDay || !column || openDay === null) return null;
  const date = dayOf(notebook, openDay)?.date ?? openDay;
  const wanted = list.group ?? group;
  const animals = presentAnimals(notebook, openDay).filter(
    ({ id }) => wanted === null || groupOn(notebook, id, date) === wanted,
  );
  const mark = markOf(notebook);
  const values = animals.flatMap(({ id, tag }) => {
    const text = plainText(engine.value(id, column.id), mark);
    return text === null ? [] : [{ tag, text }];
  });
  return { name: list.text, values, missing: animals.length - values.length };
}

function listText(
  session: Session,
  list: Extract<Part, { kind: 'list' }>,
  group: string | null,
): string {
  const found = valuesOf(session, list, group);
  if (!found) return list.text;
  const few = found.values.slice(0, FEW).map(({ text }) => text);
  const values = few.join('; ');
  const n = found.values.length;
  return `{${n > FEW ? say('{values}, … {n} in all', { values, n }) : values}}`;
}

function nameText(session: Session, name: string, group: string | null): string {
  const { notebook, openDay } = session;
  const key = name.toLowerCase();
  const mark = markOf(notebook);
  const limit = limitsOf(notebook).find((one) => one.key === key);
  if (limit && openDay !== null) {
    const value = limitValue(notebook, openDay, limit.id);
    return value === undefined ? say('missing') : figureText(value, undefined, mark);
  }
  const isFigure = figuresOf(notebook).some((one) => one.key === key);
  if (!isFigure || group !== null) return name;
  return plainText(session.engine.evaluate(name), mark) ?? say('missing');
}

function plainText(value: Value, mark: '.' | ','): string | null {
  if (value === null || isFault(value) || value === '') return null;
  if (typeof value === 'number') return figureText(value, undefined, mark);
  return typeof value === 'boolean' ? (value ? 'TRUE' : 'FALSE') : value;
}
