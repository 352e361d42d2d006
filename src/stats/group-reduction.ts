import { fault, isFault, type Fault } from '../../shared/value.ts';
import { mean, variance } from './herd-mean.ts';
import { checkLevel } from './input-check.ts';
import { knownValues } from './known-values.ts';
import type { Limits } from './limits.ts';
import { tooWide, WIDEST_REACH } from './reduction-limits.ts';
import { studentQuantile } from './student-quantile.ts';
import { say } from '../text/say.ts';

/**
 * Reduction in % of a treated group against an untreated one, both counted after treatment:
 * 100·(1 − mean treated / mean control), arithmetic means.
 *
 * Units: epg. Missing animals are left out of their group. Negative when the treated have more; never
 * clipped. Faults: a group without counts, no eggs in the control group, negative figures.
 *
 * Source: Coles et al. 1992, Vet Parasitol 44:35–44 (second-hand: an open encyclopaedia article restates it).
 */
export function groupReduction(
  treated: readonly (number | null)[],
  control: readonly (number | null)[],
): number | Fault {
  const groups = bothGroups(treated, control);
  return isFault(groups) ? groups : 100 * (1 - mean(groups.treated) / mean(groups.control));
}

/**
 * Limits of `groupReduction` in %, 95 % unless asked otherwise: V = s_t²/(n_t·m_t²) + s_c²/(n_c·m_c²), limits
 * 100[1 − (m_t/m_c)·exp(±t·√V)], t with n_t + n_c − 2 degrees of freedom.
 *
 * Units and missing as `groupReduction`. Faults besides: treated counts all zero (the form breaks there), fewer than
 * two counted in a group, bad level.
 *
 * Source: Coles et al. 1992, Vet Parasitol 44:35–44 (second-hand, symbols from memory); checked against R.
 */
export function groupReductionLimits(
  treated: readonly (number | null)[],
  control: readonly (number | null)[],
  level = 0.95,
): Limits | Fault {
  const groups = checkLevel(level) ?? bothGroups(treated, control);
  if (isFault(groups)) return groups;
  if (groups.treated.length < 2 || groups.control.length < 2) {
    return fault('too-few', say('Limits need at least 2 animals counted in each group.'));
  }
  const treatedMean = mean(groups.treated);
  if (treatedMean === 0) {
    return fault(
      'zero-after',
      say('No eggs were found in the treated group: this form gives no limits for that.'),
    );
  }
  const ratio = treatedMean / mean(groups.control);
  const error = Math.sqrt(relativeVariance(groups.treated) + relativeVariance(groups.control));
  const df = groups.treated.length + groups.control.length - 2;
  const reach = studentQuantile((1 + level) / 2, df) * error;
  if (!(reach <= WIDEST_REACH)) return tooWide();
  const spread = Math.exp(reach);
  return { low: 100 * (1 - ratio * spread), high: 100 * (1 - ratio / spread) };
}

function relativeVariance(values: readonly number[]): number {
  const m = mean(values);
  return variance(values) / (values.length * m * m);
}

function bothGroups(
  treated: readonly (number | null)[],
  control: readonly (number | null)[],
): { readonly treated: number[]; readonly control: number[] } | Fault {
  const first = knownValues(treated);
  if (isFault(first)) return named(first, say('No counts yet in the treated group.'));
  const second = knownValues(control);
  if (isFault(second)) return named(second, say('No counts yet in the control group.'));
  if (second.some((value) => value > 0)) return { treated: first, control: second };
  return fault(
    'no-eggs-control',
    say('Counts of the control group are all zero, so there is no reduction to work out.'),
  );
}

function named(wrong: Fault, sentence: string): Fault {
  return wrong.fault === 'no-counts' ? fault('no-counts', sentence) : wrong;
}
