import { say } from '../src/text/say.ts';

/** What a next season takes over from the notebook before it. */
export interface Carried {
  readonly animals: number;
  /** Animals that had left by then. */
  readonly gone: number;
  readonly groups: number;
  /** Treatments that still bear on it. */
  readonly treatments: number;
}

function some(n: number, one: string): string {
  return n === 1 ? `1 ${one}` : `${n.toLocaleString('en')} ${one}s`;
}

/** `38 animals in 3 groups are carried over; 2 that have left stay behind. …` */
export function carriedWords({ animals, gone, groups, treatments }: Carried): string {
  if (animals === 0) return say('No animal is carried over: none is here on that date.');
  const grouped = groups === 0 ? '' : say(' in {some}', { some: some(groups, 'group') });
  const left =
    gone === 0
      ? ''
      : say('; {it} behind', {
          it:
            gone === 1 ? say('1 that has left stays') : say('{gone} that have left stay', { gone }),
        });
  const treated =
    treatments === 0
      ? ''
      : say(
          ' {some} {treatments, plural, one {comes} other {come}} along: not clear by then, or still showing in counts.',
          { some: some(treatments, 'treatment'), treatments },
        );
  return say(
    '{some}{grouped} {animals, plural, one {is} other {are}} carried over{left}.{treated}',
    { some: some(animals, 'animal'), grouped, animals, left, treated },
  );
}
