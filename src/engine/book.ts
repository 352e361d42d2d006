import {
  DetailedCellError,
  ExportedCellChange,
  type ExportedChange,
  type HyperFormula,
} from 'hyperformula';
import type { Animal, Notebook } from '../../shared/notebook.ts';
import type { DayId, RowId } from '../../shared/ref.ts';
import type { Value } from '../../shared/value.ts';
import { isPresent } from '../notebook/present.ts';
import { animalOf, animalsOf } from '../notebook/read.ts';
import { rawContent, type CellContent } from './cell-content.ts';
import { isNoAnswerCell, toFault } from './cell-faults.ts';
import type { OwnInput } from './compiled.ts';
import { newCalculator } from './formula-plugin.ts';
import { headContent } from './head-feed.ts';
import { Layout } from './layout.ts';
import type { DayNode, NodeKey } from './node.ts';
import { Pace } from './pace.ts';
import { sliceClock } from './pause.ts';
import { planFor, type Plan, type PlannedNode } from './plan.ts';
import { rowContents, rowSight } from './row-feed.ts';
import type { Slots } from './slots.ts';
import { ROW } from './template.ts';

/** Rows written in one go where every go has whole lists worked out anew. */
const ROWS_UNDER_LISTS = 100;
const MOST_ANSWERS = 500;

/** A cell for one animal that came out anew. */
export interface RowCellChange {
  readonly day: DayId;
  readonly row: RowId;
  readonly node: NodeKey;
}

/**
 * One calculating engine with some days of a notebook in it. Whatever changes, the same is done: work out
 * what every cell should hold now, and write those that hold something else. Its long methods are generators
 * that pause at every `yield`, so that the same code runs in one go or in slices.
 */
export class Book {
  readonly layout = new Layout();
  plan: Plan;
  private notebook: Notebook;
  private readonly sheets = new Map<DayId, DaySheets>();
  private readonly dayOfSheet = new Map<number, DayId>();
  private held: RowId | null = null;
  private readonly pace = new Pace(sliceClock);
  /** What was asked since the last writing: the figures of a herd ask the same counts again and again. */
  private readonly answers = new Map<string, Value>();

  constructor(
    notebook: Notebook,
    private roots: readonly DayNode[],
    private readonly slots: Slots,
    private readonly calculator: HyperFormula = newCalculator(),
  ) {
    this.notebook = notebook;
    this.takeSlots();
    this.plan = planFor(notebook, roots, this.layout);
  }

  /** Brings everything in line with the notebook; `roots` are what is to be answered for. */
  *reload(notebook: Notebook, roots: readonly DayNode[]): Generator<void, RowCellChange[]> {
    this.notebook = notebook;
    this.roots = roots;
    this.takeSlots();
    this.plan = planFor(notebook, roots, this.layout);
    const changes: RowCellChange[] = [];
    yield* this.load(changes);
    return changes;
  }

  /** Also answers for these nodes from now on. */
  *extend(nodes: readonly DayNode[]): Generator<void, void> {
    this.roots = [...this.roots, ...nodes];
    this.takeSlots();
    this.plan = planFor(this.notebook, this.roots, this.layout);
    yield* this.load();
  }

  /** Writes every row and head line that is not yet as it should be; notes in `changes` what came of it. */
  *load(changes?: RowCellChange[]): Generator<void, void> {
    for (const day of this.plan.byDay.keys()) this.sheetsOf(day);
    const days = [...this.sheets.keys()];
    // Limits and protocol first: written last, they would have every row worked out twice. Lists last: written
    // first, they would be worked out anew with every chunk of rows.
    note(this.writeHeads(false), changes);
    yield;
    for (const day of days) yield* this.loadRows(day, false, changes);
    note(this.writeHeads(true), changes);
    yield;
    for (const day of days) yield* this.loadRows(day, true, changes);
  }

  /** Takes in changes of these rows, on the day given or (null) on every day loaded. */
  *refeed(
    notebook: Notebook,
    rows: ReadonlyMap<RowId, ReadonlySet<DayId> | null>,
  ): Generator<void, RowCellChange[]> {
    this.notebook = notebook;
    const grown = this.takeSlots(rows.keys());
    if (grown) return yield* this.reload(notebook, this.roots);
    const changes: RowCellChange[] = [];
    const list = [...rows];
    const hasLists = [...this.plan.nodes.values()].some((planned) => planned.late);
    for (let from = 0; from < list.length;) {
      if (from > 0) yield;
      const size = hasLists ? ROWS_UNDER_LISTS : this.pace.rows;
      const chunk = list.slice(from, from + size);
      const write = (): void => {
        for (const [row, days] of chunk) {
          for (const day of days ?? this.sheets.keys())
            if (this.sheets.has(day)) this.writeRow(day, row, true);
        }
      };
      note(
        this.pace.go(chunk.length, () => this.written(write)),
        changes,
      );
      from += chunk.length;
    }
    return changes;
  }

