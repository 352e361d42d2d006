import type { Engine } from '../../shared/derived.ts';
import type { Animal, Column, Notebook, SamplingDay } from '../../shared/notebook.ts';
import type { DayId } from '../../shared/ref.ts';
import { isFault, type Value } from '../../shared/value.ts';
import { dayName } from '../notebook/edit-days.ts';
import { outcomeOf } from '../notebook/outcome.ts';
import { groupOn, isPresent } from '../notebook/present.ts';
import { animalsOf, dayOf, markOf, readingOf } from '../notebook/read.ts';
import { electronicNumber } from '../text/electronic-number.ts';
import { animalCautions } from '../treating/animal-cautions.ts';
import { decisionOf } from '../treating/decision.ts';
import { areasCounted } from './areas-counted.ts';
import type { OnDay } from './export-tidy.ts';
import { outcomeWhy, valueCell } from './tidy-row.ts';
import { vetColumns, vetHeading } from './vet-columns.ts';
import { treatmentCells, treatmentHeadings } from './vet-treatment.ts';
import type { WriteCell, WriteStyle } from './write-table.ts';

const animalHeadings = ['tag', 'electronic number', 'name', 'species', 'class', 'group', 'born'];

/**
 * One row for each animal, for a person to read: of one day, or of a season with the days side by side.
 * Every column stands there also where the first animal has nothing. Figures are rounded as on the page.
 *
 * @param engine one of the export's own, since its open day changes; never the page's.
 */
export async function vetRows(
  notebook: Notebook,
  engine: Engine,
  days: readonly DayId[],
  style: WriteStyle,
  onDay: OnDay = () => undefined,
): Promise<readonly (readonly WriteCell[])[]> {
  const columns = vetColumns(notebook, days);
  const listed = days.flatMap((id) => dayOf(notebook, id) ?? []);
  const animals = animalsOf(notebook).filter((animal) =>
    days.some((day) => isPresent(notebook, day, animal)),
  );
  const last = listed.at(-1)?.date ?? '';
  const rows = animals.map((animal) => [...animalCells(notebook, animal, last)]);
  const headings = [...animalHeadings];
  for (const [i, day] of listed.entries()) {
    await engine.open(notebook, day.id);
    const before = listed.length === 1 ? '' : `${dayName(notebook, day.id)}: `;
    headings.push(...dayHeadings(columns).map((heading) => before + heading));
    const context = { notebook, engine, day, columns, style };
    animals.forEach((animal, at) => rows[at]?.push(...dayCells(context, animal)));
    onDay(i + 1, listed.length);
  }
  return [headings, ...rows];
}

function animalCells(notebook: Notebook, animal: Animal, date: string): WriteCell[] {
  const number = animal.electronic ?? electronicNumber(animal.tag);
  return [
    { tag: animal.tag },
    number ? { tag: number } : null,
    animal.name ?? null,
    animal.species ?? null,
    animal.class ?? null,
    groupOn(notebook, animal.id, date) ?? null,
    animal.born ?? null,
  ];
}

function dayHeadings(columns: readonly Column[]): readonly string[] {
  return [
    ...columns.flatMap((column) =>
      column.kind === 'outcome'
        ? ['outcome', 'reasons']
        : column.key === 'eggs'
          ? [vetHeading(column), 'areas counted']
          : [vetHeading(column)],
    ),
    ...treatmentHeadings,
    'decision',
    'reason for the decision',
    'to keep in mind',
    'counted by',
  ];
}

interface Context {
  readonly notebook: Notebook;
  readonly engine: Engine;
  readonly day: SamplingDay;
  readonly columns: readonly Column[];
  readonly style: WriteStyle;
}

function dayCells(context: Context, animal: Animal): readonly WriteCell[] {
  const { notebook, engine, day, columns } = context;
  if (!isPresent(notebook, day.id, animal)) return dayHeadings(columns).map(() => null);
  const outcome = outcomeOf(notebook, day.id, engine.criteria(animal.id));
  const decision = decisionOf(notebook, day.id, animal.id);
  const epgColumn = columns.find(({ key }) => key === 'epg');
  const epg = epgColumn ? engine.value(animal.id, epgColumn.id) : null;
  const epgKnown = typeof epg === 'number' ? epg : null;
  return [
    ...columns.flatMap((column): WriteCell[] => {
      if (column.kind === 'outcome') return [outcome.kind, outcomeWhy(outcome)];
      const cell = columnCell(context, animal, column);
      return column.key === 'eggs' ? [cell, areasCounted(notebook, day.id, animal.id)] : [cell];
    }),
    ...treatmentCells(notebook, animal.id, day.date),
    decision ? (decision.treat ? 'treat' : 'leave untreated') : null,
    decision?.reason ?? null,
    animalCautions(notebook, day.id, animal, outcome, epgKnown).join(' '),
    day.countedBy ?? null,
  ];
}

function columnCell(
  { notebook, engine, day, style }: Context,
  animal: Animal,
  column: Column,
): WriteCell {
  if (column.kind === 'formula') return roundedCell(engine.value(animal.id, column.id), column);
  const reading = readingOf(notebook, day.id, animal.id, column.id);
  if (!reading) return null;
  if (reading.kind !== 'number') return reading.text;
  const mark = markOf(notebook);
  const text = reading.text.replace(mark, style === 'comma' ? '.' : ',');
  if (column.kind === 'weight') return `${text.replace(/[^\d.,]/g, '')} ${reading.unit ?? 'kg'}`;
  return /^[\d.,]+$/.test(text) ? text : { tag: text };
}

/** A figure as it is read: per gram in whole numbers, others by the column's decimals. */
function roundedCell(value: Value, { decimals, unit }: Column): WriteCell {
  if (isFault(value)) return value.sentence;
  if (typeof value !== 'number') return valueCell(value);
  if (decimals !== undefined) return Number(value.toFixed(decimals));
  return / per gram$/.test(unit ?? '') ? Math.round(value) : Number(value.toPrecision(6));
}
