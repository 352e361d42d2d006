import { GridDrag, type DragHost } from './grid-drag.ts';
import type { GridMenus } from './grid-menus.ts';
import type { Spot } from './grid-place.ts';
import { ColumnResize } from './grid-resize.ts';
import { naming } from './naming.ts';
import { offeredName } from './offered-name.ts';

export interface MouseHost extends EventTarget, DragHost {
  say(sentence: string): void;
  requestUpdate(): void;
}

/** What was pressed: a cell, the name of an animal, or the name of a column. */
type Under =
  | { readonly on: 'cell'; readonly spot: Spot }
  | { readonly on: 'animal'; readonly row: number }
  | { readonly on: 'head'; readonly column: number }
  | { readonly on: 'grip'; readonly column: number }
  | null;

/** Mouse and touch in the grid: presses, drags and double clicks, heard once for all cells. */
export class GridMouse {
  private readonly drag: GridDrag;
  /** The cell pressed had the focus before: a second tap opens its choices. */
  private wasActive = false;
  private readonly resize: ColumnResize;

  constructor(
    private readonly host: MouseHost,
    private readonly menus: GridMenus,
  ) {
    this.drag = new GridDrag(host);
    this.resize = new ColumnResize(host);
  }

  readonly down = (event: MouseEvent): void => {
    if (event.button !== 0 || isOwnControl(event)) return;
    const under = this.under(event);
    if (!under) return;
    const { hand } = this.host;
    // Keeps the focus where it is; it is moved by us, within this same touch.
    event.preventDefault();
    this.menus.close();
    if (naming.isOn) {
      const name = offeredName(this.host.model, under);
      if (name !== null) naming.offer(name);
      return;
    }
    if (under.on === 'grip') {
      this.resize.begin(under.column, event);
      return;
    }
    if (!hand.commit()) return;
    hand.endTabRun();
    if (under.on === 'cell') {
      const { spot } = hand;
      this.wasActive = spot?.row === under.spot.row && spot.column === under.spot.column;
      this.drag.begin();
      hand.go(under.spot, event.shiftKey);
    } else if (under.on === 'animal') {
      hand.go({ row: under.row, column: hand.spot?.column ?? 0 }, event.shiftKey);
      hand.select('rows');
    }
  };

  readonly move = (event: MouseEvent): void => {
    if (!this.drag.isOn || (event.buttons & 1) === 0) return;
    const under = this.under(event);
    const { hand } = this.host;
    if (under?.on !== 'cell') return;
    const { spot } = hand;
    if (spot?.row !== under.spot.row || spot.column !== under.spot.column)
      hand.go(under.spot, true);
  };

  readonly click = (event: MouseEvent): void => {
    this.drag.end();
    if (isOwnControl(event) || naming.isOn) return;
    const under = this.under(event);
    if (under?.on === 'animal') {
      const row = this.host.model.sheet.rows[under.row]?.id;
      if (row !== undefined)
        this.host.dispatchEvent(
          new CustomEvent('sd-show-animal', { detail: { row }, bubbles: true, composed: true }),
        );
    } else if (under?.on === 'head') {
      this.menus.openColumn(under.column);
    } else if (under?.on === 'cell' && this.wasActive) {
      if (this.menus.choices().length > 0) this.menus.openChoices();
    }
  };

  readonly double = (event: MouseEvent): void => {
    const under = this.under(event);
    if (under?.on !== 'cell' || isOwnControl(event)) return;
    if (this.menus.choices().length > 0) return;
    this.host.hand.run({ do: 'edit' });
  };

  readonly context = (event: MouseEvent): void => {
    const under = this.under(event);
    if (under?.on !== 'head') return;
    event.preventDefault();
    this.menus.openColumn(under.column);
  };

  /** Goes to an animal's row, in the column that has the focus. */
  toRow(row: string): void {
    const at = this.host.model.sheet.rowIndex.get(row);
    const { hand } = this.host;
    if (at !== undefined) hand.go({ row: at, column: hand.spot?.column ?? 0 }, false, false);
  }

  private under(event: MouseEvent): Under {
    const { model } = this.host;
    for (const target of event.composedPath()) {
      if (!(target instanceof HTMLElement)) continue;
      const { grip, head, atColumn } = target.dataset;
      if (grip !== undefined) return { on: 'grip', column: Number(grip) };
      if (head !== undefined) return { on: 'head', column: Number(head) };
      const rowId = target.closest<HTMLElement>('[data-row]')?.dataset['row'];
      const row = rowId === undefined ? undefined : model.sheet.rowIndex.get(rowId);
      if (row === undefined) continue;
      if (atColumn !== undefined) return { on: 'cell', spot: { row, column: Number(atColumn) } };
      if (target.role === 'rowheader') return { on: 'animal', row };
    }
    return null;
  }
}

/** Presses inside the editor, a button or a menu are their own. */
function isOwnControl(event: Event): boolean {
  const target = event.composedPath()[0];
  return (
    target instanceof Element && target.closest('input, button, [role="listbox"], dialog') !== null
  );
}