  /** Takes in changes of limits and protocol. */
  refeedHeads(notebook: Notebook): RowCellChange[] {
    this.notebook = notebook;
    return this.writeHeads(true);
  }

  /** Names the row of the open day that is being typed; answers with the rows to be fed anew for it. */
  hold(row: RowId | null): RowId[] {
    if (row === this.held) return [];
    const rows = [this.held, row].filter((id) => id !== null);
    this.held = row;
    return rows;
  }

  /** The same, and feeds them. */
  holdBack(day: DayId, row: RowId | null): RowCellChange[] {
    const rows = this.hold(row);
    return this.written(() => {
      for (const id of rows) this.writeRow(day, id, true);
    });
  }

  get heldRow(): RowId | null {
    return this.held;
  }

  /** Whether these nodes are all there to be asked. */
  has(nodes: readonly DayNode[]): boolean {
    return nodes.every(({ day, node }) => this.plan.nodes.has(`${day}\n${node}`));
  }

  rowValue(day: DayId, row: RowId, node: NodeKey): Value {
    const slot = this.slots.find(row);
    const sheets = this.sheets.get(day);
    if (slot === undefined || !sheets || !this.plan.nodes.has(`${day}\n${node}`)) return null;
    const col = this.layout.columnOf(node);
    return toValue(this.calculator.getCellValue({ sheet: sheets.rows, row: slot, col }));
  }

  /** What an own-row input of a formula of that day holds. */
  inputValue(day: DayId, row: RowId, { cell, address }: OwnInput): Value {
    if (cell) return this.rowValue(cell.day, row, cell.node);
    const slot = this.slots.find(row) ?? 0;
    return this.ask(day, `KNOWN(${address.replaceAll(ROW, String(slot + 1))})`);
  }

  /** A formula that stands nowhere; cells named without a sheet are of that day's row sheet. */
  ask(day: DayId, formula: string): Value {
    const key = `${day}\n${formula}`;
    const known = this.answers.get(key);
    if (known !== undefined) return known;
    const sheets = this.sheetsOf(day);
    const answer = this.calculator.calculateFormula(`=${formula}`, sheets.rows);
    const value = Array.isArray(answer) ? null : toValue(answer);
    if (this.answers.size >= MOST_ANSWERS) this.answers.clear();
    this.answers.set(key, value);
    return value;
  }

  slotOf(row: RowId): number | undefined {
    return this.slots.find(row);
  }

  close(): void {
    this.calculator.destroy();
  }

  /**
   * Writes first and works out once. (The calculator's own batches go through all that was written before
   * at every write, for an undo that is not wanted here.)
   */
  private written(write: () => void, isHeard = true): RowCellChange[] {
    this.answers.clear();
    this.calculator.suspendEvaluation();
    write();
    const written = this.calculator.resumeEvaluation();
    return isHeard ? this.rowChanges(written) : [];
  }

  private *loadRows(
    day: DayId,
    late: boolean,
    changes: RowCellChange[] | undefined,
  ): Generator<void, void> {
    const nodes = this.plan.byDay.get(day)?.rows ?? [];
    if (late && !nodes.some((planned) => planned.late)) return;
    for (let from = 0; from < this.slots.count;) {
      const end = Math.min(from + this.pace.rows, this.slots.count);
      const write = (): void => {
        for (let slot = from; slot < end; slot++)
          this.writeRow(day, this.slots.rowAt(slot) as RowId, late);
      };
      note(
        this.pace.go(end - from, () => this.written(write, changes !== undefined)),
        changes,
      );
      from = end;
      yield;
    }
  }

  /** Writes what differs in one row. Without `late`, lists and what rests on them are left for later. */
  private writeRow(day: DayId, row: RowId, late: boolean): void {
    const slot = this.slots.find(row);
    const sheets = this.sheets.get(day);
    if (slot === undefined || !sheets) return;
    const nodes = this.plan.byDay.get(day)?.rows ?? [];
    const wanted = this.wantedRow(day, row, nodes, late);
    const fed = (sheets.fed[slot] ??= []);
    let run: (null | number | boolean | string)[] = [];
    let start = 0;
    const flush = (): void => {
      if (run.length > 0)
        this.calculator.setCellContents({ sheet: sheets.rows, row: slot, col: start }, [run]);
      run = [];
    };
    for (let col = 0; col < Math.max(wanted.length, fed.length); col++) {
      const content = wanted[col] ?? null;
      if (content === LATER || content === (fed[col] ?? null)) {
        flush();
        continue;
      }
      if (run.length === 0) start = col;
      run.push(rawContent(content, slot));
      fed[col] = content;
    }
    flush();
  }

