import type { Edit } from '../shared/edit.ts';
import type { Words } from './announcer.ts';
import { cupSentence } from './cup-sentence.ts';
import { cupState } from './cup-state.ts';
import type { CellEditor } from './cell-editor.ts';
import { clearEdit, fillDownEdit, textToEdit, typedEdit } from './grid-edits.ts';
import { nextEmpty } from './grid-empty.ts';
import type { Command } from './grid-keys.ts';
import type { GridColumn } from './grid-layout.ts';
import type { GridModel } from './grid-model.ts';
import { firstCount, insteadOf, moved, nextTypable } from './grid-moves.ts';
import { placeAt, samePlace, spotOf, type Block, type Place, type Spot } from './grid-place.ts';
import { cellsIn, GridSelection, type Reach } from './grid-selection.ts';
import { chosenSentence, letGoSentence, undoSentence, whyNotTyped } from './grid-sentences.ts';
import { say } from '../src/text/say.ts';

/** What the hand needs of the element it works in. */
export interface HandHost {
  readonly model: GridModel;
  readonly hasModel: boolean;
  readonly editor: CellEditor;
  /** Whole rows in sight. */
  readonly page: number;
  /** Brings a cell in sight. */
  show(spot: Spot): void;
  /** Puts the editor where the focus now is and draws what is due. */
  settle(focus: boolean): void;
  say(sentence: Words): void;
  /** The focus has gone to another cell. */
  moved(place: Place): void;
}

/**
 * The hand in the grid: which cell has the focus, what is selected, and what a command does. The
 * focus is an animal, a day and a column, never a place on the screen, so that it stays with its
 * animal when rows are sorted, scrolled or taken away.
 */
export class GridHand {
  active: Place | null = null;
  private readonly selection = new GridSelection();
  /** Where the active cell was last seen, for when its row or column is gone. */
  private lastSpot: Spot = { row: 0, column: 0 };
  /** Column in which a run of Tabs began: Enter goes back under it. */
  private tabRun: Pick<Place, 'day' | 'column'> | null = null;

  constructor(private readonly host: HandHost) {}

  private get model(): GridModel {
    return this.host.model;
  }

  get spot(): Spot | null {
    return this.active && spotOf(this.model.sheet, this.active);
  }

  get column(): GridColumn | undefined {
    const { spot } = this;
    return spot ? this.model.sheet.layout.columns[spot.column] : undefined;
  }

  /** The selected cells; the active one alone when nothing more is. */
  get block(): Block | null {
    const { spot } = this;
    if (!spot) return null;
    return this.selection.block(this.model.sheet, spot);
  }

  get isOneCell(): boolean {
    const { block } = this;
    return !block || cellsIn(block) === 1;
  }

  /**
   * After rows or columns changed: the focus stays with its cell, else goes to what took its place;
   * at first, and when another day is opened, to the first count of the open day. While no day is
   * open no cell shows, and nothing moves.
   */
  keep(): void {
    const { sheet, openDay } = this.model;
    const { spot } = this;
    if (openDay === null) return;
    if (spot) {
      this.lastSpot = spot;
      return;
    }
    if (sheet.rows.length === 0 || sheet.layout.columns.length === 0) {
      this.letGo();
      this.active = null;
      return;
    }
    this.set(insteadOf(sheet, this.active, this.lastSpot));
  }

  /** Another notebook is shown: nothing of the hand belongs there. */
  beginAnew(): void {
    this.letGo();
    this.active = null;
    this.lastSpot = { row: 0, column: 0 };
    this.tabRun = null;
  }

  /** Another day was opened: the same animal, at its first count there. */
  toOpenDay(): void {
    const row = this.spot?.row ?? this.lastSpot.row;
    const { rows, layout } = this.model.sheet;
    if (rows.length > 0)
      this.set({ row: Math.min(row, rows.length - 1), column: firstCount(layout) });
  }

  /** The same day is open again, in a session of its own: what is being typed goes on in its cell. */
  comeBack(): void {
    const { spot, active } = this;
    if (!spot || !active || active.day !== this.model.openDay) {
      this.toOpenDay();
      return;
    }
    const { editor } = this.host;
    if (editor.editing === 'no') return;
    this.began();
    if (editor.isFocusFree) this.host.settle(true);
  }

