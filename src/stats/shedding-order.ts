import { isFault, type Fault } from '../../shared/value.ts';
import { knownValues } from './known-values.ts';
import { shedderCount, type ShedderCount } from './shedder-share.ts';

/** One animal in the order of shedding. */
export interface Shedder {
  /** Its place in the list handed in, from 0. */
  readonly row: number;
  readonly epg: number;
  /** Share of all eggs (0 to 1) in this animal and those before it. */
  readonly running: number;
}

/** The animals by epg with the running total of their eggs. */
export interface SheddingOrder {
  readonly shedders: readonly Shedder[];
  /** How many of them shed the share asked for. */
  readonly reached: ShedderCount;
}

/**
 * The animals counted, highest epg first, with the running total of eggs; equal ones keep their order.
 * Missing animals are left out. Units: epg (per gram of dung, not per day). Faults: nobody counted, no eggs,
 * a negative figure. Source: as `shedderCount`.
 */
export function sheddingOrder(
  epgs: readonly (number | null)[],
  eggShare = 0.8,
): SheddingOrder | Fault {
  const reached = shedderCount(epgs, eggShare);
  if (isFault(reached)) return reached;
  const known = knownValues(epgs);
  if (isFault(known)) return known;
  const total = known.reduce((sum, epg) => sum + epg, 0);
  const ranked = epgs
    .flatMap((epg, row) => (epg === null ? [] : [{ row, epg }]))
    .sort((a, b) => b.epg - a.epg || a.row - b.row);
  let sum = 0;
  const shedders = ranked.map(({ row, epg }) => ({ row, epg, running: (sum += epg) / total }));
  return { shedders, reached };
}
