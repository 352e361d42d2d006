import { fault, type Fault } from '../../shared/value.ts';
import { TOLERANCE } from './at-least.ts';
import { checkPositive } from './input-check.ts';
import { say } from '../text/say.ts';

/**
 * How precise a herd mean from `animals` animals will be: standard error over mean, 0.32 for 32 %.
 *
 * √((1/m + 1/k)/n). `meanEggs` is the mean number of eggs *seen* (epg over factor), k the aggregation
 * (Infinity for no spread beyond chance). Faults: mean, k or number not above 0, number not whole.
 *
 * Source: variance of a negative binomial mean, elementary. k 0.5 and 10 eggs: 10 animals 46 %, 20 animals
 * 32 %, 40 animals 23 %.
 */
export function meanPrecision(meanEggs: number, k: number, animals: number): number | Fault {
  const wrong =
    checkModel(meanEggs, k) ??
    checkPositive(animals, () => say('The number of animals must be more than 0.'));
  if (wrong) return wrong;
  if (!Number.isInteger(animals)) {
    return fault('bad-amount', say('The number of animals must be a whole number.'));
  }
  return Math.sqrt((1 / meanEggs + 1 / k) / animals);
}

/**
 * Animals to sample so that standard error over mean is at most `relativeError` (0.25 for 25 %):
 * (1/m + 1/k)/error², rounded up. Rules and source as `meanPrecision`.
 */
export function animalsNeeded(meanEggs: number, k: number, relativeError: number): number | Fault {
  const wrong =
    checkModel(meanEggs, k) ??
    checkPositive(relativeError, () => say('The precision wanted must be more than 0.'));
  if (wrong) return wrong;
  const animals = (1 / meanEggs + 1 / k) / (relativeError * relativeError);
  return Math.max(1, Math.ceil(animals * (1 - TOLERANCE)));
}

function checkModel(meanEggs: number, k: number): Fault | null {
  return (
    checkPositive(meanEggs, () => say('The mean number of eggs seen must be more than 0.')) ??
    (k === Infinity ? null : checkPositive(k, () => say('The k of the herd must be more than 0.')))
  );
}
