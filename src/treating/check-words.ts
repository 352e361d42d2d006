import type { Verdict } from '../stats/reduction-verdict.ts';
import { RESISTANT_CAUTION, RESISTANT_QUESTIONS, SUSCEPTIBLE_CAUTION } from './cautions.ts';
import type { LeftOut } from './check-pairs.ts';
import { shortNumber } from './short-number.ts';
import { wordList } from './word-list.ts';
import { dateWords } from '../text/date-words.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** A reduction in words; one below 0 went up and is never shown as less than nothing. */
export function reductionWords(reduction: number, mark: DecimalMark = '.'): string {
  const size = shortNumber(Math.abs(reduction), 1, mark);
  if (size === '0') return say('did not change');
  return reduction < 0
    ? say('went up by {size} %', { size })
    : say('went down by {size} %', { size });
}

/** Limits in words: "68.2 to 91.0 %", and what a limit below 0 means. */
export function limitWords(low: number, high: number, mark: DecimalMark = '.'): string {
  const words = say('{low} to {high} %', {
    low: shortNumber(low, 1, mark),
    high: shortNumber(high, 1, mark),
  });
  return low < 0 ? say('{limits} (below 0 the count went up)', { limits: words }) : words;
}

/** A class said plainly, with its own word after it. */
export function verdictWords(verdict: Verdict): string {
  switch (verdict) {
    case 'susceptible':
      return say('It works as it should (class: susceptible).');
    case 'low resistant':
      return say('It works less well than it should (class: low resistant).');
    case 'resistant':
      return say('It no longer works as it should (class: resistant).');
    case 'inconclusive':
      return say('These counts cannot tell whether it works (class: inconclusive).');
  }
}

/** What to ask before believing a class, and what it does not say. */
export function verdictCautions(verdict: Verdict | null): {
  readonly questions: readonly string[];
  readonly caution: string;
} {
  if (verdict === 'resistant' || verdict === 'low resistant')
    return { questions: RESISTANT_QUESTIONS, caution: RESISTANT_CAUTION };
  if (verdict === 'susceptible') return { questions: [], caution: SUSCEPTIBLE_CAUTION };
  return { questions: [], caution: '' };
}

/** Everyone left out, grouped by reason: "not treated between the two counts: A, B; …"; empty for none. */
export function leftOutWords(leftOut: readonly LeftOut[]): string {
  const byReason = new Map<string, string[]>();
  for (const { tag, reason } of leftOut)
    byReason.set(reason, [...(byReason.get(reason) ?? []), tag]);
  return [...byReason]
    .map(([reason, tags]) => say('{reason}: {tags}', { reason, tags: wordList(tags) }))
    .join('; ');
}

/** What the plain sentence for the vet is made of. */
export interface VetFacts {
  readonly productName: string;
  readonly beforeDate: string;
  readonly afterDate: string;
  readonly pairs: number;
  readonly leftOut: number;
  readonly days: string;
  readonly eggsBefore: number;
  readonly eggsAfter: number;
  readonly meanBefore: number;
  readonly meanAfter: number;
  readonly reduction: number;
  /** The limits in words, or the sentence that says why there are none. */
  readonly limits: string;
  readonly expected: number;
  readonly threshold: number;
  /** The class in words, or why there is none. */
  readonly verdict: string;
  /** How decimals are written. */
  readonly mark: DecimalMark;
}

/** The whole check in plain sentences, to be read out or sent to the vet. */
export function vetSentence(facts: VetFacts): string {
  const { eggsBefore, eggsAfter, meanBefore, meanAfter, mark } = facts;
  return [
    say(
      '{n, plural, one {# animal} other {# animals}} treated once with {product} and counted on {before} and {after}, {days} after treatment; {leftOut} left out.',
      {
        n: facts.pairs,
        product: facts.productName,
        before: dateWords(facts.beforeDate),
        after: dateWords(facts.afterDate),
        days: facts.days,
        leftOut: facts.leftOut,
      },
    ),
    say(
      '{n, plural, one {# egg} other {# eggs}} counted before and {eggsAfter} after (mean {before} and {after} epg).',
      {
        n: eggsBefore,
        eggsAfter,
        before: shortNumber(meanBefore, 0),
        after: shortNumber(meanAfter, 0),
      },
    ),
    say('The count {change}; {limits}', {
      change: reductionWords(facts.reduction, mark),
      limits: facts.limits,
    }),
    say(
      'Held against an expected reduction of {expected} % and a threshold of {threshold} %: {verdict}',
      {
        expected: shortNumber(facts.expected, 2, mark),
        threshold: shortNumber(facts.threshold, 2, mark),
        verdict: facts.verdict,
      },
    ),
  ].join(' ');
}
