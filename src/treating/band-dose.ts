import type { Animal, Product } from '../../shared/notebook.ts';
import { atLeast } from '../stats/at-least.ts';
import { doseFor, exactVetsDose, vetsDose, type DoseAsked, type DoseSource } from './dose.ts';
import { labelDose } from './label-dose.ts';
import { shortNumber } from './short-number.ts';
import type { DoseWeight } from './weighing.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** An animal of a band, with the weight it is dosed by. */
export interface BandMember {
  readonly animal: Animal;
  readonly weight: DoseWeight | null;
}

/** What the lightest of a band gets by the dose of the heaviest. */
export interface LightestShare {
  readonly tag: string;
  readonly kg: number;
  /** mL by its own weight, not rounded. */
  readonly ownMl: number;
  /** The band's dose over its own. */
  readonly times: number;
}

/** One dose for a whole band, worked out for its heaviest; `ml` is null exactly when `stops` has something. */
export interface BandDose {
  readonly ml: number | null;
  readonly source: DoseSource | null;
  readonly sum: string;
  readonly heaviest: { readonly tag: string; readonly kg: number } | null;
  readonly lightest: LightestShare | null;
  readonly stops: readonly string[];
  readonly questions: readonly string[];
  readonly lifted: readonly string[];
}

/** The lightest of a band may get less than this many times its own dose. */
export const MOST_TIMES = 2;

/**
 * The dose of a band that is dosed by its heaviest animal, and what the lightest gets by it. It stops where
 * that is twice its own dose or more ("split the band"), where anyone has no weight or is not covered by the
 * label, and where part of the band would go by the label and part by a vet's dose.
 *
 * Source: dose to the heaviest, and split when the lightest would get more than double: advisory pages of Irish and
 * Welsh farm bodies (read). Here exactly double stops as well, since every limit is inclusive.
 */
export function bandDose(
  product: Product,
  members: readonly BandMember[],
  asked: DoseAsked,
): BandDose {
  if (members.length === 0) return without([say('There is no animal in this band. Choose some.')]);
  const answers = members.map(({ animal, weight }) => doseFor(product, animal, weight, asked));
  const stops = [...new Set(answers.flatMap((answer) => answer.stops))];
  const sources = new Set(answers.map((answer) => answer.source).filter((one) => one !== null));
  if (sources.size > 1)
    stops.push(
      say(
        "Part of this band goes by the label and part by the vet's dose: dose them as two bands.",
      ),
    );
  if (stops.length > 0) return without(stops);
  const byKg = members
    .flatMap(({ animal, weight }, i) => (weight ? [{ animal, weight, answer: answers[i] }] : []))
    .sort((a, b) => b.weight.kg - a.weight.kg);
  const top = byKg[0];
  const low = byKg.at(-1);
  const answer = top?.answer ?? answers[0];
  if (!answer || answer.ml === null)
    return without([say('No dose can be worked out for this band.')]);
  const own = low ? exactOwn(product, low.weight.kg, answer.source) : null;
  const lightest =
    low && own !== null
      ? { tag: low.animal.tag, kg: low.weight.kg, ownMl: own, times: answer.ml / own }
      : null;
  const found = {
    heaviest: top ? { tag: top.animal.tag, kg: top.weight.kg } : null,
    lightest,
    questions: [...new Set(answers.flatMap((one) => one.questions))],
    lifted: [...new Set(answers.flatMap((one) => one.lifted))],
  };
  if (lightest && atLeast(lightest.times, MOST_TIMES))
    return { ...without([splitSentence(lightest, answer.ml, asked.mark)]), ...found };
  return { ml: answer.ml, source: answer.source, sum: answer.sum, stops: [], ...found };
}

/** What the lightest gets, as a sentence for page and paper. */
export function lightestSentence(
  { tag, kg, ownMl, times }: LightestShare,
  ml: number,
  mark: DecimalMark = '.',
): string {
  return say('The lightest, {tag} ({weight} kg), gets {ml} mL, {times} times its own {own} mL.', {
    tag,
    weight: shortNumber(kg, 1, mark),
    ml: shortNumber(ml, 2, mark),
    times: shortNumber(times, 2, mark),
    own: shortNumber(ownMl, 2, mark),
  });
}

function splitSentence(lightest: LightestShare, ml: number, mark?: DecimalMark): string {
  return say('{lightest} That is {times} times or more: split the band by weight.', {
    lightest: lightestSentence(lightest, ml, mark),
    times: MOST_TIMES,
  });
}

/** A vet's dose per animal is everybody's own dose, so the lightest gets once its own. */
function exactOwn(product: Product, kg: number, source: DoseSource | null): number | null {
  const vet = vetsDose(product);
  const own = source === 'vet' && vet ? exactVetsDose(vet, kg) : labelDose(product, kg);
  return typeof own === 'number' ? own : null;
}

function without(stops: readonly string[]): BandDose {
  return {
    ml: null,
    source: null,
    sum: '',
    heaviest: null,
    lightest: null,
    stops,
    questions: [],
    lifted: [],
  };
}
