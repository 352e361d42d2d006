import type { Notebook } from '../shared/notebook.ts';
import type { Brings } from '../src/notebook/merge-brings.ts';
import { recordName } from './clash-words.ts';
import { say } from '../src/text/say.ts';

/** Names of this many are given; of more, the number of the rest. */
const mostNamed = 6;

function some(n: number, one: string, many = `${one}s`): string {
  return n === 1 ? `1 ${one}` : `${n.toLocaleString('en')} ${many}`;
}

function named(names: readonly string[]): string {
  const rest = names.length - mostNamed;
  return rest > 0
    ? say('{list} and {rest} more', { list: names.slice(0, mostNamed).join(', '), rest })
    : names.join(', ');
}

/** What a second copy would bring, one line for each kind of thing; none where it brings nothing. */
export function bringWords(merged: Notebook, brings: Brings): readonly string[] {
  const { readings, counts, days, animals, treatments, other } = brings;
  const ofThem =
    counts > 0 ? say(', {it} of them counts', { it: counts === readings ? 'all' : counts }) : '';
  return [
    readings > 0 ? `${some(readings, 'reading')}${readings > 1 ? ofThem : ''}` : '',
    days.length > 0
      ? `${some(days.length, say('sampling day'))}: ${named(days.map((id) => recordName(merged, 'days', id)))}`
      : '',
    animals.length > 0
      ? `${some(animals.length, 'animal')}: ${named(animals.map((id) => recordName(merged, 'animals', id)))}`
      : '',
    treatments > 0 ? some(treatments, 'treatment') : '',
    other > 0
      ? say('{some}: settings, notes, facts of animals', { some: some(other, say('other change')) })
      : '',
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
      : say(' At {some} the copies differ: choose there, under More.', {
          some: some(clashes, 'place'),
        });
  return say('{name} is brought in: {brought}.{differ}', { name, brought, differ });
}
