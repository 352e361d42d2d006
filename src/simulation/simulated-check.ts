import { fault, isFault, type Fault } from '../../shared/value.ts';
import { checkFactor, checkLevel, checkPositive } from '../stats/input-check.ts';
import type { Pair } from '../stats/paired-counts.ts';
import { limitsOfPairs } from '../stats/reduction-limits.ts';
import {
  bearsVerdict,
  reductionVerdict,
  VERDICT_RULE,
  type Verdict,
  type VerdictRule,
} from '../stats/reduction-verdict.ts';
import { randomGamma, randomPoisson } from './random-counts.ts';
import { seededRandom, type Random } from './seeded-random.ts';
import { say } from '../text/say.ts';

/** A dewormer check to try out on paper. */
export interface CheckSetup {
  /** Animals counted on both days. */
  readonly animals: number;
  /** True mean of the herd before treatment, epg. */
  readonly meanEpg: number;
  /** How unevenly the animals shed (Infinity: all alike). */
  readonly k: number;
  /** epg per egg seen, before and after. */
  readonly factorBefore: number;
  readonly factorAfter: number;
  /** True reduction in %, the same in every animal; may be negative, at most 100. */
  readonly efficacy: number;
  /** Expected reduction and lower threshold in %, as in `reductionVerdict`. */
  readonly expected: number;
  readonly threshold: number;
  /** Level of the limits, 0.9 for 90 %. */
  readonly level: number;
  readonly runs: number;
  readonly seed: number;
  /** When a verdict may stand; the usual rule unless given. */
  readonly rule?: VerdictRule;
}

/** How often each answer came; the five add up to the runs done. */
export type VerdictCounts = { [answer in Verdict | 'no verdict']: number };

/** Where a run stands: `done` of `runs`. */
export interface CheckProgress {
  readonly done: number;
  readonly runs: number;
  readonly counts: Readonly<VerdictCounts>;
}

/** Checks tried between two reports: short enough to stop at once, long enough to cost nothing. */
export const SLICE_RUNS = 500;

/**
 * Tries a dewormer check `runs` times and counts the verdicts.
 *
 * Each time: animal i truly sheds λᵢ epg, a gamma draw with mean `meanEpg` and shape k; eggs seen before are
 * Poisson(λᵢ/F₁), after Poisson(λᵢ(1 − efficacy/100)/F₂); then the limits (adjusted) and the verdict as a notebook would give
 * them, "no verdict" where it would give none. The same set-up and seed give the same answer. Faults: numbers that make
 * no check (fewer than 2 animals, mean, k, factor or runs not above 0, efficacy above 100, threshold not below expected).
 *
 * Source: elementary; gamma-Poisson herds as in the simulations of Levecke et al. 2012 (abstract read).
 */
export function simulateCheck(setup: CheckSetup): VerdictCounts | Fault {
  const wrong = checkSetup(setup);
  if (wrong) return wrong;
  let counts = noCounts();
  for (const progress of checkInSlices(setup, setup.runs)) counts = { ...progress.counts };
  return counts;
}

/**
 * `simulateCheck` in slices: yields after every `sliceRuns` checks and at the end, so that a worker can report and
 * stop between slices. What the slices add up to does not depend on their length. The set-up must be one that
 * `checkSetup` passes; throws otherwise.
 */
export function* checkInSlices(
  setup: CheckSetup,
  sliceRuns: number = SLICE_RUNS,
): Generator<CheckProgress, VerdictCounts> {
  const wrong = checkSetup(setup);
  if (wrong) throw new Error(`checkInSlices: ${wrong.sentence}`);
  const random = seededRandom(setup.seed);
  const counts = noCounts();
  for (let done = 1; done <= setup.runs; done++) {
    counts[oneCheck(setup, random)] += 1;
    if (done % sliceRuns === 0 || done === setup.runs) {
      yield { done, runs: setup.runs, counts: { ...counts } };
    }
  }
  return counts;
}

/** `null` for a set-up that can be tried, else what is wrong with it. */
export function checkSetup(setup: CheckSetup): Fault | null {
  if (!Number.isInteger(setup.animals) || setup.animals < 2) {
    return fault('bad-amount', say('The number of animals must be a whole number, 2 or more.'));
  }
  if (!Number.isInteger(setup.runs) || setup.runs < 1) {
    return fault('bad-amount', say('The number of trials must be a whole number, 1 or more.'));
  }
  if (!(Number.isFinite(setup.efficacy) && setup.efficacy <= 100)) {
    return fault('bad-amount', say('The true reduction in % must be a number, at most 100.'));
  }
  if (!Number.isFinite(setup.seed)) return fault('bad-amount', say('The seed must be a number.'));
  const verdict = reductionVerdict(0, 0, setup.expected, setup.threshold);
  return (
    checkPositive(setup.meanEpg, () => say('The mean epg before treatment must be more than 0.')) ??
    (setup.k === Infinity
      ? null
      : checkPositive(setup.k, () => say('The k of the herd must be more than 0.'))) ??
    checkFactor(setup.factorBefore) ??
    checkFactor(setup.factorAfter) ??
    checkLevel(setup.level) ??
    (isFault(verdict) ? verdict : null)
  );
}

/** The eggs of one simulated herd, both days. */
export function simulatedPairs(setup: CheckSetup, random: Random): Pair[] {
  const { meanEpg, k, factorBefore, factorAfter } = setup;
  const left = Math.max(0, 1 - setup.efficacy / 100);
  const pairs: Pair[] = [];
  for (let i = 0; i < setup.animals; i++) {
    const sheds = k === Infinity ? meanEpg : (randomGamma(random, k) * meanEpg) / k;
    pairs.push({
      before: randomPoisson(random, sheds / factorBefore),
      after: randomPoisson(random, (sheds * left) / factorAfter),
      factorBefore,
      factorAfter,
    });
  }
  return pairs;
}

function oneCheck(setup: CheckSetup, random: Random): Verdict | 'no verdict' {
  const pairs = simulatedPairs(setup, random);
  if (!bearsVerdict(pairs, setup.rule ?? VERDICT_RULE)) return 'no verdict';
  const limits = limitsOfPairs(pairs, setup.level);
  if (isFault(limits)) return 'no verdict';
  const verdict = reductionVerdict(limits.low, limits.high, setup.expected, setup.threshold);
  return isFault(verdict) ? 'no verdict' : verdict;
}

function noCounts(): VerdictCounts {
  return {
    susceptible: 0,
    'low resistant': 0,
    resistant: 0,
    inconclusive: 0,
    'no verdict': 0,
  };
}
