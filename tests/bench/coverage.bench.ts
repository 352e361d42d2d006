import { isFault } from '../../shared/value.ts';
import { randomGamma, randomPoisson } from '../../src/simulation/random-counts.ts';
import { seededRandom } from '../../src/simulation/seeded-random.ts';
import {
  simulateCheck,
  simulatedPairs,
  type CheckSetup,
} from '../../src/simulation/simulated-check.ts';
import { countedMeanLimits } from '../../src/stats/counted-mean-limits.ts';
import { herdMeanLimits } from '../../src/stats/herd-mean-limits.ts';
import { limitsOfPairs, type ReductionMethod } from '../../src/stats/reduction-limits.ts';
import type { Row } from './bench.ts';

export const name = 'Do the limits keep what they promise, and how fast is a simulated check';

const HERDS = 1500;
const CHECKS = 3000;
const FACTOR = 50;

/** How often limits missed the truth on either side, of those that were given. */
class Misses {
  given = 0;
  none = 0;
  #below = 0;
  #above = 0;

  add(limits: { readonly low: number; readonly high: number } | null, truth: number): void {
    if (!limits) {
      this.none += 1;
      return;
    }
    this.given += 1;
    if (truth < limits.low) this.#below += 1;
    if (truth > limits.high) this.#above += 1;
  }

  row(what: string, level: number): Row {
    const percent = (number: number): string => `${((100 * number) / this.given).toFixed(1)} %`;
    const held = this.given - this.#below - this.#above;
    return {
      what,
      measured: `holds ${percent(held)}`,
      budget: `${100 * level} % promised`,
      note:
        `truth under the limits ${percent(this.#below)}, over them ${percent(this.#above)}` +
        (this.none > 0 ? `; ${this.none} of ${this.given + this.none} without limits` : ''),
    };
  }
}

/** Herds drawn anew each time: does the interval for *the herd they were drawn from* hold its mean? */
function herdMeans(): Row[] {
  const rows: Row[] = [];
  let seed = 100;
  for (const animals of [8, 15, 30]) {
    for (const k of [0.3, 0.7, 1.5]) {
      const random = seededRandom((seed += 1));
      const meanEpg = 400;
      const drawn = new Misses();
      for (let herd = 0; herd < HERDS; herd++) {
        const eggs = Array.from({ length: animals }, () =>
          randomPoisson(random, (randomGamma(random, k) * meanEpg) / k / FACTOR),
        );
        const limits = herdMeanLimits(eggs, FACTOR);
        drawn.add(isFault(limits) ? null : limits, meanEpg);
      }
      rows.push(drawn.row(`Mean of the herd, ${animals} animals, k ${k}, 8 eggs each`, 0.95));
    }
  }
  return rows;
}

/** The same animals counted again and again: does the interval for *these animals* hold their mean? */
function countedMeans(): Row[] {
  const rows: Row[] = [];
  for (const [what, factors] of [
    ['one factor', [50]],
    ['factors 25, 50 and 100', [25, 50, 100]],
  ] as const) {
    const random = seededRandom(200);
    const misses = new Misses();
    const factorOf = Array.from({ length: 12 }, (_, i) => factors[i % factors.length] ?? FACTOR);
    for (let herd = 0; herd < 4 * HERDS; herd++) {
      const shed = factorOf.map(() => (randomGamma(random, 0.7) * 150) / 0.7);
      const eggs = shed.map((epg, i) => randomPoisson(random, epg / (factorOf[i] ?? FACTOR)));
      const limits = countedMeanLimits(eggs, factorOf);
      misses.add(
        isFault(limits) ? null : limits,
        shed.reduce((sum, epg) => sum + epg, 0) / shed.length,
      );
    }
    rows.push(misses.row(`Mean of the animals counted, 12 animals, ${what}`, 0.95));
  }
  return rows;
}

function reductions(): Row[] {
  const rows: Row[] = [];
  let seed = 300;
  for (const [animals, k, efficacy] of [
    [10, 0.5, 80],
    [15, 0.5, 95],
    [15, 1.2, 90],
    [24, 0.7, 98],
  ] as const) {
    for (const method of ['adjusted', 'gamma'] satisfies ReductionMethod[]) {
      const random = seededRandom((seed += 1));
      const misses = new Misses();
      const setup = { ...usual, animals, k, efficacy };
      for (let check = 0; check < CHECKS; check++) {
        const limits = limitsOfPairs(simulatedPairs(setup, random), 0.9, method);
        misses.add(isFault(limits) ? null : limits, efficacy);
      }
      rows.push(
        misses.row(`Reduction, ${method}, ${animals} animals, k ${k}, true ${efficacy} %`, 0.9),
      );
    }
  }
  return rows;
}

const usual: CheckSetup = {
  animals: 15,
  meanEpg: 600,
  k: 0.7,
  factorBefore: FACTOR,
  factorAfter: FACTOR,
  efficacy: 95,
  expected: 99,
  threshold: 90,
  level: 0.9,
  runs: 20_000,
  seed: 1,
};

function speed(): Row {
  simulateCheck({ ...usual, runs: 2000 });
  const start = performance.now();
  simulateCheck(usual);
  const seconds = (performance.now() - start) / 1000;
  return {
    what: 'Simulated checks of 15 animals',
    measured: `${Math.round(usual.runs / seconds).toLocaleString('en')} a second`,
    budget: 'at least 10,000 a second',
  };
}

function tenThousand(): Row {
  const random = seededRandom(400);
  const eggs = Array.from({ length: 10_000 }, () =>
    randomPoisson(random, (randomGamma(random, 0.6) * 10) / 0.6),
  );
  herdMeanLimits(eggs, FACTOR);
  const start = performance.now();
  for (let turn = 0; turn < 20; turn++) herdMeanLimits(eggs, FACTOR);
  return {
    what: 'Limits of the mean of 10,000 animals, one factor',
    measured: `${((performance.now() - start) / 20).toFixed(1)} ms`,
    budget: '5 ms',
  };
}

/** All seeded: coverage is the same each time, only the speeds are the machine's. */
export async function run(): Promise<readonly Row[]> {
  return [...herdMeans(), ...countedMeans(), ...reductions(), speed(), tenThousand()];
}
