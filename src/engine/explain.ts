import type { Explanation } from '../../shared/derived.ts';
import type { Notebook } from '../../shared/notebook.ts';
import type { ColumnId, DayId, RowId } from '../../shared/ref.ts';
import { isFault, type Value } from '../../shared/value.ts';
import { columnOf } from '../notebook/read.ts';
import type { Book } from './book.ts';
import { dayNodeKey } from './node.ts';
import { readingIn } from './row-feed.ts';
import { toShown } from './stored-formula.ts';
import { say } from '../text/say.ts';
import { tokenize, type Token } from './tokens.ts';

/** Where a derived cell comes from; null for what was typed and for animals that are not there. */
export function explainCell(
  notebook: Notebook,
  book: Book,
  day: DayId,
  row: RowId,
  columnId: ColumnId,
): Explanation | null {
  const column = columnOf(notebook, columnId);
  if (column?.kind !== 'formula' || book.rowValue(day, row, 't:tag') === null) return null;
  if (column.typedOver && readingIn(notebook.readings[day]?.[row], columnId)) return null;
  const formula = toShown(notebook, column.formula ?? '').replace(/^\s*=\s*/, '');
  const compiled = book.plan.nodes.get(dayNodeKey({ day, node: `c:${columnId}` }))?.compiled;
  const inputs = (compiled?.inputs ?? []).map((input) => ({
    key: input.key,
    value: book.inputValue(day, row, input),
  }));
  const held = new Map(inputs.map(({ key, value }) => [key.toLowerCase(), value]));
  return {
    formula,
    withValues: withValues(formula, held),
    value: book.rowValue(day, row, `c:${columnId}`),
    inputs,
    functions: compiled?.functions ?? [],
  };
}

/** The formula with what each name held in its place; lists and limits keep their names. */
function withValues(formula: string, held: ReadonlyMap<string, Value>): string {
  const tokens = tokenize(formula);
  let text = '';
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as Token;
    const [point, name, after] = [tokens[i + 1], tokens[i + 2], tokens[i + 3]];
    if (token.kind === 'name' && point?.text === '.' && name?.kind === 'name') {
      const key = `${token.text}.${name.text}`;
      const value = held.get(key.toLowerCase());
      const isCall = after?.text === '(';
      text += value === undefined || isCall ? key : shortValue(value);
      i += 2;
      continue;
    }
    const value = token.kind === 'name' ? held.get(token.text.toLowerCase()) : undefined;
    const isOwn = point?.text !== '(' && tokens[i - 1]?.text !== '.';
    text += value !== undefined && isOwn ? shortValue(value) : token.text;
  }
  return text;
}

/** A value as it stands in a formula; numbers with at most ten figures. */
function shortValue(value: Value): string {
  if (value === null) return say('missing');
  if (isFault(value)) return say('error');
  if (typeof value === 'number') return String(Number(value.toPrecision(10)));
  return typeof value === 'string' ? `"${value}"` : value ? 'TRUE' : 'FALSE';
}
