import type { Fault } from '../../shared/value.ts';
import { checkFactor, checkNotNegative } from './input-check.ts';
import { say } from '../text/say.ts';

/**
 * Eggs per gram of dung: eggs seen × multiplication factor.
 *
 * Units: eggs seen (all areas together), factor in epg per egg. An average over grids is allowed, so
 * `eggs` need not be whole. Missing: not counted is not 0 epg; leave it out. Faults: negative or no
 * number. A factor such as 66.67 cannot be held exactly in binary, so 15 eggs could come out a hair
 * beside 1,000: where a decimal of twelve figures lies within that hair, it is the answer.
 *
 * Source: elementary; every counting guide (for example FAO/RVC guide to faecal examination, read).
 */
export function epg(eggs: number, factor: number): number | Fault {
  const wrong =
    checkNotNegative(eggs, () => say('The number of eggs must be 0 or more.')) ??
    checkFactor(factor);
  if (wrong) return wrong;
  const product = eggs * factor;
  const short = Number(product.toPrecision(12));
  return Math.abs(product - short) <= 4 * Number.EPSILON * product ? short : product;
}
