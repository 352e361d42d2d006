import type { Notebook } from '../../shared/notebook.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { dayOf, markOf } from '../notebook/read.ts';
import type { Limits } from '../stats/limits.ts';
import { limitsOfPairs, type ReductionLimits } from '../stats/reduction-limits.ts';
import { noEggsBefore, noPairs, type Pair } from '../stats/paired-counts.ts';
import {
  reductionVerdict,
  VERDICT_RULE,
  verdictObstacle,
  type Verdict,
  type VerdictRule,
} from '../stats/reduction-verdict.ts';
import { daysBetween } from '../text/date.ts';
import {
  checkDaysFault,
  checkPairs,
  type CheckDays,
  type CheckPairs,
  type CountRow,
} from './check-pairs.ts';
import { checkTiming, type CheckTiming } from './check-timing.ts';
import { limitWords, verdictCautions, verdictWords, vetSentence } from './check-words.ts';
import { eggSufficiency, type EggSufficiency } from './egg-sufficiency.ts';
import { limitByKey } from './limit-by-key.ts';
import { productName, productOf } from './product.ts';
import { daysWords } from './short-number.ts';
import { dateWords } from '../text/date-words.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** Where the notebook has no limits of its own; from memory of the 2023 guideline, check with your vet. */
export const EXPECTED_PERCENT = 99;
export const THRESHOLD_PERCENT = 90;
/** Limits of a dewormer check hold 90 %: two one-sided tests at 5 %. */
export const CHECK_LEVEL = 0.9;

/** Counts of one further egg type on both days; its eggs are never added to the strongyle type's. */
export interface OtherEggs {
  readonly label: string;
  readonly before: readonly CountRow[];
  readonly after: readonly CountRow[];
}

/** What a check is made from. */
export interface CheckAsked extends CheckDays {
  readonly rowsBefore: readonly CountRow[];
  readonly rowsAfter: readonly CountRow[];
  readonly others?: readonly OtherEggs[];
  /** Unsaid: the notebook's limits `expected_efficacy` and `efficacy_threshold` on the second day, else 99 and 90. */
  readonly expected?: number;
  readonly threshold?: number;
  /** When a verdict word may stand at all. */
  readonly rule?: VerdictRule;
}

/** The figures of one egg type. Limits or published forms may be a fault, with the sentence why. */
export interface CheckFigures {
  readonly eggsBefore: number;
  readonly eggsAfter: number;
  /** Arithmetic means of the pairs, in epg. */
  readonly meanBefore: number;
  readonly meanAfter: number;
  /** In %; negative when the count went up, never clipped. */
  readonly reduction: number;
  readonly limits: ReductionLimits | Fault;
  /** The two published forms for the report, never beside the limits on screen; null where no egg was found after. */
  readonly published: { readonly gamma: Limits | Fault; readonly logT: Limits | Fault } | null;
}

export interface CheckVerdict {
  readonly verdict: Verdict | null;
  /** The class said plainly, or why there is none. */
  readonly sentence: string;
  readonly questions: readonly string[];
  readonly caution: string;
}

/** A dewormer check, whole. `figures` is a fault where there is nothing to work out; the rest stands. */
export interface ReductionCheck extends CheckPairs {
  readonly product: string;
  readonly productName: string;
  readonly beforeDate: string;
  readonly afterDate: string;
  readonly daysBetween: number;
  readonly expected: number;
  readonly threshold: number;
  readonly figures: CheckFigures | Fault;
  readonly verdict: CheckVerdict;
  readonly timing: CheckTiming;
  readonly sufficiency: EggSufficiency;
  readonly others: readonly {
    readonly label: string;
    readonly pairs: number;
    readonly figures: CheckFigures | Fault;
  }[];
  /** The whole check in plain sentences. */
  readonly vetSentence: string;
}

/**
 * Whether a dewormer works, from two sampling days and the log: reduction of the arithmetic means over the pairs,
 * its 90 % limits, and a verdict under its conditions. Faults: unknown day or product, the second day not after the
 * first. Everything else that is wrong stands in the answer as a sentence, and nobody is left out unnamed.
 */
