import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { isFault, type Fault } from '../../shared/value.ts';

/** Reference numbers from R 4.2.2; see tests/fixtures/check-values/SOURCE.md. */
export interface CheckValues {
  readonly poisson: readonly { eggs: number; level: number; low: number; high: number }[];
  readonly chamber_gap: readonly { chamber1: number; chamber2: number; p: number }[];
  readonly herds: readonly HerdRow[];
  readonly herds_mixed_factor: readonly MixedHerdRow[];
  readonly paired_reduction: readonly PairRow[];
  readonly paired_mixed_factor: readonly MixedPairRow[];
  readonly over_chance: readonly {
    eggs: number;
    factor: number;
    limit: number;
    chance: number;
    k?: number;
    mean_epg?: number;
  }[];
  readonly unpaired_reduction: readonly {
    name: string;
    treated: number[];
    control: number[];
    level: number;
    reduction: number;
    low: number;
    high: number;
  }[];
}

export interface HerdRow {
  readonly name: string;
  readonly eggs: number[];
  readonly factor: number;
  readonly n: number;
  readonly mean_epg: number;
  readonly mean_low95: number;
  readonly mean_high95: number;
  readonly counted_low95: number;
  readonly counted_high95: number;
  readonly median_epg: number;
  readonly k_moments: number | null;
  readonly k_ml: number | null;
  readonly shedder_luck_80: number | null;
  readonly shedder_share_80?: number | null;
  readonly egg_share_top20?: number | null;
  readonly over_1000: number;
  readonly dispersion_index: number | null;
}

export interface MixedHerdRow {
  readonly name: string;
  readonly eggs: number[];
  readonly factor: number[];
  readonly arithmetic_mean: number;
  readonly model_mean: number;
  readonly mean_low95: number;
  readonly mean_high95: number;
  readonly k_ml: number;
  readonly counted_low95: number;
  readonly counted_high95: number;
}

interface LimitRow {
  readonly low: number;
  readonly high: number;
}

export interface PairRow {
  readonly name: string;
  readonly before_eggs: number[];
  readonly after_eggs: number[];
  readonly factor_before: number;
  readonly factor_after: number;
  readonly level: number;
  readonly reduction: number;
  readonly leverage_adjusted?: LimitRow;
  readonly paired_log_t?: LimitRow;
  readonly paired_gamma?: LimitRow;
  readonly zero_after?: LimitRow;
}

export interface MixedPairRow extends LimitRow {
  readonly name: string;
  readonly before_eggs: number[];
  readonly after_eggs: number[];
  readonly factor_before: number[];
  readonly factor_after: number[];
  readonly level: number;
  readonly reduction: number;
}

const folder = new URL('../fixtures/check-values/', import.meta.url);

export const checkValues = JSON.parse(
  readFileSync(new URL('statistics.json', folder), 'utf8'),
) as CheckValues;

/** The rows of a comma-separated fixture without quotes, each as header → text. */
export function csvRows(name: string): Record<string, string>[] {
  const [header = '', ...lines] = readFileSync(new URL(name, folder), 'utf8').trim().split('\n');
  const keys = header.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(keys.map((key, i) => [key, cells[i] ?? '']));
  });
}

/** Asserts that `actual` is a figure within a relative distance of `expected` (absolute where that is 0). */
export function expectClose(actual: number | Fault | undefined, expected: number, relative = 1e-9) {
  if (isFault(actual)) throw new Error(`fault instead of ${expected}: ${actual.sentence}`);
  const distance = Math.abs((actual ?? NaN) - expected);
  expect(distance, `${actual} against ${expected}`).toBeLessThanOrEqual(
    relative * (expected === 0 ? 1 : Math.abs(expected)),
  );
}

/** Unwraps a result that must not be a fault. */
export function figure<T>(result: T | Fault): T {
  if (isFault(result)) throw new Error(`unexpected fault: ${result.sentence}`);
  return result;
}

/** Asserts a fault of the given kind whose sentence is one for people. */
export function expectFault(result: unknown, kind: string) {
  if (!isFault(result)) throw new Error(`a figure instead of the fault ${kind}: ${String(result)}`);
  expect(result.fault).toBe(kind);
  expect(result.sentence).toMatch(/^[A-Z].{10,}\.$/);
}