  /** By column: what the row should hold; nothing at all for an animal that is not there that day. */
  private wantedRow(
    day: DayId,
    row: RowId,
    nodes: readonly PlannedNode[],
    late: boolean,
  ): (CellContent | typeof LATER)[] {
    const animal = animalOf(this.notebook, row);
    if (!animal || !isHere(this.notebook, day, animal)) return [];
    const held = this.held === row && day === this.roots[0]?.day;
    const sight = rowSight(this.notebook, day, row, this.plan.groups, held);
    const contents = rowContents(this.notebook, day, animal, nodes, sight);
    const wanted: (CellContent | typeof LATER)[] = [];
    nodes.forEach((planned, i) => {
      const isLater = planned.late && !late;
      wanted[this.layout.columnOf(planned.node)] = isLater ? LATER : (contents[i] ?? null);
    });
    return wanted;
  }

  /** Writes head lines that differ; `figures` says whether figures too. */
  private writeHeads(figures: boolean): RowCellChange[] {
    const written = this.written(() => {
      for (const [day, sheets] of this.sheets) {
        for (const planned of this.plan.byDay.get(day)?.heads ?? []) {
          if (planned.template && !figures) continue;
          const line = this.layout.headOf(planned.node);
          const content = headContent(this.notebook, day, planned, this.layout);
          if (sheets.head[line] === content) continue;
          sheets.head[line] = content;
          const place = { sheet: sheets.heads, row: line, col: 0 };
          this.calculator.setCellContents(place, [[rawContent(content, line)]]);
        }
      }
    });
    return written;
  }

  /** Gives slots to animals that have none; true when ranges had to grow. */
  private takeSlots(rows?: Iterable<RowId>): boolean {
    if (rows) {
      for (const row of rows) {
        const animal = animalOf(this.notebook, row);
        if (animal?.tag !== undefined && animal.removed !== true) this.slots.take(row);
      }
    } else {
      for (const animal of animalsOf(this.notebook)) this.slots.take(animal.id);
    }
    return this.layout.makeRoom(this.slots.count);
  }

  private sheetsOf(day: DayId): DaySheets {
    let sheets = this.sheets.get(day);
    if (!sheets) {
      const add = (name: string): number => {
        this.calculator.addSheet(name);
        return this.calculator.getSheetId(name) as number;
      };
      sheets = {
        rows: add(this.layout.rowSheet(day)),
        heads: add(this.layout.headSheet(day)),
        fed: [],
        head: [],
      };
      this.sheets.set(day, sheets);
      this.dayOfSheet.set(sheets.rows, day);
    }
    return sheets;
  }

  private rowChanges(written: readonly ExportedChange[]): RowCellChange[] {
    const changes: RowCellChange[] = [];
    for (const change of written) {
      if (!(change instanceof ExportedCellChange)) continue;
      const { sheet, row: slot, col } = change.address;
      const day = this.dayOfSheet.get(sheet);
      const row = this.slots.rowAt(slot);
      const node = this.layout.nodeAt(col);
      if (day !== undefined && row !== undefined && node !== undefined)
        changes.push({ day, row, node });
    }
    return changes;
  }
}

function note(written: readonly RowCellChange[], changes: RowCellChange[] | undefined): void {
  for (const change of written) changes?.push(change);
}

/** In the plan, but not to be written yet. */
const LATER = Symbol('later');

interface DaySheets {
  readonly rows: number;
  readonly heads: number;
  /** What was last written, by slot and column. */
  readonly fed: CellContent[][];
  /** What was last written, by line. */
  readonly head: CellContent[];
}

function isHere(notebook: Notebook, day: DayId, animal: Animal): boolean {
  return animal.tag !== undefined && animal.removed !== true && isPresent(notebook, day, animal);
}

/** A value of the calculating engine as ours. */
function toValue(value: unknown): Value {
  if (value instanceof DetailedCellError) return isNoAnswerCell(value) ? null : toFault(value);
  if (typeof value === 'number' || typeof value === 'boolean') return value;
  return typeof value === 'string' && value !== '' ? value : null;
}
