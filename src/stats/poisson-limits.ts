import { fault, isFault, type Fault } from '../../shared/value.ts';
import { epg } from './epg.ts';
import { gammaQuantile } from './gamma-law.ts';
import { checkEggs, checkFactor, checkLevel } from './input-check.ts';
import type { Limits } from './limits.ts';

const REMEMBERED_EGGS = 2000;
const remembered = new Map<number, (Limits | undefined)[]>();

/**
 * Exact two-sided Poisson limits of the eggs expected in a cup in which `eggs` were seen.
 *
 * low = χ²(a, 2x)/2 (0 when x = 0), high = χ²(1 − a, 2x + 2)/2, a = (1 − level)/2. Units: eggs, before the
 * factor. Missing: a cup that was not counted has no limits; do not ask. Faults: eggs not whole or
 * negative, level outside 0 to 1. They hold the luck of the count only: dung varies beyond that.
 *
 * Source: Garwood 1936, Biometrika 28:437–442; formula from memory, values checked against R and
 * against printed statistics tables.
 */
export function poissonLimits(eggs: number, level = 0.95): Limits | Fault {
  const wrong = checkEggs(eggs) ?? checkLevel(level);
  if (wrong) return wrong;
  if (eggs >= REMEMBERED_EGGS) return exactLimits(eggs, level);
  let known = remembered.get(level);
  if (!known) {
    if (remembered.size >= 8) remembered.clear();
    remembered.set(level, (known = []));
  }
  return (known[eggs] ??= exactLimits(eggs, level));
}

function exactLimits(eggs: number, level: number): Limits {
  const tail = (1 - level) / 2;
  return {
    low: eggs === 0 ? 0 : gammaQuantile(tail, eggs),
    high: eggs === 0 ? -Math.log(tail) : gammaQuantile(1 - tail, eggs + 1),
  };
}

/**
 * Upper limit of the eggs expected in a cup in which none was seen, all the doubt put on one side:
 * −ln(1 − level), 2.9957 at 95 %. Times the factor it is the "probably under 150 epg, not free of worms"
 * of a cup without eggs. Units: eggs. Fault: level outside 0 to 1.
 *
 * Source: elementary (the chance of no egg is e^−λ); the "rule of three" of statistics texts, memory.
 */
export function noEggLimit(level = 0.95): number | Fault {
  return checkLevel(level) ?? -Math.log(1 - level);
}

/** Lower Poisson limit in epg: `poissonLimits(eggs, level).low × factor`. Same faults; factor above 0. */
export function epgLow(eggs: number, factor: number, level = 0.95): number | Fault {
  return scaled(eggs, factor, level, 'low');
}

/** Upper Poisson limit in epg: `poissonLimits(eggs, level).high × factor`. Same faults; factor above 0. */
export function epgHigh(eggs: number, factor: number, level = 0.95): number | Fault {
  return scaled(eggs, factor, level, 'high');
}

function scaled(eggs: number, factor: number, level: number, side: keyof Limits): number | Fault {
  const limits = checkFactor(factor) ?? poissonLimits(eggs, level);
  if (isFault(limits)) return limits;
  const result = epg(limits[side], factor);
  return isFault(result) ? fault('bad-factor', result.sentence) : result;
}
