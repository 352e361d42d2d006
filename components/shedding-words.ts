import { isFault, type Fault } from '../shared/value.ts';
import type { ShedderCount } from '../src/stats/shedder-share.ts';
import { say } from '../src/text/say.ts';

/** An animal with more eggs than could be counted, and its lower bound in words, if it has one. */
export interface LeftOut {
  readonly tag: string;
  readonly bound: string;
}

/** What the shedding of a day comes to. */
export interface Shedding {
  /** Animals that shed `share` of the eggs, of those counted. */
  readonly reached: ShedderCount;
  /** The share asked for, 0 to 1. */
  readonly share: number;
  /** The share of animals that luck alone would show. */
  readonly luck: number | Fault;
  /** Why this herd cannot say who sheds. */
  readonly caution: Fault | null;
  readonly leftOut: readonly LeftOut[];
}

/** `5 of 19 animals shed 80 % of the eggs.` */
export function shedderWords({ reached, share }: Pick<Shedding, 'reached' | 'share'>): string {
  const { animals, counted } = reached;
  return say(
    '{animals} of {counted} animals {animals, plural, one {sheds} other {shed}} {percent} % of the eggs.',
    {
      animals,
      counted,
      percent: Math.round(share * 100),
    },
  );
}

/** Beside it, what luck alone would show; empty where that cannot be worked out. */
export function luckWords({ luck, reached }: Pick<Shedding, 'luck' | 'reached'>): string {
  if (isFault(luck)) return '';
  const animals = Math.round(luck * reached.counted);
  return say(
    'By the luck of counting alone, if all shed alike, it would be about {animals} of {counted}.',
    { animals, counted: reached.counted },
  );
}

/** `1 too many to count left out: G-013, at least 2,050 epg.` Empty when there is none. */
export function leftOutWords(leftOut: readonly LeftOut[]): string {
  if (leftOut.length === 0) return '';
  const named = leftOut.map(({ tag, bound }) => (bound === '' ? tag : `${tag}, ${bound}`));
  return say('{n} too many to count left out: {named}.', {
    n: leftOut.length,
    named: named.join('; '),
  });
}

/** All of it, as it is read aloud and printed. */
export function sheddingSentences(shedding: Shedding): readonly string[] {
  return [
    shedderWords(shedding),
    luckWords(shedding),
    shedding.caution?.sentence ?? '',
    leftOutWords(shedding.leftOut),
  ].filter((sentence) => sentence !== '');
}
