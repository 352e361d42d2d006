import { html, nothing, type TemplateResult } from 'lit';
import { classMap } from 'lit/directives/class-map.js';
import { styleMap } from './style-map.ts';
import type { CellText } from './grid-cell-text.ts';
import { hasRoomForUnit, type GridColumn, type GridDay } from './grid-layout.ts';
import type { GridRow, Sort } from './grid-rows.ts';
import { say } from '../src/text/say.ts';

/** What a row is drawn from. `at` is its place, the first animal 0. */
export interface RowDrawn {
  readonly row: GridRow;
  readonly at: number;
  readonly rowHeight: number;
  /** How much larger than usual text is written. */
  readonly scale: number;
  readonly columns: readonly GridColumn[];
  readonly animalWidth: number;
  readonly text: (column: GridColumn) => CellText;
  /** Columns `[from, to]` of this row that are selected. */
  readonly selected: readonly [number, number] | null;
}

/** Names a row's element, so that it is found without searching all cells. */
export function rowElementId(row: string): string {
  return `row-${row}`;
}

export function rowTemplate(drawn: RowDrawn): TemplateResult {
  const { row, at, columns, selected } = drawn;
  return html`<div
    role="row"
    class=${row.isPresent ? 'row' : 'row away'}
    aria-rowindex=${at + 2}
    id=${rowElementId(row.id)}
    data-row=${row.id}
    style=${styleMap({ top: `${at * drawn.rowHeight}px` })}
  >
    <div
      role="rowheader"
      class=${isAnimalCut(row, drawn.animalWidth / drawn.scale) ? 'animal cut' : 'animal'}
      aria-colindex="1"
      title=${row.name || nothing}
    >
      <span class="tag">${row.tag}</span> <span class="group">${row.group}</span>
    </div>
    ${columns.map((column, i) =>
      cellTemplate(
        row,
        column,
        i,
        drawn.text(column),
        drawn.scale,
        selected !== null && i >= selected[0] && i <= selected[1],
      ),
    )}
  </div>`;
}

function cellTemplate(
  row: GridRow,
  column: GridColumn,
  i: number,
  cell: CellText,
  scale: number,
  isSelected: boolean,
): TemplateResult {
  const isWorked = column.isOpen && !column.isTypable;
  const isCut = mayBeCut(cell, column.width / scale);
  const isStacked = isCut || cell.note !== undefined || isChip(cell);
  // One word for all: of all attributes, a map of classes is the dearest to draw.
  const classes = `cell${column.isOpen ? '' : ' past'}${cell.align === 'start' ? ' start' : ''}${isWorked ? ' worked' : ''}${cell.heat === undefined ? '' : ' heat'}${isStacked ? ' stacked' : ''}${isCut ? ' cut' : ''}`;
  return html`<div
    role="gridcell"
    class=${classes}
    aria-colindex=${i + 2}
    aria-readonly=${column.isTypable ? nothing : 'true'}
    aria-selected=${isSelected ? 'true' : nothing}
    aria-label=${cell.look === 'soft' ? (cell.spoken ?? nothing) : nothing}
    data-animal=${row.tag}
    data-day=${column.day}
    data-column=${column.column.key}
    data-at-column=${i}
    title=${cell.reason ?? nothing}
    style=${styleMap(cell.heat === undefined ? unshaded : { '--heat': shade(cell.heat) })}
  >
    ${!isStacked && isBare(cell) ? cell.text : textTemplate(cell)}
  </div>`;
}

/** Most cells are a few digits or empty: they need no element of their own around them. */
function isBare({ look, text }: CellText): boolean {
  return look === 'plain' || text === '';
}

const unshaded = {};

/** Pixels that signs take at most, at the usual size of text, bold too. */
const signs = { digit: 9.5, letter: 11, wide: 15, square: 18 } as const;

/** Room that a text may take, pixels. Rather too much: a text that is cut off needlessly looks as before. */
function roomFor(text: string): number {
  let room = 0;
  for (const sign of text)
    if (/[\d\s.,:–·-]/.test(sign)) room += signs.digit;
    else if (/[MWmw@%]/.test(sign)) room += signs.wide;
    else room += sign < '\u2e80' ? signs.letter : signs.square;
  return room;
}

function noteOf({ note, shortNote }: CellText): string | undefined {
  return shortNote ?? note;
}

function isChip({ look }: CellText): boolean {
  return look === 'over' || look === 'open';
}

/** What is written smaller takes of the room of usual text, and what stands around it, pixels. */
const written = {
  plain: { size: 1, around: 20 },
  chip: { size: 0.87, around: 36 },
  note: { size: 0.8, around: 6 },
} as const;

/**
 * Whether a cell's text may be wider than the cell, so that it has to be cut off at its edge. Every edge that
 * cuts is one more thing to draw, and most cells hold a few digits that need none.
 */
function mayBeCut(cell: CellText, width: number): boolean {
  const { text } = cell;
  const note = noteOf(cell);
  const isNoteCut = note !== undefined && isWide(note, written.note, width);
  return isNoteCut || isWide(text, isChip(cell) ? written.chip : written.plain, width);
}

function isWide(
  text: string,
  { size, around }: (typeof written)['plain' | 'chip' | 'note'],
  width: number,
): boolean {
  // Most are so short that their signs need no look.
  if (text.length * signs.square * size + around <= width) return false;
  return roomFor(text) * size + around > width;
}

