/** Stands for the row number in a formula that is the same in every row. */
export const ROW = '\u0001';

/** A formula that is the same in every row but for the row's number. */
export class Template {
  private readonly parts: readonly string[];

  constructor(readonly text: string) {
    this.parts = text.split(ROW);
  }

  /** The formula of one slot (from 0). */
  at(slot: number): string {
    return `=${this.parts.join(String(slot + 1))}`;
  }
}
