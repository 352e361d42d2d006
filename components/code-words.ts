import type { Verdict } from '../src/stats/reduction-verdict.ts';
import type { PlannedAnswer } from '../shared/worker-messages.ts';
import { say } from '../src/text/say.ts';
import type { BoundEpg } from './bound-epg.ts';

/** What a dewormer check may come to. The class is kept in English; here it is shown in the language spoken. */
const answers: Readonly<Record<Verdict | PlannedAnswer, string>> = {
  susceptible: say('susceptible'),
  'low resistant': say('low resistant'),
  resistant: say('resistant'),
  inconclusive: say('inconclusive'),
  'no verdict': say('no verdict'),
};

export function answerWords(answer: Verdict | PlannedAnswer | undefined): string {
  return answer === undefined ? '' : answers[answer];
}

const bounds: Readonly<Record<BoundEpg['is'], string>> = {
  'at least': say('at least'),
  'at most': say('at most'),
  'too many': say('too many'),
  'not settled': say('not settled'),
};

/** What the bound of a cup is, in the language spoken. */
export function boundWords({ is }: Pick<BoundEpg, 'is'>): string {
  return bounds[is];
}