  /** What is being typed never goes along to another cell: the edit ends, and what it was is said. */
  private letGo(): void {
    const { editor } = this.host;
    if (editor.editing === 'no') return;
    const { text, isChanged } = editor;
    const { active } = this;
    editor.end();
    if (this.host.hasModel && active && isChanged && text.trim() !== '')
      this.host.say(letGoSentence(this.model, active, text));
  }

  private activate(place: Place): void {
    if (!samePlace(place, this.active)) this.letGo();
    this.active = place;
  }

  private set(spot: Spot): void {
    const place = placeAt(this.model.sheet, spot);
    if (!place) return;
    this.activate(place);
    this.selection.only(place);
    this.lastSpot = spot;
    this.host.moved(place);
  }

  /** Moves the focus; `extend` keeps the other corner of the selection. */
  go(spot: Spot, extend = false, focus = true): void {
    const place = placeAt(this.model.sheet, spot);
    if (!place) return;
    const isMove = !samePlace(place, this.active);
    this.activate(place);
    this.lastSpot = spot;
    if (!extend) this.selection.only(place);
    const { typingRow } = this.model.session;
    if (typingRow !== null && typingRow !== place.row) this.leaveRow();
    if (isMove) this.host.moved(place);
    this.host.settle(focus);
    this.host.show(spot);
  }

  select(reach: Reach): void {
    this.selection.widen(reach);
    this.host.settle(true);
    if (this.block) this.host.say(chosenSentence(this.block));
  }

  selectBlock(block: Block): void {
    const { sheet } = this.model;
    const corner = { row: block.rows[1], column: block.columns[1] };
    this.go({ row: block.rows[0], column: block.columns[0] });
    this.selection.upTo(placeAt(sheet, corner));
    this.host.settle(true);
  }

  /** Enter goes straight down again: the hand was put somewhere else. */
  endTabRun(): void {
    this.tabRun = null;
  }

  /** Brings the active cell in sight: it may have been scrolled away, or sorted elsewhere. */
  reveal(): void {
    const { spot } = this;
    if (spot) this.host.show(spot);
  }

  /** The row being typed in is left: its lone chamber counts from now on. */
  leaveRow(): void {
    const { model } = this;
    const row = model.session.typingRow;
    if (row === null) return;
    model.touch(row);
    void model.session.enterRow(null).then(() => {
      model.touch(row);
      this.host.settle(false);
    });
  }

  /** Focus has left the grid: what was typed is kept. */
  leave(): void {
    this.commit();
    this.tabRun = null;
    this.leaveRow();
    this.host.settle(false);
  }

  run(command: Command): void {
    switch (command.do) {
      case 'move':
        this.tabRun = null;
        if (this.spot)
          this.go(moved(this.model.sheet, this.spot, command.way, this.host.page), command.extend);
        break;
      case 'next empty':
        this.toNextEmpty(command.way, command.extend);
        break;
      case 'commit':
        this.commitAnd(command.then);
        break;
      case 'edit':
        this.edit();
        break;
      case 'cancel':
        this.cancel();
        break;
      case 'clear':
        this.clear();
        break;
      case 'fill down':
        this.fillDown();
        break;
      case 'undo':
      case 'redo':
        void this.takeBack(command.do);
        break;
      case 'select all':
        this.select('all');
        break;
      case 'select row':
        this.select('rows');
        break;
      case 'select column':
        this.select('columns');
        break;
      default:
        break;
    }
  }

  /** Whether this cell may be typed into; says why not. */
  mayType(): boolean {
    const { column } = this;
    if (column?.isTypable) return true;
    if (column) this.host.say(whyNotTyped(this.model, column));
    return false;
  }

  edit(): void {
    if (!this.active || !this.mayType()) return;
    this.host.editor.begin('opened', textToEdit(this.model.session.notebook, this.active));
    this.began();
  }

  /** An edit has begun: the row is being typed in from now on. */
  began(): void {
    const { active } = this;
    const { session } = this.model;
    this.reveal();
    if (!active || session.typingRow === active.row) return;
    const former = session.typingRow;
    void session.enterRow(active.row);
    // Rows whose one chamber counts, or no longer counts, with the hand in them; of others nothing changes to the eye.
    const other = [former, active.row].filter((row) => row !== null && this.isHeldBack(row));
    for (const row of other) if (row !== null) this.model.touch(row);
    const isSame = other.length === 0 && this.isOneCell;
    this.selection.only(active);
    if (!isSame) this.host.settle(false);
  }

