import { bracketedRoot } from './bracketed-root.ts';
import type { CountGroups } from './count-groups.ts';
import { sumOfLogs, sumOfReciprocals } from './rising-sum.ts';

/**
 * The spread of egg counts between animals: eggs of animal i are negative binomial with mean μ/Fᵢ and a
 * common k; variance = mean + mean²/k. Small k means that few animals shed most; k = Infinity is the
 * Poisson law, no more spread than chance. μ is in epg, F in epg per egg, k has no unit.
 *
 * Source: Anscombe 1950, Biometrika 37:358–382 (memory); k below 1 as a rule in ewes, Sreter et al. 1994,
 * Int J Parasitol 24:103–108 (abstract read).
 */
export interface NegativeBinomialFit {
  /** Mean of the model, epg. */
  readonly mean: number;
  /** Maximum likelihood k; Infinity where the counts are no more spread than chance. */
  readonly k: number;
  /** Log-likelihood there, up to a constant of the data. */
  readonly logLikelihood: number;
}

/** The search for k runs between these in ln k; at the upper end (k of a million) the law is Poisson. */
const LOG_K_FLOOR = -22;
const LOG_K_CAP = Math.log(1e6);
const LOG_K_STEPS = 18;

/** Log-likelihood of the herd at mean `mean` (epg, above 0) and `k` (Infinity allowed), constants left out. */
export function logLikelihood(herd: CountGroups, mean: number, k: number): number {
  let total = 0;
  if (k !== Infinity) {
    for (const run of herd.runs) total += run.above * sumOfLogs(k, run.from, run.to);
  }
  for (const group of herd.groups) {
    const eggs = mean / group.factor;
    if (group.eggs > 0) total += group.eggs * Math.log(eggs);
    total -=
      k === Infinity
        ? group.animals * eggs
        : (group.eggs + group.animals * k) * Math.log1p(eggs / k);
  }
  return total;
}

/** Slope of the log-likelihood in ln k, at a fixed mean. */
function slopeInLogK(herd: CountGroups, mean: number, k: number): number {
  let total = 0;
  for (const run of herd.runs) total += run.above * sumOfReciprocals(k, run.from, run.to);
  for (const group of herd.groups) {
    const eggs = mean / group.factor;
    total += (group.animals * eggs - group.eggs) / (k + eggs);
    total -= group.animals * Math.log1p(eggs / k);
  }
  return k * total;
}

/**
 * The k that suits a herd best at means given by `meanAt(k)`, and the log-likelihood there. The slope is
 * looked at along the whole range of ln k; each place where it turns from rising to falling is closed in on between
 * brackets, and the best of them wins, so a second hump cannot hide the first.
 */
function bestAlongK(herd: CountGroups, meanAt: (k: number) => number): NegativeBinomialFit {
  const slope = (logK: number): number => {
    const k = Math.exp(logK);
    return slopeInLogK(herd, meanAt(k), k);
  };
  const at = (k: number): NegativeBinomialFit => {
    const mean = meanAt(k);
    return { mean, k, logLikelihood: logLikelihood(herd, mean, k) };
  };
  const width = (LOG_K_CAP - LOG_K_FLOOR) / LOG_K_STEPS;
  const humps: NegativeBinomialFit[] = [];
  let left = LOG_K_FLOOR;
  let atLeft = slope(left);
  if (atLeft <= 0) humps.push(at(Math.exp(left)));
  for (let step = 1; step <= LOG_K_STEPS; step++) {
    const right = LOG_K_FLOOR + step * width;
    const atRight = slope(right);
    if (atLeft > 0 && atRight <= 0) {
      humps.push(at(Math.exp(bracketedRoot(slope, left, right, 1e-7, atLeft, atRight))));
    }
    left = right;
    atLeft = atRight;
  }
  if (atLeft > 0) humps.push(at(Infinity));
  return humps.reduce((best, fit) => (fit.logLikelihood > best.logLikelihood ? fit : best));
}

/** The best mean (epg) for a given k: a fall of the slope in ln μ through zero, so always one, between brackets. */
function bestMean(herd: CountGroups, k: number): number {
  const means = herd.groups.map((group) => (group.eggs / group.animals) * group.factor);
  const low = Math.min(...means);
  const high = Math.max(...means);
  if (low === high) return low;
  const slope = (mean: number): number => {
    let total = 0;
    for (const group of herd.groups) {
      const eggs = mean / group.factor;
      const gap = group.eggs - group.animals * eggs;
      total += k === Infinity ? gap : (gap * k) / (k + eggs);
    }
    return total;
  };
  if (k === Infinity) {
    return herd.eggs / herd.groups.reduce((sum, g) => sum + g.animals / g.factor, 0);
  }
  return bracketedRoot(slope, low, high, high * 1e-14);
}

/** Maximum likelihood fit of mean and k together. The herd must have at least one egg. */
export function fitNegativeBinomial(herd: CountGroups): NegativeBinomialFit {
  return bestAlongK(herd, (k) => bestMean(herd, k));
}

/** The best log-likelihood that a given mean (epg, above 0) can reach, over all k. */
export function profileLogLikelihood(herd: CountGroups, mean: number): number {
  return bestAlongK(herd, () => mean).logLikelihood;
}
