import { fault, isFault, type Fault } from '../../shared/value.ts';
import { countedAnimals } from './counted-animals.ts';
import { gammaBelow } from './gamma-law.ts';
import { mean } from './herd-mean.ts';
import { checkShare } from './shedder-share.ts';
import { say } from '../text/say.ts';

/** Fewer animals or, on average, fewer eggs than these: too few to say who sheds (own choice). */
export const FEWEST_ANIMALS = 10;
export const FEWEST_MEAN_EGGS = 5;

/**
 * The shedder share that luck alone would show: the share of animals, from the top, that holds
 * `eggShare` (0.8) of the eggs when all animals shed alike, so that their counts differ by counting luck only
 * (Poisson with the herd's mean m). The animals at the boundary count are split in proportion.
 *
 * With P the Poisson law, the eggs in animals with c or more are P(X ≥ c − 1) of all; c is the largest count for
 * which that reaches the share; answer = P(X > c) + (share − P(X ≥ c))·m/c. Units: raw eggs; answer 0 to 1.
 * Missing animals are left out. Faults: nobody counted, no eggs, eggs not whole, share outside 0 to 1.
 *
 * Source: own work, elementary; values checked against R. 20 like animals with 2 eggs each on
 * average: the top 20 % hold about 40 % of the eggs.
 */
export function shedderLuck(eggs: readonly (number | null)[], eggShare = 0.8): number | Fault {
  const counted = checkShare(eggShare, 'eggs') ?? countedAnimals(eggs, 1);
  if (isFault(counted)) return counted;
  const m = mean(counted.eggs);
  if (m === 0) {
    return fault(
      'no-eggs',
      say('No eggs were found in any animal, so there are no eggs to share out.'),
    );
  }
  if (eggShare === 1) return reached(1, m);
  // Largest count whose animals, with those above, hold the share: P(X ≥ c − 1) falls as c grows.
  let c = 1;
  let beyond = 2;
  while (reached(beyond - 1, m) >= eggShare) {
    c = beyond;
    beyond *= 2;
  }
  while (beyond - c > 1) {
    const middle = Math.floor((c + beyond) / 2);
    if (reached(middle - 1, m) >= eggShare) c = middle;
    else beyond = middle;
  }
  return reached(c + 1, m) + ((eggShare - reached(c, m)) * m) / c;
}

/**
 * A sentence where a herd is too small, or its counts too low, to say who sheds: fewer than 10 animals
 * counted or fewer than 5 eggs on average; else `null`. Own choice; the figures are still given.
 */
export function shedderCaution(eggs: readonly (number | null)[]): Fault | null {
  const counted = countedAnimals(eggs, 1);
  if (isFault(counted)) return counted;
  if (counted.eggs.length >= FEWEST_ANIMALS && mean(counted.eggs) >= FEWEST_MEAN_EGGS) return null;
  return fault(
    'too-few-eggs',
    say(
      'Too few eggs to say who sheds: it takes {animals} animals and {eggs} eggs seen on average.',
      { animals: FEWEST_ANIMALS, eggs: FEWEST_MEAN_EGGS },
    ),
  );
}

/** P(X ≥ count) for a Poisson X of mean m: the chance that `count` arrivals come within m. */
function reached(count: number, m: number): number {
  return count <= 0 ? 1 : gammaBelow(m, count);
}
