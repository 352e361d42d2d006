import { isFault } from '../shared/value.ts';
import { changeColumn } from '../src/notebook/edit-records.ts';
import { narrowest, widest } from './grid-layout.ts';
import type { GridModel } from './grid-model.ts';

interface ResizeHost {
  readonly model: GridModel;
  requestUpdate(): void;
}

/** Dragging the edge of a column's name: its width follows, and is one edit when let go. */
export class ColumnResize {
  constructor(private readonly host: ResizeHost) {}

  begin(at: number, event: MouseEvent): void {
    const { model } = this.host;
    const column = model.sheet.layout.columns[at];
    if (!column) return;
    const from = event.clientX;
    const before = column.width / model.scale;
    let width = before;
    const move = (moved: MouseEvent): void => {
      const dragged = (moved.clientX - from) / model.scale;
      width = Math.min(widest, Math.max(narrowest, before + dragged));
      model.widen(column.column.id, width);
      this.host.requestUpdate();
    };
    const up = (): void => {
      window.removeEventListener('mousemove', move);
      window.removeEventListener('mouseup', up);
      model.widen(null, 0);
      const edit = changeColumn(model.session.notebook, column.column.id, {
        width: Math.round(width),
      });
      if (!isFault(edit) && width !== before) void model.session.dispatch(edit);
    };
    window.addEventListener('mousemove', move);
    window.addEventListener('mouseup', up);
  }
}
