import type { Animal, Column, Notebook, RowReadings } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import type { DayId } from '../../shared/ref.ts';
import { isFault } from '../../shared/value.ts';
import { newest } from '../notebook/cell.ts';
import { groupOn } from '../notebook/present.ts';
import { columnOf, columnsOf, dayOf } from '../notebook/read.ts';
import { daysBetween } from '../text/date.ts';
import { daysAfterTreatment } from '../treating/after-treatment.ts';
import { finiteNumber, markedText, type CellContent } from './cell-content.ts';
import type { EggGroup } from './egg-groups.ts';
import { idOf } from './node.ts';
import type { PlannedNode } from './plan.ts';

const KG_PER_LB = 0.45359237;
/** Mean length of a month: 365.25 / 12 days. */
const DAYS_PER_MONTH = 30.4375;

/** What a status may say while the sample still counts as sampled. */
const countedStatus = new Set(['', 'sampled', 'one chamber only']);

/** What formulas may see of a row: its readings, and why some of them are withheld. */
export interface RowSight {
  readonly readings: RowReadings | undefined;
  /** The sample was spoiled, lost, pooled or not taken: nothing about the cup counts. */
  readonly isSpoiled: boolean;
  /** Columns whose counts are withheld, because their cup is not wholly known. */
  readonly withheld: ReadonlySet<string>;
}

/** Looks at a row's readings. `held`: it is still being typed, so one chamber of two is not the cup yet. */
export function rowSight(
  notebook: Notebook,
  day: DayId,
  row: string,
  groups: readonly EggGroup[],
  held: boolean,
): RowSight {
  const readings = notebook.readings[day]?.[row];
  return {
    readings,
    isSpoiled: isSpoiled(notebook, readings),
    withheld: readings ? withheldCounts(readings, groups, held) : new Set(),
  };
}

/** Whether the row's status says that its sample does not count, whatever was typed. */
function isSpoiled(notebook: Notebook, readings: RowReadings | undefined): boolean {
  if (!readings) return false;
  const status = columnsOf(notebook).find((column) => column.key === 'status');
  const reading = status && readingIn(readings, status.id);
  return reading !== undefined && !countedStatus.has(reading.text.trim().toLowerCase());
}

function withheldCounts(
  readings: RowReadings,
  groups: readonly EggGroup[],
  held: boolean,
): ReadonlySet<string> {
  const withheld = new Set<string>();
  for (const { counts, parts } of groups) {
    const typed = counts.map((id) => readingIn(readings, id));
    const given = typed.filter((reading) => reading !== undefined);
    const isUnsure =
      given.some((reading) => reading.kind !== 'number') ||
      parts.some((id) => (readingIn(readings, id)?.kind ?? 'number') !== 'number');
    const isHalf = held && given.length > 0 && given.length < typed.length;
    if (isUnsure || isHalf) for (const id of counts) withheld.add(id);
  }
  return withheld;
}

export function readingIn(readings: RowReadings | undefined, column: string): Reading | undefined {
  return newest(readings?.[column]);
}

/** What goes into the engine for one animal present on a day, node by node in the plan's order. */
export function rowContents(
  notebook: Notebook,
  day: DayId,
  animal: Animal,
  nodes: readonly PlannedNode[],
  sight: RowSight,
): CellContent[] {
  return nodes.map(({ node, template }) => {
    if (node.startsWith('t:')) return factContent(notebook, day, animal, idOf(node));
    if (node.startsWith('k:')) return template;
    const column = columnOf(notebook, idOf(node));
    return column ? columnContent(column, template, sight) : null;
  });
}

function columnContent(
  column: Column,
  template: CellContent,
  { readings, isSpoiled: spoiled, withheld }: RowSight,
): CellContent {
  const isWithheld =
    withheld.has(column.id) || (spoiled && isAboutCup(column) && column.key !== 'status');
  const reading = isWithheld ? undefined : readingIn(readings, column.id);
  switch (column.kind) {
    case 'formula':
      if (!column.typedOver || reading === undefined) return template;
      return numberOf(reading);
    case 'tick':
      // Nobody noted the sign: it was not seen.
      return reading?.kind === 'tick' ? reading.value : false;
    case 'text':
    case 'choice':
      return reading ? markedText(reading.text) : null;
    case 'outcome':
      return null;
    default:
      return reading ? numberOf(reading) : null;
  }
}

export function isAboutCup(column: Column): boolean {
  return (column.about ?? (/^(count|part)$/.test(column.kind) ? 'cup' : 'animal')) === 'cup';
}

/** Only plain numbers enter; bounds, "too many" and what could not be read do not. Weights in kg. */
function numberOf(reading: Reading): number | null {
  if (reading.kind !== 'number') return null;
  return finiteNumber(reading.unit === 'lb' ? reading.value * KG_PER_LB : reading.value);
}

function factContent(notebook: Notebook, day: DayId, animal: Animal, fact: string): CellContent {
  const date = dayOf(notebook, day)?.date ?? day.slice(0, 10);
  switch (fact) {
    case 'tag':
      return markedText(animal.tag);
    case 'group':
      return markedText(groupOn(notebook, animal.id, date) ?? '');
    case 'class':
      return markedText(animal.class ?? '');
    case 'species':
      return markedText(animal.species ?? '');
    case 'days_treated':
      return finiteNumber(daysAfterTreatment(notebook, animal.id, date));
    default:
      return ageInMonths(animal.born, date);
  }
}

/** Months with decimals; nothing for an unknown, unreadable or later day of birth. */
function ageInMonths(born: string | undefined, date: string): number | null {
  if (born === undefined) return null;
  const days = daysBetween(born, date);
  return isFault(days) || days < 0 ? null : days / DAYS_PER_MONTH;
}
