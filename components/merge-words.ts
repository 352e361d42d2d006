import type { Notebook } from '../shared/notebook.ts';
import type { Brings } from '../src/notebook/merge-brings.ts';
import { recordName } from './clash-words.ts';
import { say } from '../src/text/say.ts';

/** Names of this many are given; of more, the number of the rest. */
const mostNamed = 6;

function named(names: readonly string[]): string {
  const rest = names.length - mostNamed;
  return rest > 0
    ? say('{names} and {rest} more', { names: names.slice(0, mostNamed).join(', '), rest })
    : names.join(', ');
}

/** What a second copy would bring, one line for each kind of thing; none where it brings nothing. */
export function bringWords(merged: Notebook, brings: Brings): readonly string[] {
  const { readings, counts, days, animals, treatments, other } = brings;
  return [
    readings > 0 ? readingWords(readings, counts) : '',
    days.length > 0
      ? say('{n, plural, one {# sampling day} other {# sampling days}}: {days}', {
          n: days.length,
          days: named(days.map((id) => recordName(merged, 'days', id))),
        })
      : '',
    animals.length > 0
      ? say('{n, plural, one {# animal} other {# animals}}: {tags}', {
          n: animals.length,
          tags: named(animals.map((id) => recordName(merged, 'animals', id))),
        })
      : '',
    treatments > 0
      ? say('{treatments, plural, one {# treatment} other {# treatments}}', { treatments })
      : '',
    other > 0
      ? say(
          '{other, plural, one {# other change} other {# other changes}}: settings, notes, facts of animals',
          { other },
        )
      : '',
  ].filter((line) => line !== '');
}

function readingWords(readings: number, counts: number): string {
  if (readings === 1 || counts === 0)
    return say('{readings, plural, one {# reading} other {# readings}}', { readings });
  return counts === readings
    ? say('{readings, plural, one {# reading} other {# readings}}, all of them counts', {
        readings,
      })
    : say(
        '{readings, plural, one {# reading} other {# readings}}, {counts, plural, one {# of them counts} other {# of them counts}}',
        { readings, counts },
      );
}

/** Said at the foot of the page once it is done. */
export function doneWords(name: string, { readings, animals }: Brings, clashes: number): string {
  const brought =
    animals.length === 0
      ? say('{name} is brought in: {readings, plural, one {# reading} other {# readings}}.', {
          name,
          readings,
        })
      : say(
          '{name} is brought in: {readings, plural, one {# reading} other {# readings}} and {animals, plural, one {# animal} other {# animals}}.',
          { name, readings, animals: animals.length },
        );
  if (clashes === 0) return brought;
  const differ = say(
    'At {places, plural, one {# place} other {# places}} the copies differ: choose there, under More.',
    { places: clashes },
  );
  return `${brought} ${differ}`;
}
