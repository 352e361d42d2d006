/** Asks the page to show what is kept of one animal: counts by day, treatments, decisions. */
export function showHistory(from: HTMLElement, row: string): void {
  from.dispatchEvent(
    new CustomEvent('sd-show-animal', { detail: { row }, bubbles: true, composed: true }),
  );
}
