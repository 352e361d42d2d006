import type { Notebook, SamplingDay } from '../../shared/notebook.ts';
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
    means: days.flatMap((day) => dayMeans(notebook, day, epgs).get(group) ?? []),
  }));
}

interface DayMeans {
  readonly from: readonly unknown[];
  readonly means: ReadonlyMap<string | null, SeasonMean>;
}

const meansKept = new WeakMap<object, DayMeans>();

/**
 * The means of one day by group, all animals under null. Kept for as long as the day's epgs are the very same
 * map, so that a count typed on one day costs no look at the others.
 */
export function dayMeans(
  notebook: Notebook,
  day: SamplingDay,
  epgs: EpgByDay,
): ReadonlyMap<string | null, SeasonMean> {
  const { id, date, label = '' } = day;
  const present = presentAnimals(notebook, id);
  const { groups, treatments, products, columns } = notebook;
  const from = [present, day, groups, treatments, products, columns];
  const own = epgs.get(id);
  const kept = own && meansKept.get(own);
  if (kept?.from.every((part, i) => part === from[i])) return kept.means;
  const byGroup = new Map<string | null, string[]>([[null, []]]);
  for (const animal of present) {
    const group = groupOn(notebook, animal.id, date);
    if (group !== undefined) {
      const members = byGroup.get(group);
      if (members) members.push(animal.id);
      else byGroup.set(group, [animal.id]);
    }
    byGroup.get(null)?.push(animal.id);
  }
  const means = new Map<string | null, SeasonMean>();
  for (const [group, animals] of byGroup)
    if (animals.length > 0)
      means.set(group, { date, label, ...meansOf(notebook, id, date, animals, epgs) });
  if (own) meansKept.set(own, { from, means });
  return means;
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
