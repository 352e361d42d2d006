import type { Protocol } from '../shared/notebook.ts';
import { isFault, type Fault } from '../shared/value.ts';
import { fluidAdded } from '../src/notebook/factor-sum.ts';
import type { HerdForPlan } from '../src/simulation/herd-for-plan.ts';
import { FEWEST_FOR_K } from '../src/simulation/herd-for-plan.ts';
import { ALIKE, PLAN_FIELDS, type PlanField, type PlanTexts } from '../src/simulation/read-plan.ts';
import { eggFactor } from '../src/stats/egg-factor.ts';
import { writeNumber, type DecimalMark } from '../src/text/decimal-text.ts';
import { say } from '../src/text/say.ts';

/** A field of the plan for a person: its label, its unit, what it means. */
export interface PlanFieldWords {
  readonly label: string;
  readonly unit: string;
  readonly hint: string;
}

export const FIELD_WORDS: Readonly<Record<PlanField, PlanFieldWords>> = {
  mean: { label: say('Mean before treatment'), unit: 'epg', hint: '' },
  k: {
    label: say('k, how unevenly they shed'),
    unit: '',
    hint: say(
      'small (below 1) where few animals shed most of the eggs; {alike} where all shed alike',
      { alike: ALIKE },
    ),
  },
  factor: { label: say('One egg, one area counted, stands for'), unit: 'epg', hint: '' },
  works: { label: say('A drug that works takes'), unit: '%', hint: say('true reduction') },
  fails: { label: say('A drug that fails takes'), unit: '%', hint: say('true reduction') },
  expected: { label: say('Expected reduction'), unit: '%', hint: '' },
  threshold: { label: say('Lower threshold'), unit: '%', hint: '' },
  animals: { label: say('Numbers of animals to try'), unit: '', hint: say('counted on both days') },
  areas: {
    label: say('Areas counted for each'),
    unit: '',
    hint: say('more areas, fewer epg to one egg'),
  },
  precision: { label: say('Precision wanted'), unit: '%', hint: say('standard error of the mean') },
  runs: {
    label: say('Trials for each line'),
    unit: '',
    hint: say('2,000 are right to about 1 in 100'),
  },
  seed: { label: say('Seed'), unit: '', hint: say('the same seed gives the same answer') },
};

/** What a plan starts from where nothing was typed: the herd's own figures, and where each comes from. */
export interface PlanStart {
  readonly texts: PlanTexts;
  /** Where a figure comes from, for the fields that have a source. */
  readonly from: Readonly<Partial<Record<PlanField, string>>>;
}

/** Used until there are counts; sheep of open data had a k of about 0.5 (common practice, no source for the mean). */
const EXAMPLE = { mean: '500', k: 0.5, factor: 100 };

/**
 * The starting texts: mean, k and factor of the open day's counts, else the day's protocol for the factor and examples
 * for the rest. Rounded as a person would say them; what stands in the field is what the plan is tried with.
 */
export function planStart(
  herd: HerdForPlan | Fault | null,
  protocol: Partial<Protocol>,
  limits: { readonly expected: number; readonly threshold: number },
  mark: DecimalMark,
): PlanStart {
  const number = (value: number, digits: number): string =>
    writeNumber(Number(value.toPrecision(digits)), mark);
  const areas = protocol.areas ?? 1;
  const ofProtocol = protocolFactor(protocol);
  const usual = {
    works: '99',
    fails: '80',
    expected: writeNumber(limits.expected, mark),
    threshold: writeNumber(limits.threshold, mark),
    animals: '10, 15, 20, 30',
    areas: '1, 2, 4',
    precision: '25',
    runs: '2000',
    seed: '1',
  };
  const limitsFrom = say("the notebook's own limit");
  const settled = { expected: limitsFrom, threshold: limitsFrom };
  if (herd && !isFault(herd)) {
    const { counted } = herd;
    const from = say('from the {counted} counted on this day', { counted });
    const kFrom =
      counted < FEWEST_FOR_K
        ? say('from the {counted} counted on this day; too few for a good k', { counted })
        : from;
    const texts = {
      ...usual,
      mean: number(Math.max(herd.meanEpg, 1), herd.meanEpg < 1000 ? 3 : 4),
      k: herd.k === Infinity ? ALIKE : number(herd.k, 2),
      factor: number(herd.factor * areas, 4),
    };
    return { texts, from: { ...settled, mean: from, k: kFrom, factor: from } };
  }
  const example = say('an example: type your own');
  const texts = {
    ...usual,
    mean: EXAMPLE.mean,
    k: writeNumber(EXAMPLE.k, mark),
    factor: number(ofProtocol ?? EXAMPLE.factor, 4),
  };
  const factor = ofProtocol === null ? example : say("from the day's grams, fluid and area");
  return { texts, from: { ...settled, mean: example, k: example, factor } };
}

/** Factor with one area counted, from how a sample is made up; null while that is not known. */
function protocolFactor({ grams, fluidMl, fluidIs, areaMl }: Partial<Protocol>): number | null {
  if (grams === undefined || fluidMl === undefined || areaMl === undefined) return null;
  const added = fluidAdded({ grams, fluidMl, fluidIs: fluidIs ?? 'added' });
  const factor = isFault(added) ? added : eggFactor(grams, added, areaMl, 1);
  return isFault(factor) ? null : factor;
}

/** The start with what a person typed in its place. */
export function typedOver(
  start: PlanTexts,
  typed: Readonly<Partial<Record<string, string>>>,
): PlanTexts {
  const all = PLAN_FIELDS.map((field) => [field, typed[field] ?? start[field]] as const);
  return Object.fromEntries(all) as Record<PlanField, string>;
}
