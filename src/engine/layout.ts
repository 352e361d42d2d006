import type { DayId } from '../../shared/ref.ts';
import type { NodeKey } from './node.ts';
import { ROW, Template } from './template.ts';

/** Ranges cover this many slots, and the next so many once they are full. */
const STEP = 64;

/**
 * Where things stand in the calculating engine: every day has a sheet of rows (a row for each slot, a
 * column for each column of the notebook, fact and criterion) and a sheet of head lines (limits, protocol,
 * figures). Places are given out once and kept, so nothing is ever moved, inserted or removed.
 */
export class Layout {
  private readonly days = new Map<DayId, number>();
  private readonly columns = new Map<NodeKey, number>();
  private readonly heads = new Map<NodeKey, number>();
  private readonly nodes: NodeKey[] = [];
  private readonly templates = new Map<string, Template>();
  private slots = STEP;

  /** Number of slots that ranges cover. */
  get capacity(): number {
    return this.slots;
  }

  /** Makes room for so many slots; true when ranges had to grow. */
  makeRoom(slots: number): boolean {
    const needed = Math.max(STEP, Math.ceil(slots / STEP) * STEP);
    if (needed <= this.slots) return false;
    this.slots = needed;
    return true;
  }

  rowSheet(day: DayId): string {
    return `day${this.dayIndex(day)}`;
  }

  headSheet(day: DayId): string {
    return `head${this.dayIndex(day)}`;
  }

  /** Index of a node's column in every row sheet, from 0. */
  columnOf(node: NodeKey): number {
    const column = placeIn(this.columns, node);
    this.nodes[column] = node;
    return column;
  }

  /** What stands in a column of the row sheets. */
  nodeAt(column: number): NodeKey | undefined {
    return this.nodes[column];
  }

  /** The formula as a template: one object for one text. */
  template(text: string): Template {
    let template = this.templates.get(text);
    if (!template) this.templates.set(text, (template = new Template(text)));
    return template;
  }

  /** Index of a node's line in every head sheet, from 0. */
  headOf(node: NodeKey): number {
    return placeIn(this.heads, node);
  }

  /** `C<row>`, or with the sheet's name where the formula stands elsewhere. */
  rowCell(day: DayId, node: NodeKey, home: string | null, row = ROW): string {
    return this.from(this.rowSheet(day), home) + letters(this.columnOf(node)) + row;
  }

  /** `$C$1:$C$64`: a column over all slots. */
  range(day: DayId, node: NodeKey, home: string | null): string {
    const column = letters(this.columnOf(node));
    return `${this.from(this.rowSheet(day), home)}$${column}$1:$${column}$${this.slots}`;
  }

  /** `head0!$A$3`. */
  headCell(day: DayId, node: NodeKey, home: string | null): string {
    return `${this.from(this.headSheet(day), home)}$A$${this.headOf(node) + 1}`;
  }

  private from(sheet: string, home: string | null): string {
    return sheet === home ? '' : `${sheet}!`;
  }

  private dayIndex(day: DayId): number {
    return placeIn(this.days, day);
  }
}

function placeIn<K>(places: Map<K, number>, key: K): number {
  let place = places.get(key);
  if (place === undefined) places.set(key, (place = places.size));
  return place;
}

/** A, B, … Z, AA, AB, … */
function letters(index: number): string {
  const rest = Math.floor(index / 26);
  return (rest > 0 ? letters(rest - 1) : '') + String.fromCharCode(65 + (index % 26));
}