export function reductionCheck(notebook: Notebook, asked: CheckAsked): ReductionCheck | Fault {
  const wrong = checkDaysFault(notebook, asked);
  if (wrong) return wrong;
  const found = checkPairs(notebook, asked, asked.rowsBefore, asked.rowsAfter);
  const expected =
    asked.expected ?? limitByKey(notebook, asked.after, 'expected_efficacy') ?? EXPECTED_PERCENT;
  const threshold =
    asked.threshold ?? limitByKey(notebook, asked.after, 'efficacy_threshold') ?? THRESHOLD_PERCENT;
  const figures = checkFigures(found.pairs);
  const mark = markOf(notebook);
  const beforeDate = dayOf(notebook, asked.before)?.date ?? '';
  const afterDate = dayOf(notebook, asked.after)?.date ?? '';
  const apart = daysBetween(beforeDate, afterDate);
  const check = {
    ...found,
    product: asked.product,
    productName: productName(notebook, asked.product),
    beforeDate,
    afterDate,
    daysBetween: isFault(apart) ? NaN : apart,
    expected,
    threshold,
    figures,
    verdict: checkVerdict(found.pairs, figures, expected, threshold, asked.rule ?? VERDICT_RULE),
    timing: checkTiming(productOf(notebook, asked.product), found.pairs),
    sufficiency: eggSufficiency(found.pairs, threshold, CHECK_LEVEL, mark),
    others: (asked.others ?? []).map(({ label, before, after }) => {
      const { pairs } = checkPairs(notebook, asked, before, after);
      return { label, pairs: pairs.length, figures: checkFigures(pairs) };
    }),
  };
  return { ...check, vetSentence: sentenceOf(check, mark) };
}

/** Eggs, means, reduction and limits of the pairs; a fault without a pair or without an egg before. */
export function checkFigures(pairs: readonly Pair[]): CheckFigures | Fault {
  if (pairs.length === 0) return noPairs();
  const sum = (of: (pair: Pair) => number): number =>
    pairs.reduce((total, pair) => total + of(pair), 0);
  const epgBefore = sum((pair) => pair.before * pair.factorBefore);
  const epgAfter = sum((pair) => pair.after * pair.factorAfter);
  if (epgBefore === 0) return noEggsBefore();
  return {
    eggsBefore: sum((pair) => pair.before),
    eggsAfter: sum((pair) => pair.after),
    meanBefore: epgBefore / pairs.length,
    meanAfter: epgAfter / pairs.length,
    reduction: 100 * (1 - epgAfter / epgBefore),
    limits: limitsOfPairs(pairs, CHECK_LEVEL),
    published:
      epgAfter === 0
        ? null
        : {
            gamma: limitsOfPairs(pairs, CHECK_LEVEL, 'gamma'),
            logT: limitsOfPairs(pairs, CHECK_LEVEL, 'log-t'),
          },
  };
}

/** The class of the pairs under its conditions; the reason instead where it may not stand. */
export function checkVerdict(
  pairs: readonly Pair[],
  figures: CheckFigures | Fault,
  expected: number,
  threshold: number,
  rule: VerdictRule = VERDICT_RULE,
): CheckVerdict {
  const none = (why: Fault): CheckVerdict => ({
    ...{ verdict: null, sentence: why.sentence, questions: [], caution: '' },
  });
  if (isFault(figures)) return none(figures);
  const obstacle = verdictObstacle(pairs, rule);
  if (obstacle) return none(obstacle);
  const { limits } = figures;
  if (isFault(limits)) return none(limits);
  const verdict = reductionVerdict(limits.low, limits.high, expected, threshold);
  if (isFault(verdict)) return none(verdict);
  return { verdict, sentence: verdictWords(verdict), ...verdictCautions(verdict) };
}

function sentenceOf(check: Omit<ReductionCheck, 'vetSentence'>, mark: DecimalMark): string {
  const { figures, timing } = check;
  if (isFault(figures))
    return say('{product}, {before} and {after}: {sentence}', {
      product: check.productName,
      before: dateWords(check.beforeDate),
      after: dateWords(check.afterDate),
      sentence: figures.sentence,
    });
  const days = daysWords(timing.least ?? 0, timing.most ?? 0);
  return vetSentence({
    ...check,
    ...figures,
    pairs: check.pairs.length,
    leftOut: check.leftOut.length,
    days,
    limits: isFault(figures.limits)
      ? figures.limits.sentence
      : say('90 % limits {limits}.', {
          limits: limitWords(figures.limits.low, figures.limits.high, mark),
        }),
    verdict: check.verdict.sentence,
    mark,
  });
}

/** The same two days for several products side by side; each answer by itself a check or a fault. */
export function reductionChecks(
  notebook: Notebook,
  asked: Omit<CheckAsked, 'product'>,
  products: readonly string[],
): readonly (ReductionCheck | Fault)[] {
  return products.map((product) => reductionCheck(notebook, { ...asked, product }));
}
