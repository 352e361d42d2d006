import type { CountedAnimals } from './counted-animals.ts';

/** The animals that share one factor: how many, their eggs together, and the factor (epg per egg). */
export interface FactorGroup {
  readonly factor: number;
  readonly animals: number;
  readonly eggs: number;
}

/** A run of whole numbers j = from … to − 1, and how many animals have more than j eggs. */
export interface EggRun {
  readonly from: number;
  readonly to: number;
  readonly above: number;
}

/**
 * All that the negative binomial likelihood needs of a herd. Its size is the number of different counts
 * plus the number of different factors, not the number of animals: 10,000 animals cost little more than 100.
 */
export interface CountGroups {
  readonly animals: number;
  readonly eggs: number;
  readonly shedding: number;
  readonly groups: readonly FactorGroup[];
  readonly runs: readonly EggRun[];
}

export function countGroups(counted: CountedAnimals): CountGroups {
  const byFactor = new Map<number, { factor: number; animals: number; eggs: number }>();
  const animalsWith = new Map<number, number>();
  let eggs = 0;
  for (const [i, seen] of counted.eggs.entries()) {
    const factor = counted.factors[i] ?? NaN;
    let group = byFactor.get(factor);
    if (!group) byFactor.set(factor, (group = { factor, animals: 0, eggs: 0 }));
    group.animals += 1;
    group.eggs += seen;
    eggs += seen;
    animalsWith.set(seen, (animalsWith.get(seen) ?? 0) + 1);
  }
  const animals = counted.eggs.length;
  // Sorted, so that sums are taken in one order and the order of the animals cannot show in the last figure.
  const groups = [...byFactor.values()].sort((a, b) => a.factor - b.factor);
  const shedding = animals - (animalsWith.get(0) ?? 0);
  return { animals, eggs, shedding, groups, runs: eggRuns(animalsWith, shedding) };
}

function eggRuns(animalsWith: ReadonlyMap<number, number>, shedding: number): EggRun[] {
  const runs: EggRun[] = [];
  const counts = [...animalsWith.keys()].filter((seen) => seen > 0).sort((a, b) => a - b);
  let from = 0;
  let above = shedding;
  for (const to of counts) {
    runs.push({ from, to, above });
    above -= animalsWith.get(to) ?? 0;
    from = to;
  }
  return runs;
}
