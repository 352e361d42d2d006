import type { Notebook } from '../shared/notebook.ts';
import type { Brings } from '../src/notebook/merge-brings.ts';
import { recordName } from './clash-words.ts';

/** Names of this many are given; of more, the number of the rest. */
const mostNamed = 6;

function some(n: number, one: string, many = `${one}s`): string {
  return n === 1 ? `1 ${one}` : `${n.toLocaleString('en')} ${many}`;
}

function named(names: readonly string[]): string {
  const rest = names.length - mostNamed;
  return rest > 0 ? `${names.slice(0, mostNamed).join(', ')} and ${rest} more` : names.join(', ');
}

/** What a second copy would bring, one line for each kind of thing; none where it brings nothing. */
export function bringWords(merged: Notebook, brings: Brings): readonly string[] {
  const { readings, counts, days, animals, treatments, other } = brings;
  const ofThem = counts > 0 ? `, ${counts === readings ? 'all' : counts} of them counts` : '';
  return [
    readings > 0 ? `${some(readings, 'reading')}${readings > 1 ? ofThem : ''}` : '',
    days.length > 0
      ? `${some(days.length, 'sampling day')}: ${named(days.map((id) => recordName(merged, 'days', id)))}`
      : '',
    animals.length > 0
      ? `${some(animals.length, 'animal')}: ${named(animals.map((id) => recordName(merged, 'animals', id)))}`
      : '',
    treatments > 0 ? some(treatments, 'treatment') : '',
    other > 0 ? `${some(other, 'other change')}: settings, notes, facts of animals` : '',
  ].filter((line) => line !== '');
}

/** Said at the foot of the page once it is done. */
export function doneWords(name: string, { readings, animals }: Brings, clashes: number): string {
  const brought = [
    some(readings, 'reading'),
    ...(animals.length > 0 ? [some(animals.length, 'animal')] : []),
  ].join(' and ');
  const differ =
    clashes === 0
      ? ''
      : ` At ${some(clashes, 'place')} the copies differ: choose there, under More.`;
  return `${name} is brought in: ${brought}.${differ}`;
}
