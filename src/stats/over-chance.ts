import { fault, type Fault } from '../../shared/value.ts';
import { gammaAbove } from './gamma-law.ts';
import { checkEggs, checkFactor } from './input-check.ts';
import { say } from '../text/say.ts';

/** What the rest of the herd says of an animal before its own count: k and mean epg (10 or more counted). */
export interface HerdPrior {
  readonly k: number;
  readonly meanEpg: number;
}

/**
 * Chance (0 to 1) that this cup, counted completely, is at the limit or more.
 *
 * The eggs expected under the grids, λ, given `eggs` seen: Gamma(x + 1, rate 1) with a flat prior, or
 * Gamma(k + x, rate k·F/m + 1) with the herd's k and mean m; the answer is the chance that λ reaches
 * limit/F. Units: raw eggs, factor epg per egg, limit and mean in epg. Missing: an uncounted cup has no
 * chance; do not ask. Faults: eggs not whole, factor not above 0, limit negative, k or mean not above 0.
 * Say which prior was used, and that dung varies from day to day beyond this.
 *
 * Source: gamma-Poisson conjugacy, elementary (memory); values checked against R: 15 eggs, limit at 20:
 * 15.7 % flat, 6.1 % with k 0.5 and a mean of 5 eggs.
 */
export function overChance(
  eggs: number,
  factor: number,
  limit: number,
  prior?: HerdPrior,
): number | Fault {
  const wrong = checkEggs(eggs) ?? checkFactor(factor);
  if (wrong) return wrong;
  if (!(Number.isFinite(limit) && limit >= 0)) {
    return fault('bad-limit', say('The limit in epg must be a number, 0 or more.'));
  }
  if (!prior) return gammaAbove(limit / factor, eggs + 1);
  if (!(Number.isFinite(prior.k) && prior.k > 0)) {
    return fault(
      'bad-prior',
      say('The k of the herd must be more than 0: leave it out if there is none.'),
    );
  }
  if (!(Number.isFinite(prior.meanEpg) && prior.meanEpg > 0)) {
    return fault(
      'bad-prior',
      say('The mean epg of the herd must be more than 0: leave k and mean out.'),
    );
  }
  const rate = (prior.k * factor) / prior.meanEpg + 1;
  return gammaAbove((limit / factor) * rate, prior.k + eggs);
}
