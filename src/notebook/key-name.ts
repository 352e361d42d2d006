import type { Notebook } from '../../shared/notebook.ts';
import { fault, type Fault } from '../../shared/value.ts';
import { columnsOf, figuresOf, limitsOf } from './read.ts';
import { say } from '../text/say.ts';

/** Names that formulas already use for something else. */
export const reservedNames: ReadonlySet<string> = new Set([
  ...['herd', 'previous', 'last', 'tag', 'group', 'class', 'species', 'age', 'true', 'false'],
  ...['days_treated', 'day_grams', 'day_fluid', 'day_area', 'day_areas'],
]);

/**
 * Columns that the page itself reads by these names: were one called otherwise, spoiled samples would count, or no
 * count be found. What they are called on the page is free.
 */
const keptNames: ReadonlySet<string> = new Set(['status', 'epg', 'eggs', 'factor', 'grams']);

/** Why a column keeps the name it has in formulas; null where it may be given another. */
export function keptNameFault(held: string | undefined, key: string): Fault | null {
  if (held === undefined || held === key || !keptNames.has(held)) return null;
  return fault(
    'kept-name',
    say(
      '"{key}" stays the name in formulas: the page itself reads the column by it. Its name on the page can be changed.',
      { key: held },
    ),
  );
}

/**
 * Why a key cannot be a formula name: its letters, a name already used by a column, limit or figure,
 * or one that formulas reserve. `null` when it can. `exceptId` is the record being renamed.
 */
export function keyFault(notebook: Notebook, key: string, exceptId?: string): Fault | null {
  if (!/^[a-z][a-z0-9_]{0,39}$/.test(key))
    return fault(
      'bad-name',
      say(
        '"{key}" cannot be a name in formulas. Use small letters, digits and underscores, starting with a letter.',
        { key },
      ),
    );
  if (reservedNames.has(key))
    return fault(
      'reserved-name',
      say('"{key}" already means something in formulas. Choose another name.', { key }),
    );
  const named = [...columnsOf(notebook), ...limitsOf(notebook), ...figuresOf(notebook)];
  const owner = named.find((record) => record.key === key && record.id !== exceptId);
  if (owner)
    return fault(
      'name-taken',
      say('"{key}" is already the name of {other}. Choose another.', {
        key,
        other: owner.label ?? owner.key,
      }),
    );
  return null;
}

/** A free key made from a label: `Eyelid colour` → `eyelid_colour`, with a number where taken. */
export function keyFromLabel(notebook: Notebook, label: string): string {
  const base =
    label
      .toLowerCase()
      .normalize('NFD')
      .replace(/[^a-z0-9]+/g, '_')
      .replace(/^[_0-9]+|_+$/g, '')
      .slice(0, 30) || 'column';
  for (let n = 1; ; n += 1) {
    const key = n === 1 ? base : `${base}_${n}`;
    if (keyFault(notebook, key) === null) return key;
  }
}
