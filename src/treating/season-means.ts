import type { Notebook } from '../../shared/notebook.ts';
import { groupOn, groupsOn, presentAnimals } from '../notebook/present.ts';
import { byText, columnsOf, daysOf, readingOf } from '../notebook/read.ts';
import { daysAfterTreatment } from './after-treatment.ts';
import { figureOf } from './figure-of.ts';
import type { EpgByDay } from './season-line.ts';

/** A group on one sampling day. Means are arithmetic, in epg; null where no such count was made. */
export interface SeasonMean {
  readonly day: string;
  readonly date: string;
  readonly label: string;
  readonly present: number;
  /** Ordinary counts: those that no recent treatment shows in. */
  readonly mean: number | null;
  readonly counted: number;
  /** Counts soon after a treatment, kept apart. */
  readonly afterMean: number | null;
  readonly afterCounted: number;
  /** Animals with too many eggs to count, in no mean: the true mean is higher. */
  readonly tooMany: number;
}

/** One line of the season: a group, or (null) all animals. */
export interface SeasonGroup {
  readonly group: string | null;
  readonly means: readonly SeasonMean[];
}

/**
 * Mean epg of each group and of all animals on each sampling day, oldest first. An animal counts in the group
 * it was in on that day. Counts soon after a treatment stand apart, since they show the product and not the
 * pasture. A day on which a group was not there is left out; one without counts has no mean, not 0.
 */
export function seasonMeans(notebook: Notebook, epgs: EpgByDay): readonly SeasonGroup[] {
  const days = daysOf(notebook);
  const groups = [...new Set(days.flatMap(({ id }) => groupsOn(notebook, id)))].sort(byText);
  const lines: readonly (string | null)[] = groups.length > 1 ? [...groups, null] : [null];
  return lines.map((group) => ({
    group,
    means: days.flatMap(({ id, date, label }) => {
      const animals = presentAnimals(notebook, id)
        .map((animal) => animal.id)
        .filter((animal) => group === null || groupOn(notebook, animal, date) === group);
      if (animals.length === 0) return [];
      return [{ date, label: label ?? '', ...meansOf(notebook, id, date, animals, epgs) }];
    }),
  }));
}

function meansOf(
  notebook: Notebook,
  day: string,
  date: string,
  animals: readonly string[],
  epgs: EpgByDay,
): Omit<SeasonMean, 'date' | 'label'> {
  const plain: number[] = [];
  const after: number[] = [];
  let tooMany = 0;
  for (const animal of animals) {
    const epg = figureOf(epgs.get(day)?.get(animal));
    if (epg === null) tooMany += isTooMany(notebook, day, animal) ? 1 : 0;
    else if (daysAfterTreatment(notebook, animal, date) === undefined) plain.push(epg);
    else after.push(epg);
  }
  return {
    day,
    present: animals.length,
    mean: meanOf(plain),
    counted: plain.length,
    afterMean: meanOf(after),
    afterCounted: after.length,
    tooMany,
  };
}

function meanOf(epgs: readonly number[]): number | null {
  return epgs.length === 0 ? null : epgs.reduce((sum, epg) => sum + epg, 0) / epgs.length;
}

function isTooMany(notebook: Notebook, day: string, animal: string): boolean {
  return columnsOf(notebook).some((column) => {
    if (column.kind !== 'count' || column.otherEggs === true) return false;
    const kind = readingOf(notebook, day, animal, column.id)?.kind;
    return kind === 'over' || kind === 'too-many';
  });
}
