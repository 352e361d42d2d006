/** What the page says at its foot, and to a screen reader, until the next thing is done. */
export interface PageMessage {
  readonly sentence: string;
  /** Offer to take back what the sentence is about. */
  readonly canUndo: boolean;
}

/** Asks the page around an element to say something. */
export function tell(from: HTMLElement, sentence: string, undo?: 'with undo'): void {
  const detail: PageMessage = { sentence, canUndo: undo !== undefined };
  from.dispatchEvent(new CustomEvent('page-message', { detail, bubbles: true, composed: true }));
}
