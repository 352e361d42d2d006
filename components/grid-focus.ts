import type { CellEditor } from './cell-editor.ts';
import { rowElementId } from './grid-cells.ts';
import type { GridHand } from './grid-hand.ts';
import type { GridModel } from './grid-model.ts';
import { spotOf } from './grid-place.ts';
import { cellName } from './grid-sentences.ts';
import { nextFrame } from './next-frame.ts';

export interface FocusHost {
  readonly model: GridModel;
  readonly hasModel: boolean;
  readonly hand: GridHand;
  readonly editor: CellEditor;
  readonly shadowRoot: ShadowRoot | null;
  requestUpdate(): void;
}

/** Brings the editor, and with it the focus, to the active cell: with the next drawing where that can wait. */
export class GridFocus {
  /** The editor is being moved: that it loses the focus on the way means nothing. */
  isPlacing = false;
  /** The next drawing takes the focus along. */
  isDue = false;
  private fallsDue = (): void => undefined;

  constructor(private readonly host: FocusHost) {}

  settle(focus: boolean): void {
    const { editor } = this.host;
    this.host.requestUpdate();
    if (!focus) return;
    this.isDue = true;
    // A focus that comes from elsewhere is taken within the same touch: else a phone shows no keyboard.
    if (!editor.isFocused) {
      this.place();
      return;
    }
    // Drawing brings the focus along, so that the page is laid out once for both.
    this.prepare();
    this.fallsDue();
  }

  /** Resolves just before the next frame; where a drawing is to take the focus along, no frame is waited for. */
  async turn(): Promise<void> {
    if (this.isDue) return;
    const due = new Promise<void>((resolve) => {
      this.fallsDue = resolve;
    });
    await Promise.race([nextFrame(), due]);
  }

  /** What the next key needs to know of the cell, should it come before the drawing. */
  private prepare(): void {
    const { column } = this.host.hand;
    if (column) this.host.editor.prepare(column.column, column.isTypable);
  }

  /** Puts the editor into the active cell, and names it. */
  place(): void {
    this.isPlacing = true;
    this.placeNow();
    this.isPlacing = false;
  }

  private placeNow(): void {
    const { editor, hasModel, shadowRoot } = this.host;
    const { active } = this.host.hand;
    const model = hasModel ? this.host.model : null;
    const spot = active && model && spotOf(model.sheet, active);
    const row = spot && shadowRoot?.getElementById(rowElementId(active.row));
    const cell = spot && (row?.children[spot.column + 1] as HTMLElement | undefined);
    const column = spot && model?.sheet.layout.columns[spot.column];
    if (!model || !cell || !column || !active) {
      // A row that is not drawn yet gets the focus with the drawing that brings it.
      if (spot) return;
      this.isDue = false;
      editor.place(null);
      return;
    }
    const text = model.cell(model.source(active.row), column);
    editor.prepare(column.column, column.isTypable);
    editor.name(cellName(model, active.row, column, text));
    const reason = shadowRoot?.getElementById('reason');
    if (reason) reason.textContent = text.reason ?? '';
    editor.input.toggleAttribute('aria-invalid', text.look === 'fault');
    editor.input.setAttribute('aria-describedby', 'reason');
    editor.place(cell, this.isDue);
    this.isDue = false;
  }
}
