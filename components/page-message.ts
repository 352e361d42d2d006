/** What the page says at its foot, and to a screen reader, until the next thing is done. */
export interface PageMessage {
  readonly sentence: string;
  /** Offer to take back what the sentence is about. */
  readonly canUndo: boolean;
}

/**
 * Asks the page around an element to say something, until the next edit. What is said of an edit is
 * said after it; an element that the edit takes away hands in the page it stood on, see `pageOf`.
 */
export function tell(from: HTMLElement, sentence: string, undo?: 'with undo'): void {
  const detail: PageMessage = { sentence, canUndo: undo !== undefined };
  from.dispatchEvent(new CustomEvent('page-message', { detail, bubbles: true, composed: true }));
}

/** The page an element stands on; the element itself where there is none. */
export function pageOf(element: HTMLElement): HTMLElement {
  for (let at: Node | null = element; at; at = at.parentNode ?? hostOf(at))
    if (at instanceof HTMLElement && at.localName === 'sd-page') return at;
  return element;
}

function hostOf(node: Node): Element | null {
  return node instanceof ShadowRoot ? node.host : null;
}
