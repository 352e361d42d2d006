import type { ColumnId, DayId, RowId } from '../shared/ref.ts';

/** What was typed in one field and is not kept yet, with the place it was typed for. */
export interface CardDraft {
  readonly day: DayId;
  readonly row: RowId;
  readonly column: ColumnId;
  readonly text: string;
}

/** What is being typed on a card, each for the animal and the day it was typed for, whichever show now. */
export class CardDrafts {
  private readonly held = new Map<ColumnId, CardDraft>();

  /** All that is not kept yet, in the order of typing. */
  get all(): readonly CardDraft[] {
    return [...this.held.values()];
  }

  /** What stands in a field, if it was typed for this place. */
  textAt(day: DayId, row: RowId, column: ColumnId): string | undefined {
    const draft = this.held.get(column);
    return draft?.day === day && draft.row === row ? draft.text : undefined;
  }

  of(column: ColumnId): CardDraft | undefined {
    return this.held.get(column);
  }

  hold(draft: CardDraft): void {
    this.held.set(draft.column, draft);
  }

  /** Takes a field's draft away, to be kept or let go. */
  take(column: ColumnId): CardDraft | undefined {
    const draft = this.held.get(column);
    this.held.delete(column);
    return draft;
  }
}