/** The same of tag and group beside each other, the group written smaller. */
function isAnimalCut({ tag, group }: GridRow, width: number): boolean {
  return roomFor(tag) + 0.82 * roomFor(group) + 27 > width;
}

function shade(heat: number): string {
  return `${Math.round(heat * 100)}%`;
}

function textTemplate(cell: CellText): TemplateResult {
  const note = noteOf(cell);
  return html`${wordTemplate(cell)}${note === undefined ? nothing : html` <small>${note}</small>`}`;
}

function wordTemplate({ look, text, spoken }: CellText): TemplateResult {
  if (look === 'over') return html`<span class="chip over">${text}</span>`;
  if (look === 'open') return html`<span class="chip open">${text}</span>`;
  if (look === 'struck') return html`<s>${text}</s>`;
  if (look === 'fault') return html`<span class="wrong">${text}</span>`;
  if (spoken !== undefined && look === 'soft')
    return html`<span class="soft" aria-hidden="true">${text}</span>`;
  return html`<span class=${look}>${text}</span>`;
}

const animalWord = say('animal');
const openWord = say('· open');

/** The line of column names. `dayName` tells the columns of other days apart for screen readers. */
export function headTemplate(
  columns: readonly GridColumn[],
  days: readonly GridDay[],
  sort: Sort,
): TemplateResult {
  const names = new Map(days.map((day) => [day.id, day.name]));
  const byTag = sort.by === 'order' || sort.by === 'tag';
  return html`<div role="row" class="head" aria-rowindex="1">
    <div
      role="columnheader"
      class="animal"
      aria-colindex="1"
      aria-sort=${byTag && sort.by === 'tag' ? direction(sort) : nothing}
    >
      ${animalWord}
    </div>
    ${columns.map((column, i) => {
      const { label = column.column.key, unit } = column.column;
      const isSorted = typeof sort.by === 'object' && sort.by.column === column.column.id;
      return html`<div
        role="columnheader"
        class=${classMap({
          cell: true,
          past: !column.isOpen,
          start: startsLeft(column),
        })}
        aria-colindex=${i + 2}
        aria-sort=${isSorted && column.isOpen ? direction(sort) : nothing}
        title=${column.column.help ?? nothing}
        data-head=${i}
      >
        ${
          column.isOpen
            ? nothing
            : html`<span class="visually-hidden">${names.get(column.day) ?? ''} </span>`
        }<span class="label">${label}</span>${
          unit && column.isOpen
            ? html` <small
                class=${hasRoomForUnit(column.column, column.width) ? 'unit' : 'visually-hidden'}
                >${unit}</small
              >`
            : nothing
        }${
          isSorted && column.isOpen
            ? html`<span class="sorted" aria-hidden="true">${sort.isDescending ? '↓' : '↑'}</span>`
            : nothing
        }<span class="grip" data-grip=${i} aria-hidden="true"></span>
      </div>`;
    })}
  </div>`;
}

function direction(sort: Sort): 'ascending' | 'descending' {
  return sort.isDescending ? 'descending' : 'ascending';
}

function startsLeft({ column }: GridColumn): boolean {
  return column.kind === 'text' || column.kind === 'choice' || column.kind === 'outcome';
}

/** What the line of days reports: a day to open, or how much of it to show. */
export interface BandHeard {
  readonly open: (day: GridDay) => void;
  readonly fold: (day: GridDay) => void;
}

/** The line of sampling days over their columns. Arrow keys move in it, see {@link onBandKey}. */
export function bandTemplate(
  days: readonly GridDay[],
  heard: BandHeard,
  tabStop: number,
): TemplateResult {
  return html`${days.map((day, i) => {
    const isAll = day.fold === 'columns';
    const more = isAll
      ? say('Show epg alone of {name}', { name: day.name })
      : say('Show all columns of {name}', { name: day.name });
    return html`<div
      class=${day.isOpen ? 'day open' : 'day'}
      style=${styleMap({ left: `${day.left}px`, width: `${day.width}px` })}
    >
      <button
        class="quiet name"
        tabindex=${i === tabStop ? 0 : -1}
        aria-current=${day.isOpen ? 'date' : nothing}
        aria-label=${day.isOpen ? say('{name}, open', { name: day.name }) : say('Open {name}', { name: day.name })}
        @click=${() => heard.open(day)}
      >
        ${day.name}${day.isOpen && isAll ? html`<span class="is-open"> ${openWord}</span>` : nothing}
      </button>
      <button
        class="quiet fold"
        tabindex="-1"
        aria-label=${more}
        aria-expanded=${isAll ? 'true' : 'false'}
        title=${more}
        @click=${() => heard.fold(day)}
      >
        <span aria-hidden="true">${isAll ? '‹' : '›'}</span>
      </button>
    </div>`;
  })}`;
}

/** Arrows, Home and End among the buttons of a toolbar with one tab stop. */
export function onBandKey(event: KeyboardEvent): void {
  const band = event.currentTarget;
  if (!(band instanceof HTMLElement)) return;
  const buttons = [...band.querySelectorAll('button')];
  const at = buttons.indexOf(event.target as HTMLButtonElement);
  const to: Readonly<Record<string, number>> = {
    ArrowLeft: at - 1,
    ArrowRight: at + 1,
    Home: 0,
    End: buttons.length - 1,
  };
  const next = buttons[to[event.key] ?? -1];
  if (!next) return;
  event.preventDefault();
  for (const button of buttons) button.tabIndex = button === next ? 0 : -1;
  next.focus();
}
