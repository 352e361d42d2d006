import type { Animal, Notebook } from '../../shared/notebook.ts';
import { fault, type Fault } from '../../shared/value.ts';
import { animalOf, markOf } from '../notebook/read.ts';
import { bandDose, type BandDose } from './band-dose.ts';
import { doseFor, type DoseAnswer, type DoseAsked } from './dose.ts';
import { doseTotal, type DoseTotal } from './dose-total.ts';
import { productOf } from './product.ts';
import type { Treated } from './treatment-round.ts';
import { weightStop } from './weight-check.ts';
import { doseWeight, type DoseWeight } from './weighing.ts';
import { say } from '../text/say.ts';

/** What a round of doses is worked out for. */
export interface RoundAsked extends DoseAsked {
  readonly product: string;
  readonly animals: readonly string[];
  /** One dose for all, by the heaviest of them. */
  readonly byHeaviest: boolean;
  /** A share on top of what the doses add up to: 0.1 for 10 %. */
  readonly margin: number;
  /** mL that a person typed in place of the dose worked out, by animal; null where it was emptied. */
  readonly typed?: ReadonlyMap<string, number | null>;
}

/** One animal of the round. */
export interface RoundDose {
  readonly animal: Animal;
  readonly weight: DoseWeight | null;
  /** Its own dose, or the reasons why there is none. */
  readonly answer: DoseAnswer;
  /** mL to give: as typed, else the band's, else its own; null where there is none. */
  readonly ml: number | null;
}

/** A round of doses before it is written down. */
export interface DoseRound {
  readonly doses: readonly RoundDose[];
  /** Null unless one dose for all was asked for. */
  readonly band: BandDose | null;
  readonly total: DoseTotal | Fault;
  /** What to make sure of first, each once. */
  readonly questions: readonly string[];
}

/** The doses of a product for some animals, each by its own weight or all by the heaviest. Faults: no such product. */
export function doseRound(notebook: Notebook, wanted: RoundAsked): DoseRound | Fault {
  const asked = { mark: markOf(notebook), ...wanted };
  const product = productOf(notebook, asked.product);
  if (!product?.name || product.removed === true)
    return fault(
      'no-product',
      say('Choose a product first; add it under Products if it is not there.'),
    );
  const members = asked.animals.flatMap((id) => {
    const animal = animalOf(notebook, id);
    return animal ? [{ animal, weight: doseWeight(notebook, animal, asked.date) }] : [];
  });
  const band = asked.byHeaviest ? bandDose(product, members, asked) : null;
  const doses = members.map(({ animal, weight }) => {
    const answer = doseFor(product, animal, weight, asked);
    const typed = asked.typed?.get(animal.id);
    const ml = typed === undefined ? (band ? band.ml : answer.ml) : typed;
    return { animal, weight, answer, ml };
  });
  const questions = band ? band.questions : doses.flatMap(({ answer }) => answer.questions);
  return {
    doses,
    band,
    total: doseTotal(
      doses.map(({ ml }) => ml),
      asked.margin,
    ),
    questions: [...new Set(questions)],
  };
}

/** The round as the log takes it: a weight that cannot be is not written down as one. */
export function roundTreated(round: DoseRound): readonly Treated[] {
  return round.doses.map(({ animal, weight, ml }) => ({
    animal: animal.id,
    doseMl: ml,
    weightKg: weight !== null && weightStop(animal, weight) === null ? weight.kg : null,
  }));
}
