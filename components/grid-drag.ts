import type { GridHand } from './grid-hand.ts';
import { bandHeight, headHeight } from './grid-layout.ts';
import type { GridModel } from './grid-model.ts';

export interface DragHost {
  readonly model: GridModel;
  readonly hasModel: boolean;
  readonly hand: GridHand;
  readonly scroller: HTMLElement | null;
}

/** Time from one row to the next while a selection is held beyond an edge, milliseconds. */
const pause = 60;

/** A way to go on in: rows down or up, columns right or left. */
interface Beyond {
  readonly rows: -1 | 0 | 1;
  readonly columns: -1 | 0 | 1;
}

/** A selection being dragged. Held beyond an edge of what is in sight, it goes on there, cell by cell. */
export class GridDrag {
  isOn = false;
  private beyond: Beyond = { rows: 0, columns: 0 };
  private timer: ReturnType<typeof setInterval> | undefined;

  constructor(private readonly host: DragHost) {}

  begin(): void {
    this.isOn = true;
    window.addEventListener('mousemove', this.move);
    window.addEventListener('mouseup', this.end);
  }

  readonly end = (): void => {
    this.isOn = false;
    this.rest();
    window.removeEventListener('mousemove', this.move);
    window.removeEventListener('mouseup', this.end);
  };

  private rest(): void {
    clearInterval(this.timer);
    this.timer = undefined;
  }

  private readonly move = (event: MouseEvent): void => {
    if ((event.buttons & 1) === 0 || !this.host.hasModel) {
      this.end();
      return;
    }
    this.beyond = this.beyondAt(event.clientX, event.clientY);
    if (this.beyond.rows === 0 && this.beyond.columns === 0) this.rest();
    else this.timer ??= setInterval(this.goOn, pause);
  };

  /** Which edges of the cells in sight a point lies beyond; names of days, columns and animals hide cells. */
  private beyondAt(x: number, y: number): Beyond {
    const { scroller, model } = this.host;
    if (!scroller) return { rows: 0, columns: 0 };
    const box = scroller.getBoundingClientRect();
    const top = box.top + (bandHeight + headHeight) * model.scale;
    const left = box.left + model.sheet.layout.animalWidth;
    return {
      rows: y < top ? -1 : y > box.top + scroller.clientHeight ? 1 : 0,
      columns: x < left ? -1 : x > box.left + scroller.clientWidth ? 1 : 0,
    };
  }

  private readonly goOn = (): void => {
    if (!this.host.hasModel) {
      this.end();
      return;
    }
    const { hand, model } = this.host;
    const { spot } = hand;
    if (!spot) return;
    const row = spot.row + this.beyond.rows;
    const column = spot.column + this.beyond.columns;
    const { rows, layout } = model.sheet;
    const to = {
      row: Math.min(rows.length - 1, Math.max(0, row)),
      column: Math.min(layout.columns.length - 1, Math.max(0, column)),
    };
    if (to.row !== spot.row || to.column !== spot.column) hand.go(to, true);
  };
}