  private isHeldBack(row: string): boolean {
    const { session } = this.model;
    return cupState(session.notebook, session.openDay ?? '', row).onlySoFar !== null;
  }

  private cancel(): void {
    const { editor } = this.host;
    if (editor.editing !== 'no') {
      editor.end();
      if (this.active) this.model.touch(this.active.row);
    } else {
      this.selection.only(this.active);
    }
    this.host.settle(true);
  }

  /** Takes what is in the editor into the notebook; false where another tab writes, so that it stays in its cell. */
  commit(): boolean {
    const { editor } = this.host;
    if (editor.editing === 'no') return true;
    const { text, isChanged } = editor;
    const isRefused = isChanged && !this.model.session.isWriting;
    if (!isRefused) editor.end();
    // Refused it is with a sentence, and what to do.
    if (isChanged) this.type(text);
    return !isRefused;
  }

  /** What is being typed and is not kept yet. */
  get typed(): (Place & { readonly text: string }) | null {
    const { editor } = this.host;
    const isTyped = this.active && editor.editing !== 'no' && editor.isChanged;
    return isTyped && this.active ? { ...this.active, text: editor.text } : null;
  }

  /** Types a text into the active cell, as one edit. */
  type(text: string): void {
    const { active, column, model } = this;
    const { session } = model;
    if (!active || !column) return;
    const { edit, reading } = typedEdit(session.notebook, active, column.column, text);
    model.touch(active.row);
    void session.dispatch(edit).then((transaction) => {
      if (reading?.kind === 'fault') this.host.say(reading.reason);
      else if (transaction) this.host.say(() => cupSentence(session, active.row));
    });
    this.host.settle(false);
  }

  private commitAnd(then: Extract<Command, { do: 'commit' }>['then']): void {
    const { spot, active } = this;
    if (!this.commit() || !spot || !active) return;
    const { sheet } = this.model;
    if (then === 'next' || then === 'previous') {
      this.tabRun ??= { day: active.day, column: active.column };
      this.go(nextTypable(sheet, spot, then === 'next' ? 1 : -1));
      return;
    }
    const from = then === 'down' && this.tabRun ? this.underTabRun(spot) : spot;
    this.tabRun = null;
    this.go(moved(sheet, from, then, this.host.page));
  }

  private underTabRun(spot: Spot): Spot {
    const { active, tabRun } = this;
    const began = active && tabRun && spotOf(this.model.sheet, { ...active, ...tabRun });
    return began ?? spot;
  }

  private toNextEmpty(way: 'left' | 'right' | 'up' | 'down', extend: boolean): void {
    const { spot } = this;
    if (!spot) return;
    this.tabRun = null;
    const { sheet, session } = this.model;
    const found = nextEmpty(sheet, session, spot, way);
    if (found) this.go(found, extend);
    else this.host.say(say('No empty count further that way.'));
  }

  private clear(): void {
    const { block } = this;
    const { sheet, session } = this.model;
    if (!block) return;
    this.reveal();
    if (this.isOneCell && !this.mayType()) return;
    const edit = clearEdit(session.notebook, sheet, block);
    if (edit) this.dispatch(edit, say('Cleared.'));
  }

  private fillDown(): void {
    const { block } = this;
    const { sheet, session } = this.model;
    if (!block) return;
    const edit = fillDownEdit(session.notebook, sheet, block);
    if (edit)
      this.dispatch(
        edit,
        say('Filled down: {n, plural, one {# cell} other {# cells}}.', { n: edit.sets.length }),
      );
    else if (this.mayType()) this.host.say(say('No row stands above to be filled down from.'));
  }

  dispatch(edit: Edit, sentence: string): void {
    const rows = new Set(edit.sets.map((set) => set.path[2]));
    for (const row of rows) this.model.touch(row);
    const { session } = this.model;
    void session.dispatch(edit).then(() => {
      // Refused, another sentence says why.
      if (session.isWriting) this.host.say(sentence);
    });
    this.host.settle(true);
  }

  private async takeBack(which: 'undo' | 'redo'): Promise<void> {
    const { session } = this.model;
    const done = which === 'undo' ? await session.undo() : await session.redo();
    this.host.say(undoSentence(which, done));
  }
}
