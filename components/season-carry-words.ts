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

/** `38 animals in 3 groups are carried over; 2 that have left stay behind. …` */
export function carriedWords({ animals, gone, groups, treatments }: Carried): string {
  if (animals === 0) return say('No animal is carried over: none is here on that date.');
  const carried = say(
    '{animals, plural, one {# animal} other {# animals}}{groups, plural, =0 {} one { in # group} other { in # groups}} {animals, plural, one {is} other {are}} carried over{gone, plural, =0 {} one {; # that has left stays behind} other {; # that have left stay behind}}.',
    { animals, groups, gone },
  );
  if (treatments === 0) return carried;
  const treated = say(
    '{treatments, plural, one {# treatment comes} other {# treatments come}} along: not clear by then, or still showing in counts.',
    { treatments },
  );
  return `${carried} ${treated}`;
}
