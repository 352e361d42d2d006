import type { Animal, Column, Cup, Notebook, SamplingDay } from '../../shared/notebook.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ColumnId } from '../../shared/ref.ts';
import { isFault, type Value } from '../../shared/value.ts';
import { groupOn } from '../notebook/present.ts';
import type { Outcome } from '../notebook/outcome.ts';
import { aboutOf, columnsOf, readingOf } from '../notebook/read.ts';
import { electronicNumber } from '../text/electronic-number.ts';
import type { WriteCell, WriteStyle } from './write-table.ts';

/** Kilograms in a pound, exact by definition (1959). */
const kgPerLb = 0.45359237;

/** What a row of a tidy file is about, and where its figures come from. */
export interface TidyRow {
  readonly day: SamplingDay;
  /** The animal of the row; several, or none, for a cup of its own. */
  readonly animals: readonly Animal[];
  /** A cup of its own; else the row is the animal's own cup. */
  readonly cup: Cup | null;
  /** The number of the animal's own cup, where it has one. */
  readonly cupNumber: number | null;
  readonly value: (column: ColumnId) => Value;
  readonly outcome: Outcome | null;
}

/** Writes rows of one notebook as cells, in the order of `tidyHeadings`. */
export class TidyWriter {
  private readonly columns: readonly Column[];
  private readonly title: string;
  private readonly place: string;
  private readonly mark: '.' | ',';
  private readonly hasOutcome: boolean;

  constructor(
    private readonly notebook: Notebook,
    private readonly style: WriteStyle,
  ) {
    const { title, place, decimalMark } = aboutOf(notebook);
    this.columns = columnsOf(notebook);
    this.title = title ?? '';
    this.place = place ?? '';
    this.mark = decimalMark ?? '.';
    this.hasOutcome = this.columns.some(({ kind }) => kind === 'outcome');
  }

  cells(row: TidyRow): readonly WriteCell[] {
    const unread: string[] = [];
    const problems: string[] = [];
    const figures = this.columns.flatMap((column) => {
      const reading = this.readingOf(row, column);
      if (reading?.kind === 'fault') {
        unread.push(column.key);
        problems.push(`${column.key}: ${reading.reason}`);
      }
      return this.columnCells(row, column, reading, problems);
    });
    return [
      ...this.keyCells(row),
      ...this.factCells(row),
      ...figures,
      ...(this.hasOutcome ? [] : outcomeCells(row.outcome)),
      unread.join(' '),
      problems.join(' '),
    ];
  }

  private readingOf({ day, animals, cup }: TidyRow, column: Column): Reading | undefined {
    const id = cup?.id ?? animals[0]?.id ?? '';
    return readingOf(this.notebook, day.id, id, column.id);
  }

  private keyCells({ day, animals, cup, cupNumber }: TidyRow): WriteCell[] {
    return [
      this.title,
      this.place,
      day.date,
      day.label ?? '',
      { tag: animals.map(({ tag }) => tag).join('\n') },
      cup ? (cup.number ?? null) : cupNumber,
    ];
  }

  private factCells({ day, animals, cup }: TidyRow): WriteCell[] {
    const [animal] = animals.length === 1 ? animals : [];
    const sample = cup ? ['unassigned', 'recount'][animals.length] : 'animal';
    if (!animal) return [null, null, null, null, null, sample ?? 'pooled'];
    const number = animal.electronic ?? electronicNumber(animal.tag);
    return [
      number ? { tag: number } : null,
      animal.name ?? null,
      animal.species ?? null,
      animal.class ?? null,
      groupOn(this.notebook, animal.id, day.date) ?? null,
      sample ?? 'pooled',
    ];
  }

  private columnCells(
    row: TidyRow,
    column: Column,
    reading: Reading | undefined,
    problems: string[],
  ): WriteCell[] {
    switch (column.kind) {
      case 'outcome':
        return outcomeCells(row.outcome);
      case 'formula': {
        const value = row.value(column.id);
        if (isFault(value)) problems.push(`${column.key}: ${value.sentence}`);
        const figure = valueCell(value);
        return column.typedOver ? [figure, this.typedCell(reading)] : [figure];
      }
      case 'weight': {
        const isNumber = reading?.kind === 'number';
        const unit = isNumber ? (reading.unit ?? 'kg') : null;
        const kg = isNumber ? reading.value * (unit === 'lb' ? kgPerLb : 1) : null;
        return [this.typedCell(reading), unit, kg];
      }
      default:
        return [this.typedCell(reading)];
    }
  }

  /** What was typed, as it was typed; a number with the file's decimal mark. */
  private typedCell(reading: Reading | undefined): WriteCell {
    if (!reading) return null;
    if (reading.kind !== 'number') return { tag: reading.text };
    const text = reading.text.replace(this.mark, this.style === 'comma' ? '.' : ',');
    return /^[\d.,]+$/.test(text) ? text : { tag: text };
  }
}

/** A figure as a cell. A fault leaves it empty; its sentence stands in another column. */
export function valueCell(value: Value): WriteCell {
  if (value === null || isFault(value)) return null;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return value;
}

/** The outcome in one word or three, and why: reasons, what is missing, what was not looked at. */
function outcomeCells(outcome: Outcome | null): WriteCell[] {
  return outcome ? [outcome.kind, outcomeWhy(outcome)] : [null, null];
}

export function outcomeWhy({ kind, reasons, lacking, notLooked }: Outcome): string {
  if (kind === 'over') return reasons.join('; ');
  if (kind === 'not enough known')
    return lacking.length === 0 ? '' : `missing: ${lacking.join(', ')}`;
  return notLooked.length === 0 ? '' : `not looked at: ${notLooked.join(', ')}`;
}
