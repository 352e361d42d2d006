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
  if (animals === 0) return 'No animal is carried over: none is here on that date.';
  const grouped = groups === 0 ? '' : ` in ${some(groups, 'group')}`;
  const left =
    gone === 0
      ? ''
      : `; ${gone === 1 ? '1 that has left stays' : `${gone} that have left stay`} behind`;
  const treated =
    treatments === 0
      ? ''
      : ` ${some(treatments, 'treatment')} ${treatments === 1 ? 'comes' : 'come'} along: not clear by then, or still showing in counts.`;
  return `${some(animals, 'animal')}${grouped} ${animals === 1 ? 'is' : 'are'} carried over${left}.${treated}`;
}
