import type { PlanAsked, PlannedAnswer, PlannedRow } from '../shared/worker-messages.ts';
import { rightVerdict } from '../src/simulation/right-verdict.ts';
import { answerWords } from './code-words.ts';
import { say } from '../src/text/say.ts';

/** A check is good enough for a plan when it says the right thing this often (common practice, no source). */
export const GOOD_SHARE = 0.8;

/** The answers in the order of a table, each with plain words. */
export const ANSWERS: readonly { readonly answer: PlannedAnswer; readonly words: string }[] = [
  { answer: 'susceptible', words: say('works as it should') },
  { answer: 'low resistant', words: say('works less well than it should') },
  { answer: 'resistant', words: say('no longer works as it should') },
  { answer: 'inconclusive', words: say('cannot tell') },
  { answer: 'no verdict', words: say('too few shed, or one carries most') },
];

/** One line of a plan for reading: how many areas it stands for, and how often it said the right thing. */
export interface PlanLine extends PlannedRow {
  readonly areas: number;
  /** 0–1. */
  readonly right: number;
}

/** The lines of one drug, with the class a check should give it. */
export interface PlanOfDrug {
  readonly efficacy: number;
  readonly is: 'works' | 'fails';
  readonly rightAnswer: PlannedAnswer;
  readonly lines: readonly PlanLine[];
}

/** The rows of a plan by drug: first the one that works, then the one that fails. */
export function plansByDrug(
  plan: PlanAsked,
  areas: readonly number[],
  rows: readonly PlannedRow[],
): readonly PlanOfDrug[] {
  const perDrug = plan.animals.length * plan.factors.length;
  return plan.efficacies.map((efficacy, drug) => {
    const rightAnswer = rightVerdict(efficacy, plan.expected, plan.threshold);
    const lines = rows.slice(drug * perDrug, (drug + 1) * perDrug).map((row, at) => ({
      ...row,
      areas: areas[at % plan.factors.length] ?? NaN,
      right: row.counts[rightAnswer] / row.runs,
    }));
    return { efficacy, is: drug === 0 ? 'works' : 'fails', rightAnswer, lines };
  });
}

/** A share as people say it: "78 %", "under 1 %", "over 99 %"; 0 and 100 only where it was every time. */
export function shareWords(share: number): string {
  const percent = 100 * share;
  if (share > 0 && percent < 1) return say('under 1 %');
  if (share < 1 && percent > 99) return say('over 99 %');
  return `${Math.round(percent)} %`;
}

/** The line with the fewest cups and areas to count that says the right thing of both drugs often enough. */
export function leastWork(drugs: readonly PlanOfDrug[]): readonly PlanLine[] | null {
  const [first, ...others] = drugs;
  const good = (first?.lines ?? []).flatMap((line, at) => {
    const same = [line, ...others.map((drug) => drug.lines[at])];
    const all = same.filter((one) => one !== undefined);
    return all.length === same.length && all.every(({ right }) => right >= GOOD_SHARE) ? [all] : [];
  });
  const work = ([line]: readonly PlanLine[]): number => (line ? line.animals * line.areas : NaN);
  const [least] = good.sort((a, b) => work(a) - work(b));
  return least ?? null;
}

/** What the plan comes to, in a sentence or two. */
export function planSentence(drugs: readonly PlanOfDrug[]): string {
  const least = leastWork(drugs);
  const times = shareWords(GOOD_SHARE);
  if (!least) {
    return say(
      'None of these says the right thing of both drugs in {times} of the checks or more. Try more animals or more areas, or wait until the animals shed more.',
      { times },
    );
  }
  const [works, fails] = least;
  if (!works || !fails) return '';
  const [good, bad] = drugs;
  return say(
    'The least counting that says the right thing of both drugs in {times} of the checks or more: {animals} animals with {areas, plural, one {# area} other {# areas}} each. The drug that works is then called {good} in {goodShare} of the checks, the one that fails {bad} in {badShare}.',
    {
      times,
      animals: works.animals,
      areas: works.areas,
      good: answerWords(good?.rightAnswer),
      goodShare: shareWords(works.right),
      bad: answerWords(bad?.rightAnswer),
      badShare: shareWords(fails.right),
    },
  );
}

/** `1 area`, `2 areas`. */
export function areaWords(areas: number): string {
  return say('{n, plural, one {# area} other {# areas}}', { n: areas });
}
