import type { Animal, Notebook } from '../../shared/notebook.ts';
import { fault, isFault, type Fault } from '../../shared/value.ts';
import { animalOf, markOf } from '../notebook/read.ts';
import { groupReduction, groupReductionLimits } from '../stats/group-reduction.ts';
import type { Limits } from '../stats/limits.ts';
import {
  checkDaysFault,
  countOf,
  treatmentsBetween,
  type CheckDays,
  type CountRow,
  type LeftOut,
} from './check-pairs.ts';
import { reductionWords, limitWords } from './check-words.ts';
import { productName } from './product.ts';
import type { DecimalMark } from '../text/decimal-text.ts';
import { say } from '../text/say.ts';

/** A treated group and an untreated one, both counted on the second day. */
export interface ControlAsked extends CheckDays {
  readonly treated: readonly string[];
  readonly control: readonly string[];
  readonly rowsAfter: readonly CountRow[];
}

/** The class of the 1992 rule; another frame than the verdict of a paired check, so never mixed with it. */
export type ControlClass = 'resistant' | 'resistance suspected' | 'susceptible';

/** A check against an untreated control group, in the form of 1992. */
export interface ControlCheck {
  readonly treatedCounted: number;
  readonly controlCounted: number;
  readonly reduction: number | Fault;
  /** 95 % limits. */
  readonly limits: Limits | Fault;
  readonly class: ControlClass | null;
  readonly leftOut: readonly LeftOut[];
  readonly sentence: string;
}

/** By the 1992 rule resistance needs a reduction under this, and a lower limit under the next. */
export const CONTROL_REDUCTION = 95;
export const CONTROL_LOWER = 90;

/**
 * Reduction of the treated against the control group, 95 % limits, and the class of 1992: resistant when the
 * reduction is under 95 % and the lower limit under 90 %, suspected when only one holds. Treated animals
 * need exactly one treatment, of that product, between the days; control animals none of any.
 *
 * Faults: as for a paired check; an animal in both groups; an animal not in the notebook; an empty group.
 *
 * Source: Coles et al. 1992, Vet Parasitol 44:35–44 (second-hand; "suspected" and "susceptible" from memory).
 */
export function controlCheck(notebook: Notebook, asked: ControlAsked): ControlCheck | Fault {
  const wrong = checkDaysFault(notebook, asked) ?? groupsFault(notebook, asked);
  if (wrong) return wrong;
  const leftOut: LeftOut[] = [];
  const treated = epgsOf(notebook, asked, asked.treated, leftOut, (animal) =>
    treatedFault(notebook, asked, animal),
  );
  const control = epgsOf(notebook, asked, asked.control, leftOut, (animal) =>
    treatmentsBetween(notebook, asked, animal.id).length === 0
      ? null
      : say('in the control group, yet treated between the two days'),
  );
  const reduction = groupReduction(treated, control);
  const limits = groupReductionLimits(treated, control);
  const found = {
    treatedCounted: treated.length,
    controlCounted: control.length,
    reduction,
    limits,
    class: classOf(reduction, limits),
    leftOut,
  };
  return { ...found, sentence: sentenceOf(found, markOf(notebook)) };
}

function groupsFault(notebook: Notebook, asked: ControlAsked): Fault | null {
  const treated = new Set(asked.treated);
  for (const id of [...asked.treated, ...asked.control])
    if (!animalOf(notebook, id)?.tag)
      return fault('no-animal', say('One of these animals is not in this notebook.'));
  const both = asked.control.find((id) => treated.has(id));
  if (both !== undefined)
    return fault(
      'in-both-groups',
      say('{tag} is in the treated and in the control group. Take it out of one.', {
        tag: animalOf(notebook, both)?.tag ?? both,
      }),
    );
  if (asked.treated.length === 0 || asked.control.length === 0)
    return fault('empty-group', say('Choose animals for both groups: treated and untreated.'));
  return null;
}

function treatedFault(notebook: Notebook, asked: ControlAsked, animal: Animal): string | null {
  const between = treatmentsBetween(notebook, asked, animal.id);
  const [only] = between;
  const name = productName(notebook, asked.product);
  if (!only) return say('in the treated group, yet not treated between the two days');
  if (between.length > 1)
    return say('treated {n} times between the two days', { n: between.length });
  return only.product === asked.product
    ? null
    : say('treated with another product than {name}', { name });
}

function epgsOf(
  notebook: Notebook,
  asked: ControlAsked,
  ids: readonly string[],
  leftOut: LeftOut[],
  reasonAgainst: (animal: Animal) => string | null,
): readonly number[] {
  const rows = new Map(asked.rowsAfter.map((row) => [row.row, row]));
  return [...new Set(ids)].flatMap((id) => {
    const animal = animalOf(notebook, id);
    if (!animal) return [];
    const count = countOf(notebook, asked.after, animal, rows.get(id));
    const reason = reasonAgainst(animal) ?? (typeof count === 'string' ? count : null);
    if (reason === null && typeof count !== 'string') return [count.eggs * count.factor];
    leftOut.push({ animal: id, tag: animal.tag, reason: reason ?? '' });
    return [];
  });
}

function classOf(reduction: number | Fault, limits: Limits | Fault): ControlClass | null {
  if (isFault(reduction) || isFault(limits)) return null;
  const isLow = reduction < CONTROL_REDUCTION;
  const isUncertain = limits.low < CONTROL_LOWER;
  if (isLow && isUncertain) return 'resistant';
  return isLow || isUncertain ? 'resistance suspected' : 'susceptible';
}

/** The classes as people read them; they are kept in English. */
const classWords: Readonly<Record<ControlClass, string>> = {
  resistant: say('resistant'),
  'resistance suspected': say('resistance suspected'),
  susceptible: say('susceptible'),
};

function sentenceOf(found: Omit<ControlCheck, 'sentence'>, mark: DecimalMark): string {
  const { treatedCounted, controlCounted, reduction, limits } = found;
  const groups = { treated: treatedCounted, untreated: controlCounted };
  if (isFault(reduction))
    return say('{treated} treated against {untreated} untreated: {why}', {
      ...groups,
      why: reduction.sentence,
    });
  const change = reductionWords(reduction, mark);
  if (isFault(limits))
    return say(
      '{treated} treated against {untreated} untreated: against the control group the count {change}. {why}',
      { ...groups, change, why: limits.sentence },
    );
  return say(
    '{treated} treated against {untreated} untreated: against the control group the count {change}, 95 % limits {limits}; by the rule of 1992: {class}.',
    {
      ...groups,
      change,
      limits: limitWords(limits.low, limits.high, mark),
      class: found.class === null ? '' : classWords[found.class],
    },
  );
}
