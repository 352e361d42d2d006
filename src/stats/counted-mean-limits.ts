import { isFault, type Fault } from '../../shared/value.ts';
import { countedAnimals, type Factors } from './counted-animals.ts';
import { gammaQuantile } from './gamma-law.ts';
import { checkLevel } from './input-check.ts';
import type { Limits } from './limits.ts';

/**
 * Limits of the mean epg of *these* animals, counting luck only: the right question when all animals of
 * interest were counted. For a herd of which some were drawn, use `herdMeanLimits`, which is wider.
 *
 * With weights wᵢ = Fᵢ/n: m = Σwᵢxᵢ, v = Σwᵢ²xᵢ, w = the largest wᵢ, a = (1 − level)/2;
 * low = v/(2m)·χ²(a, 2m²/v), high = (v + w²)/(2(m + w))·χ²(1 − a, 2(m + w)²/(v + w²)). With one factor for
 * all these are the exact Poisson limits of the total. Units: eggs raw, factor and answer in epg.
 * Missing animals are left out. Faults: nobody counted, eggs not whole, factor not above 0, bad level.
 *
 * Source: Fay & Feuer 1997, Stat Med 16:791–801; formula second-hand, values checked against R.
 */
export function countedMeanLimits(
  eggs: readonly (number | null)[],
  factors: Factors,
  level = 0.95,
): Limits | Fault {
  const counted = checkLevel(level) ?? countedAnimals(eggs, factors);
  if (isFault(counted)) return counted;
  const tail = (1 - level) / 2;
  const animals = counted.eggs.length;
  let m = 0;
  let v = 0;
  let w = 0;
  for (const [i, factor] of counted.factors.entries()) {
    const weight = factor / animals;
    const seen = counted.eggs[i] ?? 0;
    m += weight * seen;
    v += weight * weight * seen;
    w = Math.max(w, weight);
  }
  const highVariance = v + w * w;
  const highMean = m + w;
  return {
    low: v === 0 ? 0 : (v / m) * gammaQuantile(tail, (m * m) / v),
    high: (highVariance / highMean) * gammaQuantile(1 - tail, (highMean * highMean) / highVariance),
  };
}
