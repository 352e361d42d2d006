import { isFault } from '../../shared/value.ts';
import type { PlanAsked } from '../../shared/worker-messages.ts';
import { parseNumber, type DecimalMark } from '../text/decimal-text.ts';
import { planFault } from './try-plan.ts';
import { say } from '../text/say.ts';

/** The fields of a plan that a person can type in. */
export const PLAN_FIELDS = [
  'mean',
  'k',
  'factor',
  'works',
  'fails',
  'expected',
  'threshold',
  'animals',
  'areas',
  'precision',
  'runs',
  'seed',
] as const;
export type PlanField = (typeof PLAN_FIELDS)[number];
export type PlanTexts = Readonly<Record<PlanField, string>>;

/** The word for k where the animals differ no more than chance alone would make them. */
export const ALIKE = 'alike';
/** Bounds that keep an answer within minutes and its table readable (own choice). */
export const MOST_ANIMALS = 500;
export const MOST_RUNS = 20_000;
const MOST_AREAS = 20;
const MOST_SEED = 1e9;
const MOST_ENTRIES = 8;

/** A plan as typed: what can be worked out of it, and what is wrong with each field. */
export interface PlanRead {
  /** Null while a field that it needs is wrong. */
  readonly plan: PlanAsked | null;
  /** Areas to try, in the order of `plan.factors`. */
  readonly areas: readonly number[];
  /** Precision wanted of a mean, standard error over mean: 0.25 for 25 %. Null while wrong. */
  readonly precision: number | null;
  readonly faults: Readonly<Partial<Record<PlanField, string>>>;
}

/**
 * Reads the typed fields. `factor` is epg per egg with one area counted; with a areas it is factor / a. Lists are
 * whole numbers parted by commas or spaces; a number named twice is tried once. Every wrong field has a sentence, and one
 * wrong field hides no other's. `level` is that of the limits, 0.9 for 90 %.
 */
export function readPlan(texts: PlanTexts, mark: DecimalMark, level: number): PlanRead {
  const faults: Partial<Record<PlanField, string>> = {};
  const one = (field: PlanField, least: number, most: number, sentence: string): number => {
    const value = parseNumber(texts[field], mark);
    if (isFault(value)) faults[field] = value.sentence;
    else if (value < least || value > most) faults[field] = sentence;
    else return value;
    return NaN;
  };
  const above0 = (field: PlanField, sentence: string): number =>
    one(field, Number.MIN_VALUE, Infinity, sentence);
  const percent = (field: PlanField, sentence: string): number => one(field, -1000, 100, sentence);
  const list = (field: PlanField, least: number, most: number, sentence: string): number[] => {
    const parts = texts[field].split(/[\s,;]+/).filter((part) => part !== '');
    const numbers = [...new Set(parts.map((part) => (/^\d+$/.test(part) ? Number(part) : NaN)))];
    const isRight = numbers.every((number) => number >= least && number <= most);
    if (isRight && numbers.length > 0 && numbers.length <= MOST_ENTRIES) return numbers;
    faults[field] = sentence;
    return [];
  };
  const whole = (field: PlanField, most: number, sentence: string): number => {
    const value = one(field, 1, most, sentence);
    if (Number.isNaN(value) || Number.isInteger(value)) return value;
    faults[field] = sentence;
    return NaN;
  };
  const isAlike = texts.k.trim().toLowerCase() === ALIKE;
  const k = isAlike ? Infinity : above0('k', say('k must be more than 0.'));
  const factor = above0('factor', say('What one egg stands for must be more than 0.'));
  const areas = list(
    'areas',
    1,
    MOST_AREAS,
    say(
      'Type up to {entries} numbers of areas, each a whole number from 1 to {most}, with commas or spaces between.',
      { entries: MOST_ENTRIES, most: MOST_AREAS },
    ),
  );
  const plan: PlanAsked = {
    meanEpg: above0('mean', say('The mean epg must be more than 0.')),
    k,
    factors: areas.map((count) => factor / count),
    animals: list(
      'animals',
      2,
      MOST_ANIMALS,
      say(
        'Type up to {entries} numbers of animals, each a whole number from 2 to {most}, with commas or spaces between.',
        { entries: MOST_ENTRIES, most: MOST_ANIMALS },
      ),
    ),
    efficacies: [
      percent(
        'works',
        say(
          'The reduction of the drug that works is a number in %, at most 100; below 0 the count goes up.',
        ),
      ),
      percent(
        'fails',
        say(
          'The reduction of the drug that fails is a number in %, at most 100; below 0 the count goes up.',
        ),
      ),
    ],
    expected: percent(
      'expected',
      say('The expected reduction is a number in %, at most 100; below 0 the count goes up.'),
    ),
    threshold: percent(
      'threshold',
      say('The lower threshold is a number in %, at most 100; below 0 the count goes up.'),
    ),
    level,
    runs: whole(
      'runs',
      MOST_RUNS,
      say('The number of trials must be a whole number from 1 to {most}.', { most: MOST_RUNS }),
    ),
    seed: whole(
      'seed',
      MOST_SEED,
      say('The seed must be a whole number from 1 to {most}.', { most: MOST_SEED }),
    ),
  };
  const error = above0('precision', say('The precision wanted must be more than 0.')) / 100;
  if (plan.threshold >= plan.expected)
    faults.threshold = say('The lower threshold must be below the expected reduction.');
  const { precision: _, ...ofPlan } = faults;
  const isSound = Object.keys(ofPlan).length === 0 && planFault(plan) === null;
  return {
    plan: isSound ? plan : null,
    areas,
    precision: Number.isNaN(error) ? null : error,
    faults,
  };
}
