import type { Notebook } from '../../shared/notebook.ts';
import type { Value } from '../../shared/value.ts';
import { isPresent } from '../notebook/present.ts';
import { animalOf, animalsOf, byText, daysOf } from '../notebook/read.ts';
import { daysAfterTreatment, isStillHigh } from './after-treatment.ts';
import { figureOf } from './figure-of.ts';
import { say } from '../text/say.ts';

/** One animal's epg by day id, as the engine gives a day's column. */
export type EpgByDay = ReadonlyMap<string, ReadonlyMap<string, Value>>;

/** One count of one animal in the season. */
export interface SeasonPoint {
  readonly day: string;
  readonly date: string;
  readonly epg: number;
  /** Days since a treatment the count still shows; such a point is drawn apart and left out of the line. */
  readonly daysAfter: number | undefined;
  readonly isStillHigh: boolean;
}

/** One animal's season. */
export interface SeasonLine {
  readonly animal: string;
  readonly tag: string;
  /** Ordinary counts, oldest first: the line itself. */
  readonly line: readonly SeasonPoint[];
  /** Counts soon after a treatment, drawn apart. */
  readonly apart: readonly SeasonPoint[];
  /** Mean epg of the ordinary counts; null without one. */
  readonly mean: number | null;
  /** Sampling days on which it was here. */
  readonly daysPresent: number;
  /** "mean of 4 of 6 days, 1 more soon after treatment". */
  readonly sentence: string;
}

/**
 * One animal over the sampling days: ordinary counts make the line and its mean; counts within the product's own
 * days after a treatment stand apart, because they show the product and not the animal.
 */
export function seasonLine(notebook: Notebook, animalId: string, epgs: EpgByDay): SeasonLine {
  const animal = animalOf(notebook, animalId);
  const here = daysOf(notebook).filter((day) => animal && isPresent(notebook, day.id, animal));
  const points = here.flatMap(({ id, date }): SeasonPoint[] => {
    const epg = figureOf(epgs.get(id)?.get(animalId));
    if (epg === null) return [];
    return [
      {
        day: id,
        date,
        epg,
        daysAfter: daysAfterTreatment(notebook, animalId, date),
        isStillHigh: isStillHigh(notebook, id, animalId, epg),
      },
    ];
  });
  const line = points.filter(({ daysAfter }) => daysAfter === undefined);
  const apart = points.filter(({ daysAfter }) => daysAfter !== undefined);
  const mean =
    line.length === 0 ? null : line.reduce((sum, point) => sum + point.epg, 0) / line.length;
  const of = { days: here.length, after: apart.length };
  return {
    animal: animalId,
    tag: animal?.tag ?? '',
    line,
    apart,
    mean,
    daysPresent: here.length,
    sentence:
      line.length === 0
        ? say(
            'no ordinary count on {days, plural, one {# day} other {# days}}{after, plural, =0 {} other {, # more soon after treatment}}',
            of,
          )
        : say(
            'mean of {n} of {days, plural, one {# day} other {# days}}{after, plural, =0 {} other {, # more soon after treatment}}',
            { n: line.length, ...of },
          ),
  };
}

/**
 * All animals by the mean of their ordinary counts, highest first; those without one are left out, so that an
 * animal never counted does not look best. Equal means keep the order of the tags.
 */
export function seasonRanking(notebook: Notebook, epgs: EpgByDay): readonly SeasonLine[] {
  return rankedLines(animalsOf(notebook).map(({ id }) => seasonLine(notebook, id, epgs)));
}

/** Lines with a mean, highest first; the same means by tag. */
export function rankedLines(lines: readonly SeasonLine[]): readonly SeasonLine[] {
  return lines
    .filter(({ mean }) => mean !== null)
    .sort((a, b) => (b.mean ?? 0) - (a.mean ?? 0) || byText(a.tag, b.tag));
}
